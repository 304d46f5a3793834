import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import { aheadMs, leadingTrend } from '@/components/splice/trend-lines'
import { readAssessment } from '@/components/splice/assessment'
import { valueText } from '@/components/splice/working-text'
import { assess, defaultPolicy, type Assessment, type Evidence, type SpliceFacts } from '@/lib/condition'
import type { SpliceDetail } from '@/lib/contract/contract'
import { outlookOf } from '@/lib/store/outlook'
import type { UnitSystem } from '@/lib/units/format'
import { detail } from '@/test/fixtures/components/samples'

const NOW = Date.parse('2026-11-24T12:00:00Z')
const FACTS: SpliceFacts = {
  kind: 'full-tension splice', conductorCode: 'Drake', subconductors: 1, barrelOdMm: 47.8, ratingA: 900, maxOperatingC: 75, voltageKv: 230,
}

const resistance = (year: number, ratio: number, more: object = {}): Evidence => ({
  source: 'resistance', readingId: year, takenAtMs: Date.parse(`${year}-06-01T10:00:00Z`), survey: `Walk ${year}`, afterRepair: false, sidesDeclared: true,
  sideAUohm: 21.8 * ratio, sideBUohm: 15, conductorUohm: 21.8, electrodeSpanM: 0.3048, ...more,
})
/** Hotter than its conductor by less than the sides allow: the sensible outcome is a conflict with resistance. */
const picture: Evidence = {
  source: 'infrared', readingId: 9, takenAtMs: Date.parse('2026-06-02T10:00:00Z'), afterRepair: false, spliceTempC: 74, conductorTempC: 52,
  referenceKind: 'own-conductor', ambientC: 24, windMS: 1, sun: 'none', rain1h: false, lineCurrentA: 720, current30minA: 715, distanceM: 20, ifovMrad: 0.5,
}

const judged = (evidence: Evidence[], facts = FACTS): Assessment => assess({ facts, evidence, policy: defaultPolicy, asOfMs: NOW })

const stored = (assessment: Assessment, facts = FACTS, over: Partial<SpliceDetail> = {}): SpliceDetail => detail({
  class: assessment.class, measured_class: assessment.class, ratio: assessment.ratio ?? null, voltage_kv: facts.voltageKv ?? null,
  conductor: facts.conductorCode ?? null, assessment: JSON.parse(JSON.stringify(assessment)) as Record<string, unknown>, outlook: outlookOf(assessment, facts, { held: false, figure: true }, defaultPolicy), ...over,
})

const html = (of: SpliceDetail, system: UnitSystem = 'metric'): string =>
  renderToStaticMarkup(createElement(SpliceSheet, { detail: of, system, timeZone: 'UTC', letters: { A: 'A', B: 'B', C: 'C' }, nowMs: NOW }))
const sheet = (of: SpliceDetail, system?: UnitSystem): string => html(of, system).replace(/<[^>]+>/g, ' ').replace(/&#x27;/g, "'").replace(/\s+/g, ' ')

describe('what a splice may carry', () => {
  const growing = judged([resistance(2022, 1.2), resistance(2024, 1.5), resistance(2026, 1.9)])
  const limitA = growing.limit?.lineA ?? NaN

  it('is one figure in amperes per phase and MVA, with its caution once', () => {
    const text = sheet(stored(growing))
    expect(text).toContain(`What it may carry ${new Intl.NumberFormat('en-US').format(Math.floor(limitA))} A per phase`)
    expect(text).toContain(`${Math.floor((Math.sqrt(3) * 230 * limitA) / 1000)} MVA at 230 kV`)
    expect(text.match(/Advice for the rating engineer, thermal only/g)).toHaveLength(1)
    expect(limitA).toBeLessThan(900)
  })

  it('reads the weather and the temperature in the reader’s units', () => {
    expect(sheet(stored(growing), 'metric')).toMatch(/air 25\.0 °C.*not over 93 °C/)
    expect(sheet(stored(growing), 'us')).toMatch(/air 77\.0 °F.*not over 199 °F/)
  })

  it('says how old the flow beside it is, and asks for the present one', () => {
    const flow = (taken_at: string) => sheet(stored(growing, FACTS, { last_load: { current_a: 184, taken_at, quality: null } }))
    const under = Math.floor(limitA) - 184
    expect(flow('2026-10-29T12:00:00.000Z')).toContain(`Last known flow 184 A , 29 Oct 2026 12:00 UTC, 26 days ago: ${under} A under the advised figure then . Ask the control room for the present flow.`)
    expect(flow('2026-11-24T11:30:00.000Z')).toContain(`Last known flow 184 A , 24 Nov 2026 11:30 UTC: ${under} A under the advised figure . `)
  })

  it('says what is missing and whom to ask', () => {
    const bare = { ...FACTS, conductorCode: undefined }
    expect(sheet(stored(judged([resistance(2026, 1.9)], bare), bare))).toMatch(/What it may carry Not known: the conductor of the section is not on record\..*Expected peak not known: ask the system planner\. After contingency not known: ask the system planner\./)
    const voltless = { ...FACTS, voltageKv: undefined }
    expect(sheet(stored(judged([resistance(2026, 1.9)], voltless), voltless))).toContain('MVA not known: the circuit’s voltage is not on record.')
  })

  it('is not drawn from better readings than those that hold the class', () => {
    const good = judged([resistance(2026, 0.6)])
    expect(sheet(stored(good))).toContain('What it may carry Nothing that was read limits it below its section, which is rated')
    expect(sheet(stored(good, FACTS, { measure_by: '2026-01-01' }))).toContain('What it may carry Not known any more: it was to be measured again.')
    expect(sheet(stored(good, FACTS, { flags: ['infrared-only'] }))).toContain('What it may carry Not known of each side: infrared sees their mean')
    expect(sheet(stored(good, FACTS, { class: 'critical', held: true, outlook: outlookOf(good, FACTS, { held: true, figure: false }, defaultPolicy) }))).toContain('What it may carry Not known: the class is held')
  })
})

describe('growth', () => {
  const growing = judged([resistance(2022, 1.2), resistance(2024, 1.5), resistance(2026, 1.9)])

  it('is drawn with its band, said in words, and asks to be read again', () => {
    const markup = html(stored(growing))
    expect(markup).toMatch(/<path d="M[^"]*Z" class="[^"]*band/)
    const text = sheet(stored(growing))
    expect(text).toMatch(/The ratio of side A grows by \d+% a year over 3 readings/)
    // Urgent: its confirmation and each peak of load say when, and no day beside them.
    expect(text).not.toMatch(/To be read again by/)
  })

  it('asks once where reading it again is among what is next, by the same day', () => {
    const watch = judged([resistance(2024, 0.95), resistance(2026, 1.1)])
    expect(watch.nextActions.map(({ code }) => code)).toContain('measure-again')
    const text = sheet(stored(watch))
    const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' }).format(watch.nextReadingDueMs)
    expect(text).toMatch(new RegExp(`Measure again by ${day}`))
    expect(text).not.toContain('To be read again')
  })

  it('looks ahead to the next reading, and no further than what was watched', () => {
    const read = readAssessment(JSON.parse(JSON.stringify(growing)) as Record<string, unknown>)
    const lead = leadingTrend(read?.trends ?? [], 'A')
    const [first, last] = [Date.parse('2022-06-01T10:00:00Z'), Date.parse('2026-06-01T10:00:00Z')]
    expect(lead?.series).toBe('A')
    expect(aheadMs(lead, first, last, last + 1)).toBeGreaterThan(last)
    expect(aheadMs(lead, first, last, last + 100 * 365 * 86_400_000)).toBe(last + (last - first))
    expect(aheadMs(null, first, last, null)).toBe(last)
  })
})

describe('two sources', () => {
  const conflict = judged([resistance(2026, 0.5), picture])

  it('stand on one axis, and what contradicts says which reading would settle it', () => {
    expect(conflict.fusion?.conflict).toBe(true)
    const text = sheet(stored(conflict))
    expect(text).toMatch(/Infrared, 2 Jun 2026/)
    expect(text).toMatch(/What would settle it .*cannot both be right.*What settles it: the resistance of every interface/)
    const k = conflict.fusion?.sources.find(({ source }) => source === 'infrared')?.k ?? NaN
    expect(html(stored(conflict))).toContain(`aria-label="Infrared: measured ${k.toFixed(2)}`)
  })

  it('draws for infrared what is believed, within its bar, where that decides', () => {
    const alone = judged([picture])
    const { meanLnK, sdLnK } = alone.fusion?.believed ?? { meanLnK: NaN, sdLnK: NaN }
    const k = alone.fusion?.sources[0]?.k ?? NaN
    const [low, mid, high] = [-1, 0, 1].map((side) => Math.exp(meanLnK + side * 1.645 * sdLnK).toFixed(2)) // nine times in ten: 1.645 standard deviations (normal table)
    expect(mid).not.toBe(k.toFixed(2))
    expect(html(stored(alone))).toContain(`aria-label="Infrared: measured ${k.toFixed(2)}, believed ${mid}, between ${low} and ${high}"`)
    expect(sheet(stored(alone))).toContain(`believed ${mid}`)
    // Where resistance governs, the picture is drawn as it counts today and not as what is believed.
    expect(html(stored(judged([resistance(2026, 1.9), picture])))).toMatch(/aria-label="Infrared: measured [\d.]+, now /)
  })

  it('offers the working, closed', () => {
    expect(html(stored(conflict))).toMatch(/<details[^>]*data-open="false"[^>]*><summary>Show the working<\/summary><\/details>/)
  })
})

describe('a value of the working', () => {
  it('keeps five digits, and powers of ten where numbers are small', () => {
    expect(valueText({ value: 53, unit: 'µΩ' })).toBe('53 µΩ')
    expect(valueText({ value: -0.123456, unit: '' })).toBe('−0.12346')
    expect(valueText({ value: 7.283e-5, unit: 'Ω/m' })).toBe('7.2830 × 10⁻⁵ Ω/m')
    expect(valueText({ value: 0, unit: '' })).toBe('0')
  })
})

describe('the register of limits', () => {
  const limit = {
    id: 4, splice_id: 1, splice: 'T-B-07', circuit_id: 3, circuit: 'Elm-Oak 1', section_id: 1, line_a: 600, mva: 239, advised_a: 705, reason: 'Side A',
    proposed_by: 'P. Proposer', proposed_at: '2026-11-20T08:00:00.000Z', review_by: '2026-12-20T08:00:00.000Z', agreed_by: 'R. Engineer',
    agreed_at: '2026-11-20T09:00:00.000Z', accepted_by: 'O. Operator', accepted_at: '2026-11-20T09:30:00.000Z', in_force_from: '2026-11-20T09:30:00.000Z',
    lifted_by: null, lifted_at: null, lifted_why: null, greatest_load_a: null, standing: 'in-force', standing_why: null,
  } as const

  it('says who proposed, agreed and accepted with read back, from when and until when', () => {
    const text = sheet(detail({ limits: [limit] }))
    expect(text).toMatch(/Limit in force 600 A per phase, 239 MVA Proposed by P\. Proposer.*Agreed by R\. Engineer, rating engineer.*Accepted by O\. Operator, read back/)
    expect(text).toMatch(/In force from 20 Nov 2026.*Review by 20 Dec 2026/)
  })

  it('reads ask engineer where it has lapsed, and names who lifted an earlier one', () => {
    const text = sheet(detail({ limits: [
      { ...limit, standing: 'ask-engineer', standing_why: 'Its review is due. Ask the rating engineer.' },
      { ...limit, id: 3, standing: 'lifted', lifted_by: 'R. Engineer', lifted_at: '2026-11-19T08:00:00.000Z', lifted_why: 'Shunt proved' },
    ] }))
    expect(text).toContain('Limit lapsed: ask engineer 600 A per phase')
    expect(text).toContain('Its review is due. Ask the rating engineer.')
    expect(text).toMatch(/600 A, lifted 19 Nov 2026 08:00 UTC by R\. Engineer: Shunt proved\. Proposed 20 Nov 2026 08:00 UTC by P\. Proposer: Side A; agreed 20 Nov 2026 09:00 UTC by R\. Engineer; accepted with read back .* by O\. Operator\./)
  })

  it('says withdrawn of one that nobody had accepted', () => {
    const text = sheet(detail({ limits: [{ ...limit, standing: 'lifted', accepted_by: null, accepted_at: null, in_force_from: null, lifted_by: 'P. Proposer', lifted_at: '2026-11-21T08:00:00.000Z', lifted_why: 'Wrong splice' }] }))
    expect(text).toContain('No limit is in force now. 600 A, withdrawn before it was in force 21 Nov 2026 08:00 UTC by P. Proposer: Wrong splice.')
    expect(text).toContain('accepted by nobody.')
  })

  it('says that none stands, and asks for the flow', () => {
    const text = sheet(detail())
    expect(text).toContain('No limit is on the register.')
  })
})
