import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import { assess, defaultPolicy, explain, type Evidence } from '@/lib/condition'
import type { SpliceDetail } from '@/lib/contract/contract'
import { detail } from '@/test/fixtures/components/samples'

const TAKEN = Date.parse('2026-03-14T16:26:00Z')

/**
 * Facts of the trade (common practice, no published source): on Bobolink sides of 10 and 53 against 12 µΩ give 4.42, a splice in
 * need of repair; after it 8 and 7 give 0.67 and 0.58, better than the line.
 */
const measured = (sideAUohm: number, sideBUohm: number, after: Evidence[] = []): SpliceDetail => {
  const assessment = assess({
    facts: { kind: 'full-tension splice', conductorCode: 'Bobolink', subconductors: 1, ratingA: 1400, maxOperatingC: 75 },
    evidence: [{
      source: 'resistance', readingId: 11, takenAtMs: TAKEN, afterRepair: false, sideAUohm, sideBUohm, conductorUohm: 12,
      electrodeSpanM: 0.3048, sidesDeclared: true,
    }, ...after],
    policy: defaultPolicy, asOfMs: TAKEN + 86_400_000,
  })
  const words = explain(assessment, { unitSystem: 'metric' })
  return detail({
    class: assessment.class, measured_class: assessment.class, confidence: assessment.confidence, ratio: assessment.ratio ?? null,
    assessment: JSON.parse(JSON.stringify(assessment)) as Record<string, unknown>,
    assessment_text: { headline: words.headline, reasons: words.reasons, next_actions: words.nextActions, flags: words.flags },
  })
}

const sheet = (of: SpliceDetail, system: 'us' | 'metric' = 'us'): string =>
  renderToStaticMarkup(createElement(SpliceSheet, { detail: of, system, timeZone: 'UTC', letters: {}, nowMs: TAKEN + 2 * 86_400_000 }))
    .replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')

describe('the sheet of what the engine found', () => {
  it('shows 4.42 on the worse side, what to do and by when, and each side in its place', () => {
    const text = sheet(measured(10, 53))
    expect(text).toContain('4.42 times its conductor')
    expect(text).toContain('Side B, toward STR 46 , governs 4.42')
    expect(text).toContain('0.83')
    expect(text).toContain('Call the control room now.')
    expect(text).toContain('If it trips')
  })

  it('shows 0.67 after repair as electrically sound, and asks only to measure again', () => {
    const text = sheet(measured(8, 7))
    expect(text).toContain('0.67 times its conductor')
    expect(text).toContain('Electrically sound')
    expect(text).not.toContain('If it trips')
    expect(text).toMatch(/Measure again by \d+ \w+ 20\d\d\./)
  })

  it('says nothing of the mechanical state, and says that it does not', () => {
    expect(sheet(measured(8, 7))).toContain('Resistance and infrared say nothing of the mechanical state')
  })

  it('speaks in the reader\'s units, whatever the server was set to', () => {
    expect(sheet(measured(10, 53), 'us')).toContain('STR 45-46 + 404 ft')
    expect(sheet(measured(10, 53), 'metric')).toContain('STR 45-46 + 123 m')
  })

  // A picture of 88.1 °C against 36.8 °C of its conductor at 420 A (190.5 °F and 98.2 °F), too far off for a ratio.
  it('leads with a picture that its ratio does not explain, and shows neither that ratio as the figure nor a current', () => {
    const text = sheet(measured(8, 8.5, [{
      source: 'infrared', readingId: 12, takenAtMs: TAKEN + 3_600_000, afterRepair: false, spliceTempC: 88.1, conductorTempC: 36.8, referenceKind: 'own-conductor',
      ambientC: 25, windMS: 1, lineCurrentA: 420, current30minA: 420, distanceM: 200, ifovMrad: 0.34,
    }]))
    expect(text).toMatch(/Urgent low confidence 92\.3 °F hotter than its own conductor, infrared 14 Mar 2026/)
    expect(text).toContain('Urgent: infrared of 14 Mar 2026 shows it 92.3 °F hotter than its own conductor, which its ratio of 0.71, read 14 Mar 2026, does not explain.')
    expect(text).not.toContain('times its conductor, measured')
    expect(text).not.toContain('governs')
  })
})
