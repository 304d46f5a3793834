import { describe, expect, it } from 'vitest'
import { publishedCriteria } from '@/lib/condition/published-criteria'
import { contextFor } from '@/lib/condition/context'
import { pixelsOverBarrel } from '@/lib/condition/infrared-causes'
import { defaultPolicy } from '@/lib/condition'

const SOURCE = 'ANSI/NETA ATS-2003, Table 100.18'

/** ANSI/NETA Table 100.18, read in a copy of the ATS-2003 appendix: verified. It begins at one degree; the gaps between its whole degrees are closed. */
describe('published temperature-difference criteria', () => {
  it.each([
    [0, null], [0.9, null], [1, 'Possible deficiency'], [3, 'Possible deficiency'], [3.1, 'Indicates probable deficiency'],
    [15, 'Indicates probable deficiency'], [15.1, 'Major discrepancy'], [-2, null],
  ])('%f K over a similar component: %s', (differenceK, action) => {
    const found = publishedCriteria(differenceK, undefined)
    expect(found.map((row) => row.action.split(';')[0]?.replace('.', ''))).toEqual(action === null ? [] : [action])
    for (const row of found) expect(row).toMatchObject({ column: 'similar component', source: SOURCE })
  })

  it.each([
    [0.9, undefined], [1, 'Possible deficiency'], [10, 'Possible deficiency'], [10.1, 'Indicates probable deficiency'], [20, 'Indicates probable deficiency'], [20.1, 'Monitor'],
    [40, 'Monitor'], [40.1, 'Major discrepancy'],
  ])('%f K over the air: %s', (differenceK, action) => {
    const [row] = publishedCriteria(undefined, differenceK)
    expect(row?.column).toBe(action === undefined ? undefined : 'ambient air')
    expect(row?.action.slice(0, action?.length)).toBe(action)
  })
})

/** Greatest distance for three pixels over a barrel of 47.6 mm: computed. */
describe('pixels over the barrel', () => {
  const GREATEST = [[0.2, 79.3], [0.34, 46.7], [0.68, 23.3], [1.1, 14.4], [1.36, 11.7]] as const
  it.each(GREATEST)('%f mrad sees three of them at %f m', (ifovMrad, distanceM) => {
    const context = contextFor({ kind: 'full-tension splice', subconductors: 1, barrelOdMm: 47.6 }, defaultPolicy)
    const seen = (atM: number) =>
      pixelsOverBarrel({ source: 'infrared', readingId: 1, afterRepair: false, ifovMrad, distanceM: atM }, context) ?? NaN
    expect(seen(distanceM - 0.1)).toBeGreaterThan(3)
    expect(seen(distanceM + 0.1)).toBeLessThan(3)
  })
})
