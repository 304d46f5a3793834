/** 'Row 12, line 13, conductor_uohm (column 'Rc'): ' before what is wrong; row and field stand in columns of their own. */
const PLACE = /^Row \d+(?:, line \d+)?(?:, [a-z0-9_]+(?: \(column '.*?'\))?)?: /

/** What is wrong, without where: for lists that show row and field beside it. */
export function faultText(message: string): string {
  const text = message.replace(PLACE, '')
  return text.charAt(0).toUpperCase() + text.slice(1)
}
