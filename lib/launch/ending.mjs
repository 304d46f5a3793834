import fs from 'node:fs'

const PARENT_CHECK_MS = 500

/**
 * Resolves when the user or the system asks this command to end: Ctrl-C, a stop signal, a closed terminal,
 * or npm ending without passing that on.
 * @returns {Promise<void>}
 */
export function untilAskedToEnd() {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => resolve())
    whenNpmEnds(resolve)
  })
}

/**
 * Calls back when the npm that runs this script is gone: killed, or ended by a signal that its shell did not pass on.
 * @param {() => void} callback
 */
export function whenNpmEnds(callback) {
  if (!process.env.npm_lifecycle_event) return
  const atStart = lineage()
  const timer = setInterval(() => {
    if (lineage() === atStart) return
    clearInterval(timer)
    callback()
  }, PARENT_CHECK_MS)
  timer.unref()
}

// npm runs a script through a shell, which outlives a killed npm; so where the parent is such a shell, its parent counts too.
function lineage() {
  const parent = process.ppid
  try {
    const isShell = fs.readFileSync(`/proc/${parent}/cmdline`, 'utf8').split('\0')[1] === '-c'
    const [, grandparent] = isShell ? /^PPid:\s*(\d+)/m.exec(fs.readFileSync(`/proc/${parent}/status`, 'utf8')) ?? [] : []
    return `${parent} ${grandparent ?? ''}`
  } catch {
    return String(parent) // only Linux tells
  }
}
