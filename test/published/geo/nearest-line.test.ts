import { describe, expect, it } from 'vitest'
import { lineDensity, normalDensity } from '@/lib/geo/place/emission'

/** Share of readings whose nearest line is the wrong one, by spread and gap of two lines, metres; status computed. */
const WRONG = [
  [1, 6, '0.00135'],
  [1, 8, '3.167e-5'],
  [1, 12, '9.866e-10'],
  [1.5, 6, '0.02275'],
  [1.5, 8, '0.00383'],
  [1.5, 12, '3.167e-5'],
  [3, 6, '0.1587'],
  [3, 8, '0.09121'],
  [3, 12, '0.02275'],
  [5, 6, '0.2743'],
  [5, 8, '0.2119'],
  [5, 12, '0.1151'],
] as const

/** Half a unit in the last printed digit. */
function halfDigit(printed: string): number {
  const [digits = '', power = '0'] = printed.split('e')
  return 0.5 * 10 ** (Number(power) - (digits.split('.')[1] ?? '').length)
}

/** Integrates the readings that a normal error of this spread puts where the other line explains them better. */
function shareWrong(sigmaM: number, gapM: number): number {
  const stepM = sigmaM / 1000
  const middleM = gapM / 2
  let share = 0
  for (let k = -12_000; k < 12_000; k++) {
    const offsetM = middleM + (k + 0.5) * stepM
    if (lineDensity(offsetM - gapM, sigmaM) > lineDensity(offsetM, sigmaM)) share += normalDensity(offsetM, sigmaM) * stepM
  }
  return share
}

describe('one reading against two lines', () => {
  it.each(WRONG)('with a spread of %f m and a gap of %f m is given to the wrong line in a share of %s', (sigmaM, gapM, printed) => {
    expect(Math.abs(shareWrong(sigmaM, gapM) - Number(printed))).toBeLessThanOrEqual(halfDigit(printed))
  })

  it('the density of a distance is a density', () => {
    let sum = 0
    for (let distanceM = -200; distanceM < 200; distanceM += 0.01) sum += lineDensity(distanceM, 4) * 0.01
    expect(sum).toBeCloseTo(1, 6)
  })
})
