import fs from 'node:fs'

const PARENT_CHECK_MS = 500

/**
 * Resolves when the user or the system asks this command to end: Ctrl-C, a stop signal, a closed terminal,
 * or, under npm, npm being killed without a chance to say so.
 */
export function untilAskedToEnd(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => resolve())
    if (!process.env.npm_lifecycle_event) return
    const atStart = lineage()
    setInterval(() => (lineage() === atStart ? undefined : resolve()), PARENT_CHECK_MS).unref()
  })
}

// npm runs a script through a shell, which outlives a killed npm; so where the parent is such a shell, its parent counts too.
function lineage(): string {
  const parent = process.ppid
  try {
    const isShell = fs.readFileSync(`/proc/${parent}/cmdline`, 'utf8').split('\0')[1] === '-c'
    const [, grandparent] = isShell ? /^PPid:\s*(\d+)/m.exec(fs.readFileSync(`/proc/${parent}/status`, 'utf8')) ?? [] : []
    return `${parent} ${grandparent ?? ''}`
  } catch {
    return String(parent) // only Linux tells
  }
}
