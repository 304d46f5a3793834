import { describe, expect, it } from 'vitest'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { ClassBar, ClassWords, countsSentence } from '@/components/health/class-bar'
import { rowLabel, SpliceRow } from '@/components/operations/splice-row'
import { classNow, isPastReMeasure, pastText, readAtMs } from '@/components/splice/past-re-measure'
import { summary } from '@/test/fixtures/components/samples'

const NOW_MS = Date.parse('2026-11-30T12:00:00Z')
const flown = summary({ class: 'sound', measured_class: 'sound', confidence: 'low', flags: ['stale', 'infrared-only'], ratio: null,
  last_reading_at: '2023-04-11T18:00:00Z', conclusive_at: '2020-07-14T18:00:00Z', measure_by: '2022-07-14T18:00:00Z' })
const words = { system: 'us' as const, timeZone: 'UTC', letters: {}, nowMs: NOW_MS, lineNames: new Map<number, string>() }

describe('a sound splice that nobody measured again in time', () => {
  it('was sound, and is not called so now', () => {
    expect(classNow(flown, NOW_MS)).toBe('was sound')
    expect(pastText(flown, 'UTC', NOW_MS)).toBe('past re-measure since Jul 2022')
    expect(classNow(flown, Date.parse('2022-07-01T00:00:00Z'))).toBe('sound')
    expect(classNow({ ...flown, measure_by: null }, NOW_MS)).toBe('was sound')
    expect(classNow({ ...flown, measure_by: null, flags: [] }, NOW_MS)).toBe('sound')
  })

  it('says so in its row of the list', () => {
    expect(rowLabel({ type: 'splice', key: 's1', splice: flown, among: false }, words)).toContain(`${flown.splice}, was sound, past re-measure since Jul 2022`)
    const html = renderToStaticMarkup(createElement(SpliceRow, { splice: flown, among: false, words }))
    expect(html).toContain('was sound')
    expect(html).toContain('Jul 2020')
  })

  it('is told apart wherever sound ones are counted', () => {
    const counts = { sound: 214, watch: 0, degraded: 0, urgent: 0, critical: 2, unknown: 0 }
    expect(countsSentence(counts, 60)).toBe('2 critical, 214 sound, of them 60 past re-measure')
    expect(countsSentence(counts)).toBe('2 critical, 214 sound')
    const bar = renderToStaticMarkup(createElement(ClassBar, { counts, soundPast: 60 }))
    expect(bar).toContain('title="154 sound"')
    expect(bar).toContain('title="60 were sound, past re-measure"')
    expect(renderToStaticMarkup(createElement(ClassWords, { counts, soundPast: 60 }))).toContain('of them 60 past re-measure')
  })
})

describe('a class with a response time of its own', () => {
  it('stays as bad as it was found, however long ago', () => {
    for (const of of ['degraded', 'urgent', 'critical', 'unknown'] as const) expect(isPastReMeasure({ ...flown, class: of }, NOW_MS)).toBe(false)
    expect(isPastReMeasure({ ...flown, class: 'watch' }, NOW_MS)).toBe(true)
    expect(classNow({ ...flown, class: 'watch' }, NOW_MS)).toBe('watch')
  })
})

describe('the age of a class', () => {
  it('is that of the last look that could have shown it failing: a later picture that proves nothing makes a sound one no younger', () => {
    const sound = summary({ class: 'sound', measured_class: 'sound', last_reading_at: '2023-04-11T10:00:00Z', conclusive_at: '2020-07-15T10:00:00Z' })
    expect(readAtMs(sound)).toBe(Date.parse('2020-07-15T10:00:00Z'))
    expect(readAtMs({ ...sound, class: 'urgent', held: true, found_at: '2021-01-01T00:00:00Z' })).toBe(Date.parse('2021-01-01T00:00:00Z'))
    expect(readAtMs({ ...sound, class: 'unknown', conclusive_at: null })).toBe(Date.parse('2023-04-11T10:00:00Z'))
  })
})
