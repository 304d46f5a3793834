import { describe, expect, it } from 'vitest'
import { groupHistory, offPaper } from '@/components/splice/history-groups'
import { historyWords } from '@/components/splice/history-words'
import { hotWords, nothingProvedWords } from '@/components/splice/picture-words'
import { cssString, footMark, pageMarks } from '@/components/ui/page-marks'
import { lapsesAt } from '@/components/ui/print'
import type { HistoryEntry } from '@/lib/contract/history'

const notice = (reading_key: string, over: object = {}): HistoryEntry => ({
  kind: 'notice', at: '2026-11-29T06:28:11.000Z', class: 'critical', ratio: 4.9, basis: 'reading', reading_key, survey: 'Campaign', withdrawn: false, ...over,
})
const told = (reading_key: string, over: object = {}): HistoryEntry => ({
  kind: 'told', at: '2026-11-29T06:28:12.000Z', class: 'critical', by: 'control room', reading_key, survey: 'Campaign', withdrawn: false, told_to: null, told_at: null, ...over,
})
const said = (at: string, shown: 'unknown' | 'critical', held = false): HistoryEntry => ({
  kind: 'assessment', at, class: shown, measured_class: shown, held, confidence: 'high', ratio: null, infrared_ratio: null, cause: 'import', file_name: null,
  engine_version: '2.0', policy_version: 1,
})

describe('the history of a splice', () => {
  it('puts notices of one minute in one line, and names every reading of them', () => {
    const groups = groupHistory([told('R2'), told('R1'), notice('R2', { ratio: 4.99 }), notice('R1', { ratio: 4.81 })])
    expect(groups.map((group) => historyWords(group, 'America/Denver'))).toEqual([
      { what: 'Control room told', detail: 'critical, readings R2 and R1 of Campaign; noted by control room' },
      { what: 'Urgent notice', detail: 'critical, ratio 4.81 to 4.99, by their own numbers; readings R2 and R1 of Campaign' },
    ])
  })

  it('names whom of the control room was told, and when the call was', () => {
    expect(groupHistory([told('R1', { told_at: '2026-11-29T06:10:00.767Z' }), told('R2', { told_at: '2026-11-29T06:10:00.761Z' })])).toHaveLength(1)
    const [group] = groupHistory([told('R1', { told_to: 'Desk 2, A. Rowan', told_at: '2026-11-29T06:10:00.000Z' })])
    expect(group && historyWords(group, 'America/Denver').detail).toBe('critical, reading R1 of Campaign; told Desk 2, A. Rowan at 23:10 MST; noted by control room')
  })

  it('keeps apart what another told, of another class, of another minute', () => {
    const history = [told('R1'), told('R2', { by: 'dispatcher' }), told('R3', { class: 'urgent' }), told('R4', { at: '2026-11-29T06:29:12.000Z' })]
    expect(groupHistory(history)).toHaveLength(4)
  })

  it('prints the ratio by infrared where none is by resistance', () => {
    const entry = { ...said('2026-11-04T00:00:00.000Z', 'critical'), infrared_ratio: 2.331 } as HistoryEntry
    expect(historyWords([entry], 'UTC').detail).toBe('ratio 2.33 by infrared; after an import, policy 1')
    expect(historyWords([said('2026-11-04T00:00:00.000Z', 'unknown')], 'UTC').detail).toBe('no ratio; after an import, policy 1')
  })

  it('leaves on the screen what changed no class, and prints the two newest changes', () => {
    const history = [
      said('2026-11-04T00:00:00.000Z', 'critical', true), said('2026-11-03T00:00:00.000Z', 'critical'), said('2026-11-02T00:00:00.000Z', 'unknown'),
      said('2026-11-01T00:00:00.000Z', 'unknown'),
    ]
    expect([...offPaper(history)]).toEqual([history[2], history[3]])
  })
})

describe('pictures', () => {
  const hot = { takenAtMs: Date.parse('2020-07-20T18:49:00Z'), hot: true, inconclusive: ['pixels'] }
  const cool = { takenAtMs: Date.parse('2023-04-24T18:49:00Z'), hot: false, inconclusive: ['low-load'] }

  it('that were hot are named by their day, and no cool one clears them', () => {
    expect(hotWords([cool, hot], 'America/Denver')).toBe('Hot on 20 Jul 2020. A cool picture does not clear it.')
    expect(hotWords([cool], 'America/Denver')).toBe('')
  })

  it('that prove nothing are named by their day, and a hot one never is among them', () => {
    expect(nothingProvedWords([cool, hot], 'America/Denver')).toBe('The picture of 24 Apr 2023 proves nothing of health.')
    expect(nothingProvedWords([hot], 'America/Denver')).toBe('')
    expect(nothingProvedWords([cool, { hot: false, inconclusive: ['wind'] }], 'UTC')).toBe('The pictures of 24 Apr 2023 and a day nobody noted prove nothing of health.')
  })
})

describe('how long a paper holds', () => {
  const printedMs = Date.parse('2026-11-30T08:00:00Z')
  const days = (ms: number) => (ms - printedMs) / 86_400_000

  it('is as long as the worst class on it allows, and no longer than until something falls due', () => {
    expect(days(lapsesAt(printedMs, { critical: 0, urgent: 0 }))).toBe(30)
    expect(days(lapsesAt(printedMs, { critical: 0, urgent: 2 }))).toBe(7)
    expect(days(lapsesAt(printedMs, { critical: 1, urgent: 2 }))).toBe(1)
    expect(lapsesAt(printedMs, { critical: 1, urgent: 0 }, printedMs + 60_000)).toBe(printedMs + 60_000)
    expect(days(lapsesAt(printedMs, { critical: 1, urgent: 0 }, printedMs - 60_000))).toBe(1)
    expect(footMark('Void after 30 Nov')).toContain('@bottom-left { content: "Void after 30 Nov"')
  })
})

describe('the margins of paper', () => {
  it('carry the mark and the recipient as text, whatever stands in them', () => {
    expect(cssString('Internal: grid "A"\\</style>')).toBe('"Internal: grid \\22 A\\22 \\5c \\3c /style\\3e "')
    expect(pageMarks('Internal', 'North desk')).toContain('@top-left { content: "Internal. Recipient: North desk"')
  })
})
