const LOOPBACK = /^(127\.\d+\.\d+\.\d+|localhost|::1|\[::1\])$/
const ADDRESS = /^(\d+\.\d+\.\d+\.\d+|\[[\da-f:.]+\])$/i

/** `host` or `[::1]` of a Host header, in lower case and without its port. */
const nameOf = (host: string): string => host.toLowerCase().replace(/:\d+$/, '')

/**
 * Whether a browser may have been sent here by its user. A server that listens on this machine alone has no other name than localhost; another
 * name in the Host header is that of a foreign page whose name was pointed here, which may then read all that there is. An address cannot be.
 * @param names of this server as a reverse proxy asks for it, set by the operator (SERVER_NAMES)
 */
export function isKnownHost(host: string | null, listensOn = process.env.HOSTNAME, names = process.env.SERVER_NAMES ?? ''): boolean {
  if (host === null) return true
  const name = nameOf(host)
  if (name === 'localhost' || name.endsWith('.localhost') || ADDRESS.test(name)) return true
  const own = names.split(',').map((one) => one.trim().toLowerCase()).filter(Boolean)
  return own.length > 0 ? own.includes(name) : !LOOPBACK.test(listensOn ?? '')
}

export const UNKNOWN_HOST = {
  code: 'unknown-host',
  detail: 'This server does not go by the name in the address.',
  remedy: 'Open it as localhost or by its address. Behind a reverse proxy start it with SERVER_NAMES=name, several with commas.',
}
