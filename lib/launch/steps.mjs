// Progress of a command as lines with times: "Building the pages … 12.3 s". It goes to stderr: stdout is for results.
const terminal = Boolean(process.stderr.isTTY)

/**
 * Runs `work` under a line of its own. `work` may report how far it is; a terminal shows that in place.
 * @template T
 * @param {string} label
 * @param {(report: (text: string) => void) => T | Promise<T>} work
 * @returns {Promise<T>}
 */
export async function step(label, work) {
  const started = performance.now()
  process.stderr.write(`  ${label} …`)
  const report = (/** @type {string} */ text) => {
    if (terminal) process.stderr.write(`\r\x1b[K  ${label} … ${text}`)
  }
  const close = (/** @type {string} */ end) => process.stderr.write(terminal ? `\r\x1b[K  ${label} … ${end}\n` : ` ${end}\n`)
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
