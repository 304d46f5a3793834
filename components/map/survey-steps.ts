import type { Theme } from './class-colours'

/**
 * How long ago spans were last surveyed, newest first: one hue from deep to pale (in dark from bright to dim), which no class has, so that
 * a line is never taken for a condition. Each stands out from land by 3:1 (WCAG 2.2, 1.4.11); form and words go with it.
 */
export const SURVEY_COLOURS: Record<Theme, readonly [string, string, string, string]> = {
  light: ['#003734', '#165753', '#3a7773', '#599691'],
  dark: ['#afefe9', '#86c5bf', '#5f9c96', '#3a7773'],
}

/** Years before the present one with which the second, third and fourth step begin: our own choice, near the usual re-survey intervals. */
const STEP_YEARS = [2, 4, 7] as const

/** The first year of each step but the last, newest first: a year at or after one belongs to its step. */
export const stepStarts = (nowYear: number): number[] => STEP_YEARS.map((ago) => nowYear - ago + 1)

export const stepOf = (year: number, nowYear: number): number => {
  const step = stepStarts(nowYear).findIndex((start) => year >= start)
  return step < 0 ? STEP_YEARS.length : step
}

/** '2025 and 2026', '2020 to 2022', '2019 or before'. */
export function stepText(step: number, nowYear: number): string {
  const starts = stepStarts(nowYear)
  const to = step === 0 ? nowYear : (starts[step - 1] ?? nowYear) - 1
  const from = starts[step]
  if (from === undefined) return `${to} or before`
  return from === to ? String(to) : `${from} ${to - from === 1 ? 'and' : 'to'} ${to}`
}
