// Progress of a command as lines with times: "Building the pages … 12.3 s". It goes to stderr: stdout is for results.
const terminal = Boolean(process.stderr.isTTY)

/** How often work that says nothing shows that it goes on: in place on a terminal, by a line elsewhere. */
const SIGN_OF_LIFE_MS = terminal ? 1_000 : 10_000

/**
 * Runs `work` under a line of its own. `work` may report how far it is; a terminal shows that in place. Long work says how long it has
 * taken so far, so that an install or a build of minutes is never silent.
 * @template T
 * @param {string} label
 * @param {(report: (text: string) => void) => T | Promise<T>} work
 * @returns {Promise<T>}
 */
export async function step(label, work, signOfLifeMs = SIGN_OF_LIFE_MS) {
  const started = performance.now()
  let told = ''
  let openLine = true // the label stands there, and what ends it may follow on the same line
  process.stderr.write(`  ${label} …`)
  const show = () => {
    const text = [told, `${Math.floor((performance.now() - started) / 1000)} s`].filter(Boolean).join(', ')
    process.stderr.write(terminal ? `\r\x1b[K  ${label} … ${text}` : `${openLine ? '\n' : ''}  ${label} … ${text} so far\n`)
    if (!terminal) openLine = false
  }
  const alive = setInterval(show, signOfLifeMs)
  const report = (/** @type {string} */ text) => {
    told = text
    if (terminal) process.stderr.write(`\r\x1b[K  ${label} … ${text}`)
  }
  const close = (/** @type {string} */ end) => {
    clearInterval(alive)
    process.stderr.write(terminal ? `\r\x1b[K  ${label} … ${end}\n` : `${openLine ? '' : `  ${label} …`} ${end}\n`)
  }
  try {
    const result = await work(report)
    close(seconds(performance.now() - started))
    return result
  } catch (e) {
    close('failed')
    throw e
  }
}

/** @param {number} ms */
export const seconds = (ms) => `${(ms / 1000).toFixed(1)} s`

/**
 * A line of the command's result.
 * @param {string} text
 */
export const say = (text) => process.stdout.write(`${text}\n`)

/**
 * A sentence on what went wrong or what to do, beside the result.
 * @param {string} text
 */
export const warn = (text) => process.stderr.write(`${text}\n`)
