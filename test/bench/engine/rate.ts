export type Say = (line: string) => void

export const number = (value: number): string => Math.round(value).toLocaleString('en-US')

/** How often a second `work` is done on each of `items` in turn; warm. By processor time too, where somebody counts it: the machine is rarely its own. */
export function rate<T>(say: Say, name: string, items: readonly T[], rounds: number, work: (item: T, round: number) => unknown): void {
  // A server judges by the million: what the compiler still learns in the first hundred thousand is no part of its rate.
  for (let round = 0; round < rounds / 2; round++) for (const item of items) work(item, round)
  const startedMs = performance.now()
  const cpu = globalThis.process?.cpuUsage?.()
  let answers = 0
  for (let round = 0; round < rounds; round++) for (const item of items) if (work(item, round) !== undefined) answers++
  const wallS = (performance.now() - startedMs) / 1000
  const used = cpu && process.cpuUsage(cpu)
  const perCpu = used ? `, ${number(answers / ((used.user + used.system) / 1e6))} per CPU second` : ''
  const missing = items.length * rounds - answers
  say(`${name}: ${number(answers / wallS)}/s by the clock${perCpu}${missing > 0 ? ` (${number(missing)} gave nothing)` : ''}`)
}

/** Small linear congruential generator, 0 to 1: the same work in every run. */
export function draws(): () => number {
  let state = 1
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296
    return state / 4_294_967_296
  }
}
