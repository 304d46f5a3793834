const PARENT_CHECK_MS = 500

/**
 * Resolves when the user or the system asks this command to end: Ctrl-C, a stop signal, a closed terminal,
 * or, under npm, npm being killed without a chance to say so.
 */
export function untilAskedToEnd(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => resolve())
    const parent = process.ppid
    if (process.env.npm_lifecycle_event) {
      setInterval(() => (process.ppid === parent ? undefined : resolve()), PARENT_CHECK_MS).unref()
    }
  })
}
