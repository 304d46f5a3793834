// Plain Node: npm start reads its port by it too.
import net from 'node:net'

/**
 * The port that PORT asks for, or 3000. Throws a sentence where it is no port.
 * @param {string | undefined} [text]
 */
export function portAsked(text = process.env.PORT) {
  const asked = text?.trim() ?? ''
  if (asked === '') return 3000
  if (/^\d{1,5}$/.test(asked) && Number(asked) >= 1 && Number(asked) <= 65_535) return Number(asked)
  throw new Error(`PORT is '${asked}', which is no port. Set it to a whole number from 1 to 65535, for example PORT=3100.`)
}

/**
 * Why a port cannot be listened on: EADDRINUSE, EACCES, EADDRNOTAVAIL …; null where it can.
 * @param {number} port
 * @param {string} [host]
 * @returns {Promise<string | null>}
 */
export function portTrouble(port, host = '127.0.0.1') {
  return new Promise((resolve) => {
    const probe = net.createServer()
    probe.once('error', (e) => resolve(/** @type {NodeJS.ErrnoException} */ (e).code ?? e.message))
    probe.listen(port, host, () => probe.close(() => resolve(null)))
  })
}

const ASK_LIMIT_MS = 2000

/**
 * A sentence on why a port cannot be listened on and what to do; null where it can. Whoever holds it is asked who it is,
 * and not for long: it may take a connection and never answer.
 * @param {number} port
 * @param {string} command as a person types it with another port
 * @param {string} [host]
 */
export async function whyNotPort(port, command, host = '127.0.0.1') {
  const trouble = await portTrouble(port, host)
  if (trouble === null) return null
  const another = `Set PORT to another number, for example: PORT=${port === 3100 ? 3200 : 3100} ${command}`
  if (trouble === 'EACCES') return `This account may not listen on port ${port}. ${another}`
  if (trouble !== 'EADDRINUSE') return `Port ${port} of ${host} cannot be listened on (${trouble}). ${another}`
  return await isOurs(port)
    ? runsAlready(port)
    : `Port ${port} of ${host} is taken by another program. ${another}`
}

/**
 * @param {number} port
 * @param {string} [dir] where its database is kept, for those who asked by that
 */
export const runsAlready = (port, dir) => `Spanledger runs already at http://127.0.0.1:${port}${dir === undefined ? '' : `, on the database in ${dir}`}. `
  + `Open it there, or stop it with Ctrl-C where it was started: what was done in it is kept.${dir === undefined ? '' : ' Another database is named by --data DIR.'}`

/** @param {number} port */
export async function isOurs(port) {
  try {
    const answer = await fetch(`http://127.0.0.1:${port}/api/health/live`, { signal: AbortSignal.timeout(ASK_LIMIT_MS) })
    return answer.ok && JSON.parse((await answer.text()).slice(0, 1000)).status === 'live'
  } catch {
    return false
  }
}
