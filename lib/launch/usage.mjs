/**
 * What is wrong with how a command was called, without the words of the parser; any other error's own words.
 * @param {string} command
 * @param {Error} e
 */
export function usageSentence(command, e) {
  if (!('code' in e) || !String(e.code).startsWith('ERR_PARSE_ARGS')) return e.message
  const option = /^Option '(?:-\w, )?(--[\w-]+)[^']*'.*argument/s.exec(e.message)?.[1]
  const what = option === undefined ? e.message.split('. To specify')[0] : /does not take/.test(e.message) ? `${option} takes no value` : `${option} needs a value after it`
  return `${what}. npm run ${command} -- --help says what it takes.`
}
