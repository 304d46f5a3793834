import { expect } from 'vitest'

/** One unit in the last printed digit of a figure, so that '0.0138668' allows 1e-7 and '5.70281e-10' allows 1e-15. */
export function lastDigit(printed: string): number {
  const [mantissa = '', exponent = '0'] = printed.toLowerCase().split('e')
  const decimals = mantissa.split('.')[1]?.length ?? 0
  return 10 ** (Number(exponent) - decimals)
}

/** Expects a figure as it was printed, within one unit of its last digit and never more. */
export function expectPrinted(actual: number, printed: string): void {
  expect(Number.isFinite(actual)).toBe(true)
  const rounding = Math.abs(Number(printed)) * 4e-16
  expect(Math.abs(actual - Number(printed)), `${actual} against the printed ${printed}`).toBeLessThanOrEqual(lastDigit(printed) + rounding)
}
