/** By the clock, and by what this process really got of the processor: the machine is rarely its own. */
export interface Rate {
  perClockS: number
  perCpuS: number
}

export function stopwatch(): (count: number) => Rate {
  const startedMs = performance.now()
  const started = process.cpuUsage()
  return (count) => {
    const { user, system } = process.cpuUsage(started)
    return { perClockS: (count / (performance.now() - startedMs)) * 1000, perCpuS: (count / (user + system)) * 1e6 }
  }
}
