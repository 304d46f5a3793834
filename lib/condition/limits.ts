/** What an instrument can honestly read over an electrode span, µΩ. Outside it the value is refused by name. */
export const RESISTANCE_UOHM = { least: 0.5, greatest: 50_000 } as const

/** Electrode spans in use, m. */
export const ELECTRODE_SPAN_M = { least: 0.05, greatest: 1 } as const

export const HOUR_MS = 3_600_000
export const DAY_MS = 24 * HOUR_MS
/** Julian year: ages are years from the reading, never from 1970. */
export const YEAR_MS = 365.25 * DAY_MS

export const isResistance = (uohm: number): boolean => uohm >= RESISTANCE_UOHM.least && uohm <= RESISTANCE_UOHM.greatest
export const isElectrodeSpan = (spanM: number): boolean => spanM >= ELECTRODE_SPAN_M.least && spanM <= ELECTRODE_SPAN_M.greatest
