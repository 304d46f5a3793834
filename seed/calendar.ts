import type { Random } from './random'

const DAY_MS = 86_400_000

/** Midnight, mountain daylight time, of the n-th working day from a Monday on. */
export function workdayMs(firstMonday: string, n: number): number {
  return Date.parse(`${firstMonday}T00:00:00-06:00`) + (n + Math.floor(n / 5) * 2) * DAY_MS
}

export const clockMs = (hours: number, minutes = 0): number => (hours * 60 + minutes) * 60_000

/** Mean air temperature by month in a valley of the northern Rockies, °C (from memory, ± 3). */
const MEAN_C = [-5, -3, 2, 6, 11, 15, 20, 19, 13, 6, 0, -4]

/** Air temperature at a moment: cool in the morning, warmest about 15:00, °C. */
export function ambientC(atMs: number, random: Random): number {
  const local = new Date(atMs - 6 * 3_600_000)
  const hour = local.getUTCHours() + local.getUTCMinutes() / 60
  return (MEAN_C[local.getUTCMonth()] ?? 10) + 5.5 * Math.cos(((hour - 15) / 24) * 2 * Math.PI) + random.normal(0, 2)
}

/** Conductor rise over air at a share of rating and a wind, K: read off the heat balance's sensitivity table. */
export const conductorRiseK = (load: number, windMS: number): number => (30 * load ** 2.1) / Math.max(0.6, windMS) ** 0.45
