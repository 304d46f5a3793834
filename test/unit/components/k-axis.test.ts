import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { Figure } from '@/components/splice/k-axis-figure'
import { believedInterval, readAssessment } from '@/components/splice/assessment'
import { kScale } from '@/components/splice/k-scale'
import { ratioPoints } from '@/components/splice/reading-figures'
import { assessment, reading } from '@/test/fixtures/components/samples'

const stored = () => {
  const read = readAssessment(assessment())
  if (!read) throw new Error('The sample assessment does not read.')
  return read
}

describe('the axis of the ratio', () => {
  it('holds every edge, side and range within its width, in order', () => {
    const a = stored()
    const scale = kScale(a.edges, a.sides)
    for (const side of a.sides) {
      for (const k of [side.ratio, ...believedInterval(side)]) {
        expect(scale.percent(k)).toBeGreaterThan(0)
        expect(scale.percent(k)).toBeLessThan(100)
      }
    }
    const bounds = scale.zones.map((z) => z.fromPercent)
    expect(bounds).toEqual([...bounds].sort((x, y) => x - y))
    expect(scale.zones[0]?.fromPercent).toBe(0)
    expect(scale.zones.at(-1)?.toPercent).toBe(100)
  })

  it('puts the edge between two classes where both zones meet', () => {
    const a = stored()
    const scale = kScale(a.edges, a.sides)
    expect(scale.percent(1.85)).toBeCloseTo(scale.zones[3]?.fromPercent ?? NaN, 9)
    expect(scale.zones[2]?.toPercent).toBeCloseTo(scale.zones[3]?.fromPercent ?? NaN, 9)
  })

  it('takes the central 90 % of what is believed: exp(mean ± 1.645 sd)', () => {
    const [low, high] = believedInterval({ meanLnK: 0, sdLnK: 0.1 })
    expect(low).toBeCloseTo(0.8483, 4)
    expect(high).toBeCloseTo(1.1788, 4)
  })

  it('leaves an assessment of another form to its sentences', () => {
    expect(readAssessment(null)).toBeNull()
    expect(readAssessment({ engineVersion: '9', sides: 'other' })).toBeNull()
  })
})

describe('the ratio over time', () => {
  it('divides each side by the line: 53 and 10 over 12 are 4.42 and 0.83', () => {
    expect(ratioPoints([reading()]).map((p) => [p.side, Number(p.ratio.toFixed(2))])).toEqual([['A', 4.42], ['B', 0.83]])
  })

  it('leaves out what needs the engine: no line reading, spans that differ, no time', () => {
    const without = (fields: Record<string, number>, over = {}) => ratioPoints([reading({ fields, ...over })])
    expect(without({ side_a_uohm: 53 })).toEqual([])
    expect(without({ side_a_uohm: 53, conductor_uohm: 12, electrode_span_m: 0.3, conductor_span_m: 0.5 })).toEqual([])
    expect(without({ side_a_uohm: 53, conductor_uohm: 12 }, { taken_at: null })).toEqual([])
  })
})

describe('a ratio with its error', () => {
  const figure = (k: number, uK: number) => renderToStaticMarkup(createElement(Figure, { k, uK, other: { word: 'believed', k }, edges: [1, 1.3, 1.85, 2.75] })).replace(/<[^>]+>/g, '')
  it('has no digits that its error leaves open, near an edge neither', () => {
    expect(figure(1.8505, 0.46)).toBe('1.85 ± 0.46')
    expect(figure(1.8505, 0.001)).toContain('1.851')
  })
})
