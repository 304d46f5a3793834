import { describe, expect, it } from 'vitest'
import { edgesText, ratingMismatch } from '@/components/splice/edges-text'
import { edgeLabels, kScale } from '@/components/splice/k-scale'
import { sideName } from '@/components/splice/position'
import { apart, joined, repairsOf, timeScale, trendPoints } from '@/components/splice/trend'
import { reading } from '@/test/fixtures/components/samples'

const at = (iso: string): number => Date.parse(iso)
const visit = (iso: string, ratio: number, sidesDeclared = true, readingIds = [1]) =>
  ({ takenAtMs: at(iso), readingIds, sides: [{ side: 'A' as const, ratio, uRatio: ratio * 0.06, sidesDeclared }] })

describe('the ratio visit by visit', () => {
  it('takes what the engine made of a visit with its range, and as read what it no longer counts', () => {
    const fields = { side_a_uohm: 53, conductor_uohm: 12 }
    const points = trendPoints(
      [reading({ id: 1, fields, taken_at: '2026-05-01T00:00:00Z' }), reading({ id: 2, fields, taken_at: '2021-05-01T00:00:00Z' })],
      [visit('2026-05-01T00:00:00Z', 0.7)],
    )
    expect(points.map((p) => [new Date(p.atMs).getUTCFullYear(), Number(p.ratio.toFixed(2)), p.range !== null]))
      .toEqual([[2021, 4.42, false], [2026, 0.7, true]])
    expect(points[1]?.range?.[1]).toBeCloseTo(0.7 * Math.exp(1.645 * 0.06), 9)
  })

  it('joins no sides across a repair, nor where nobody noted which is which', () => {
    const two = (declared = true) => trendPoints([], [visit('2021-05-01', 1.2), visit('2026-05-01', 1.4, declared)])
    expect(joined(two(), [])).toHaveLength(1)
    expect(joined(two(), [at('2026-05-01')])).toEqual([])
    expect(joined(two(false), [])).toEqual([])
  })

  it('finds where each repair begins', () => {
    const after = (id: number, taken_at: string, repaired: boolean) =>
      reading({ id, taken_at, fields: repaired ? { after_repair: true } : {} })
    expect(repairsOf([after(1, '2021-05-01', false), after(3, '2022-05-02', true), after(2, '2022-05-01', true)])).toEqual([at('2022-05-01')])
  })

  it('has an axis true to time, with as many ticks as there is room for', () => {
    const scale = timeScale(at('2020-07-14'), at('2026-10-20'), [], 'UTC')
    expect(scale.ticks.length).toBeGreaterThan(1)
    for (const { text, atPercent } of scale.ticks) {
      expect(text).toMatch(/^20\d\d$/)
      expect(atPercent).toBeCloseTo(scale.percent(at(`${text}-01-01`)), 6)
    }
    const percents = scale.ticks.map((t) => t.atPercent)
    for (const [i, p] of percents.entries()) if (i > 0) expect(p - (percents[i - 1] ?? 0)).toBeGreaterThanOrEqual(30)
  })

  it('has its ticks on the days of the readings where they lie within two months, the last for certain', () => {
    const days = [at('2026-09-23'), at('2026-09-23'), at('2026-09-24'), at('2026-09-30')]
    const scale = timeScale(at('2026-09-23'), at('2026-09-30'), days, 'UTC')
    expect(scale.ticks).toEqual([{ atPercent: scale.percent(at('2026-09-24')), text: '24 Sep 2026' }, { atPercent: scale.percent(at('2026-09-30')), text: '30 Sep 2026' }])
    expect(timeScale(at('2026-09-23'), at('2026-09-30'), [at('2026-09-23'), at('2026-09-30')], 'UTC').ticks.map(({ text }) => text)).toEqual(['23 Sep 2026', '30 Sep 2026'])
  })

  it('pushes labels apart and keeps their order', () => {
    expect(apart([{ yPx: 52 }, { yPx: 50 }], 14)).toEqual([{ yPx: 50 }, { yPx: 64 }])
  })
})

describe('the edges on the axis', () => {
  it.each([
    ['usual edges', { watch: 1, degraded: 1.3, urgent: 1.85, critical: 2.75 }],
    ['edges of a hotter section', { watch: 1, degraded: 1.11, urgent: 1.22, critical: 1.81 }],
  ])('each stand with the class that begins there, none left out and none over another in the narrowest panel: %s', (_what, of) => {
    const labels = edgeLabels(kScale({ ...of, basis: 'policy' }, []))
    expect(labels.map((label) => [label.class, label.edge])).toEqual([
      ['sound', null], ['watch', of.watch], ['degraded', of.degraded], ['urgent', of.urgent], ['critical', of.critical],
    ])
    const boxes = labels.map(({ class: name, edge, atPercent, row }) => {
      const [atPx, widthPx] = [atPercent * 3, (name.length + (edge === null ? 0 : 5)) * 6] // 300 px wide; 12 px type runs to 6 px a letter
      return { row, fromPx: atPx, toPx: atPx + widthPx }
    })
    for (const [i, box] of boxes.entries()) {
      expect(box.fromPx).toBeGreaterThanOrEqual(0)
      expect(box.toPx).toBeLessThanOrEqual(300)
      for (const other of boxes.slice(i + 1)) expect(box.row !== other.row || box.toPx < other.fromPx).toBe(true)
    }
  })

  const edges = { watch: 1, degraded: 1.3, urgent: 1.85, critical: 2.75 }
  it('say for which operating temperature they are, and for which the section is', () => {
    const of = (basis: string, upToC?: number, flags: string[] = []) => ({ edges: { ...edges, basis, upToC }, flags, policyVersion: 3 })
    expect(edgesText(of('policy', 75), { max_operating_c: 75 }, 'us'))
      .toBe('The section’s maximum operating temperature is 167 °F. Edges: the general ones for sections up to 167 °F, policy 3.')
    expect(edgesText(of('section', 120), { max_operating_c: 100 }, 'metric'))
      .toBe('The section’s maximum operating temperature is 100 °C. Edges: those set for sections up to 120 °C, policy 3.')
    const computed = (rating_a: number | null) => edgesText(of('computed', 100), { max_operating_c: 100, rating_a, edges_at_a: 1_190 }, 'metric')
    expect(computed(1_010)).toBe('The section’s maximum operating temperature is 100 °C. Edges computed for this conductor and barrel at 1,190 A per phase, the current that '
      + 'brings the conductor to 100 °C in the rating weather of policy 3. The listed rating of 1,010 A is 15% lower.')
    expect(computed(1_200)).not.toContain('listed rating')
    expect(computed(1_400)).toContain('The listed rating of 1,400 A is 18% higher.')
    expect(edgesText(of('computed', 100), { max_operating_c: 100 }, 'metric')).toContain('at the current that brings the conductor to 100 °C')
    const mismatch = (rating_a: number, conductor_at_rating_c: number) =>
      ratingMismatch({ max_operating_c: 100, rating_a, edges_at_a: 1_190, conductor_at_rating_c }, 'us')
    expect(mismatch(1_010, 84.6)).toBe('The section’s listed rating and its conductor’s limit of 212 °F do not agree in rating weather: 1,010 A brings the conductor to 184 °F, '
      + 'and 212 °F takes 1,190 A. The rating is 180 A (15%) below that. Ask the rating engineer which holds.')
    expect(mismatch(1_400, 121.2)).toContain('The rating is 210 A (18%) above that.')
    expect(mismatch(1_200, 101)).toBe('')
    const makeshift = edgesText(of('policy', undefined, ['edges-default-above-75']), { max_operating_c: 100 }, 'us')
    expect(makeshift).toContain('is 212 °F, and policy 3 sets no edges for that')
    expect(makeshift).toContain('confidence stays low')
    expect(edgesText(of('policy', 75), { max_operating_c: null }, 'us')).toContain('is not known. Edges: the general ones for sections up to 167 °F')
  })
})

it('a side that nobody tied to a structure faces none', () => {
  const place = { structure_back: '45', structure_ahead: '46', kind: 'full-tension splice' }
  expect(sideName('A', place)).toBe('Side A, toward STR 45')
  expect(sideName('A', place, false)).toBe('Side A, facing not noted')
})
