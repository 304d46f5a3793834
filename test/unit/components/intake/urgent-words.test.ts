import { describe, expect, it } from 'vitest'
import {
  circuitsText, lastAt, noCircuitText, notReadText, openingWords, placeText, provisionalText, ratioText, rowNumbersText, spokenText, subjectText, tableText, toldText, untoldText, waitingThenWorst,
  withdrawnText, worstFirst,
} from '@/components/intake/urgent-words'
import type { UrgentReading } from '@/lib/contract/urgent'
import { noCircuitWords } from '@/lib/intake/report/no-circuit'

const urgent = (over: Partial<UrgentReading> = {}): UrgentReading => ({
  notice_id: 1,
  basis: 'reading',
  withdrawn: null,
  reading_id: 1,
  reading_key: 'R-1',
  survey: 'Spring walk',
  class: 'urgent',
  ratio: 2,
  taken_at: null,
  placement_state: 'review',
  splice_id: null,
  splice: null,
  position_text: null,
  lon: null,
  lat: null,
  circuits: [],
  raised_at: '2026-05-05T00:00:00Z',
  acknowledged_at: null,
  acknowledged_by: null,
  ...over,
})

describe('the banner', () => {
  const gone = { file_name: 'spring.csv', at: null }
  it('counts what stands apart from what an undo took back', () => {
    const undone = { file_name: 'a.csv', import_id: 1, row: 1, line: 2, why: [], undone_at: '2026-05-06T00:00:00Z', read_since: false, says: {} as NonNullable<UrgentReading['not_read']>['says'] }
    const live = [urgent({ class: 'critical' }), urgent(), urgent({ reading_id: null, not_read: { ...undone, undone_at: null } })]
    const back = [urgent({ withdrawn: gone, class: 'critical' }), urgent({ reading_id: null, not_read: undone })]
    expect(untoldText([...live, ...back])).toBe('The control room has not been told of 3 findings, 1 critical, and of 2 taken back since, 1 critical. Worst: ')
    expect(untoldText(live.slice(0, 1))).toBe('The control room has not been told of one finding: ')
    expect(untoldText(live.slice(0, 2))).toBe('The control room has not been told of 2 findings, 1 critical. Worst: ')
    expect(untoldText(back)).toBe('The control room has not been told of 2 findings that were taken back since, 1 critical. Worst: ')
    expect(untoldText(back.slice(0, 1))).toBe('The control room has not been told of one finding that was taken back since: ')
    expect(untoldText([...live.slice(0, 1), ...back.slice(0, 1)])).toBe('The control room has not been told of one finding, and of one taken back since. Worst: ')
  })

  it('puts a class before a milder one, withdrawn or not, and what stands before what was withdrawn', () => {
    const all = [
      urgent({ notice_id: 1, ratio: 2.34 }), urgent({ notice_id: 2, class: 'critical', ratio: 4, withdrawn: gone }),
      urgent({ notice_id: 3, class: 'critical', ratio: 3 }), urgent({ notice_id: 4, withdrawn: gone, ratio: 2.6 }),
    ]
    expect(all.toSorted(worstFirst).map((u) => u.notice_id)).toEqual([3, 2, 1, 4])
  })

  it('reads candidates aloud', () => {
    const circuits = ['2320', '2310'].map((circuit, n) => ({ circuit_id: n + 1, circuit, line_name: 'Line', probability: n === 0 ? 0.66 : 0.33 }))
    const where = { circuits, position_text: 'STR 122-123, phase A, top', position_basis: 'declared' as const }
    expect(spokenText(urgent(where))).toBe('2320 or 2310 at STR 122-123, phase A, top: circuit not settled')
    expect(spokenText(urgent({ ...where, position_basis: 'nearest' }))).toBe('2320 or 2310 near STR 122-123, phase A, top: circuit not settled')
    expect(spokenText(urgent({ circuits }))).toBe('2320 or 2310: circuit not settled')
    expect(spokenText(urgent({ ...where, circuits: circuits.slice(0, 1), position_basis: 'placed' }))).toBe('2320 (Line), STR 122-123, phase A, top')
    expect(spokenText(urgent())).toBe('circuit not known')
  })

  it('names the circuits that its own position leaves open, and says where nobody gave the phase', () => {
    const inferred = urgent({
      circuits: [{ circuit_id: 1, circuit: '2320', line_name: 'Line', probability: 0.99 }], position_text: 'STR 122-123, phase A', position_basis: 'placed',
      placement_state: 'placed', other_circuits: '2310', phase_not_confirmed: true,
    })
    expect(spokenText(inferred)).toBe('2320 (Line), perhaps 2310 by its own position, STR 122-123, phase A, phase not confirmed')
  })
})

describe('what is on no known circuit', () => {
  it('says what it names, and whether there is a position to look from', () => {
    expect(noCircuitText(urgent({ says_circuit: '9999' }))).toBe('Names circuit 9999, not on file; no position')
    expect(noCircuitText(urgent({ says_circuit: null, lon: -110, lat: 45 }))).toBe('Names no circuit; nothing lies in reach of its position')
    expect(spokenText(urgent({ says_circuit: '9999' }))).toBe('names circuit 9999, not on file')
    expect(noCircuitWords({ says_circuit: '2310', lon: null }, false)).toBe('names circuit 2310; no position')
  })

  it('names what it says beside the circuits on which its structures stand, and never as if one were settled', () => {
    const on = (...names: string[]) => ({ says_circuit: '9999', circuits: names.map((circuit, n) => ({ circuit_id: n + 1, circuit, line_name: null, probability: 1 / names.length })) })
    expect(circuitsText(urgent(on('2310')))).toBe('names circuit 9999; perhaps 2310')
    expect(circuitsText(urgent(on('2310', '2320')))).toBe('names circuit 9999; perhaps one of 2310, 50%; 2320, 50%')
    expect(spokenText(urgent(on('2310', '2320')))).toBe('2310 or 2320: circuit not settled, it names 9999')
    expect(circuitsText(urgent({ ...on('2310'), placement_state: 'placed' }))).toBe('2310')
  })
})

describe('the time of a call', () => {
  const nowMs = Date.parse('2026-11-30T07:05:30Z') // 00:05 in Denver
  it('is the last time at which the clock there read so', () => {
    expect(lastAt('00:05', nowMs, 'America/Denver')).toBe(Date.parse('2026-11-30T07:05:00Z'))
    expect(lastAt('23:58', nowMs, 'America/Denver')).toBe(Date.parse('2026-11-30T06:58:00Z'))
    expect(lastAt('0:06', nowMs, 'America/Denver')).toBe(Date.parse('2026-11-29T07:06:00Z'))
    for (const text of ['', '24:00', '7', '12:60', 'now']) expect(lastAt(text, nowMs, 'America/Denver')).toBeNull()
  })

  it('stands with whom was told', () => {
    const call = { acknowledged_at: '2026-05-05T09:15:00Z', acknowledged_by: 'operator', told_to: 'Desk 2', told_at: '2026-05-05T09:10:00Z' }
    expect(toldText(urgent(call), 'UTC')).toBe('Desk 2, 5 May 2026 09:10 UTC, noted by operator')
  })
})

describe('the opening of a report', () => {
  it('puts first whom nobody has been told of, then the worst', () => {
    const readings = [
      urgent({ reading_id: 1, class: 'critical', ratio: 9, acknowledged_at: '2026-05-05T01:00:00Z' }),
      urgent({ reading_id: 2, ratio: 2.4 }),
      urgent({ reading_id: 3, class: 'critical', ratio: 3 }),
      urgent({ reading_id: 4, ratio: null }),
    ]
    expect(readings.toSorted(waitingThenWorst).map((r) => r.reading_id)).toEqual([3, 4, 2, 1])
  })

  it('counts the classes and says who sees them', () => {
    expect(openingWords([urgent(), urgent({ class: 'critical' })])).toBe(
      '2 readings, 1 critical and 1 urgent by their own numbers, whether or not the place is settled. Operations sees them already.',
    )
    expect(openingWords([urgent({ class: 'critical' })], { dryRun: true })).toContain('One reading is critical by its own numbers')
    expect(openingWords([urgent()], { dryRun: true })).toContain('operations does not see this yet')
  })

  it('says what nobody has been told of yet, and when everything was told', () => {
    const told = urgent({ reading_id: 2, acknowledged_at: '2026-05-05T01:00:00Z' })
    expect(openingWords([urgent({ class: 'critical' }), told])).toBe(
      '2 readings, 1 critical and 1 urgent by their own numbers. Not told yet: 1 critical.',
    )
    expect(openingWords([told, told])).toBe(
      '2 readings, 2 urgent by their own numbers, and the control room knows of all of them.',
    )
  })

  it('says so where no reading is urgent by itself', () => {
    expect(openingWords([urgent({ basis: 'assessment' })])).toContain('One reading is urgent with what else is known of its splice')
    expect(openingWords([urgent({ basis: 'assessment' }), urgent()])).toContain('by their own numbers or with what else is known of the splice')
  })

  it('says when the control room was told and who noted it, and which undo took a reading back', () => {
    expect(toldText(urgent({ acknowledged_at: '2026-05-05T01:00:00Z', acknowledged_by: 'operator' }), 'UTC')).toBe('5 May 2026 01:00 UTC, noted by operator')
    expect(withdrawnText({ file_name: 'spring.csv', at: null })).toBe('reading withdrawn by undo of spring.csv')
  })
})

describe('a provisional finding', () => {
  it('says what the conductor read and what it should have', () => {
    const text = provisionalText(urgent({ provisional: { conductor: 'Drake', conductor_uohm: 80, expected_uohm: 21.854 } }))
    expect(text).toBe('Provisional: the conductor reads 80.0 µΩ, 3.66 times the 21.9 µΩ of Drake over the same electrode span. '
      + 'The lower of the two is taken, since the worse ratio governs.')
    expect(provisionalText(urgent())).toBe('')
  })
})

const unread = urgent({
  reading_id: null, reading_key: 'R-9', row: 7, basis: 'row', placement_state: null, splice: null, position_text: 'STR 45-46, phase A', position_basis: 'nearest',
  not_read: {
    file_name: 'walk.csv', import_id: 3, row: 7, line: 8, undone_at: null, read_since: false, why: ["Row 7, line 8, taken_at: '2026-02-31' is no day."],
    says: {
      circuit: 'S1', section: null, splice: null, structure_back: null, structure_ahead: null, offset_m: null, phase: 'A', position: null, circuit_side: null,
      subconductor: null, taken_at: null, lon: -114, lat: 47, side_a_uohm: 80, side_b_uohm: 11, conductor_uohm: 21.8, splice_temp_c: null,
      near: { structure_back: '45', structure_ahead: '46' },
    },
  },
})

describe('a row that was not read', () => {
  it('is named by its file and row, with its numbers, where it may be and why it was not read', () => {
    expect(subjectText(unread)).toBe('Row 7 of walk.csv')
    expect(subjectText(unread, 'walk.csv')).toBe('Row 7')
    expect(rowNumbersText(unread, 'metric')).toBe('side A 80.0 µΩ, side B 11.0 µΩ, conductor 21.8 µΩ')
    expect(placeText(unread)).toBe('nearest STR 45-46, phase A')
    expect(placeText({ ...unread, position_basis: 'declared' })).toBe('says STR 45-46, phase A')
    expect(notReadText(unread)).toBe("Not read: '2026-02-31' is no day.")
    expect(notReadText(urgent())).toBe('')
  })

  it('is no fault any more once it was corrected and read, and says that its import was undone', () => {
    const row = unread.not_read
    if (!row) throw new Error('The fixture has no row.')
    expect(notReadText({ not_read: { ...row, read_since: true } })).toBe('')
    expect(notReadText({ not_read: { ...row, undone_at: '2026-05-05T01:00:00Z' } })).toContain('Its import was undone.')
  })

  it('is counted apart from readings', () => {
    expect(openingWords([unread])).toContain('One row that was not read is urgent by its own numbers')
    expect(openingWords([urgent(), unread])).toContain('1 reading and 1 row that was not read, 2 urgent by their own numbers')
  })
})

describe('a file that was imported before', () => {
  it('says that it was announced then', () => {
    expect(openingWords([urgent()], { again: true })).toContain('It was announced when this file was first imported.')
  })

  it('under another name tells what waited already from what it announces itself', () => {
    const [old, fresh] = [urgent({ notice_id: 4 }), urgent({ notice_id: 5 })]
    expect(openingWords([old], { met: [4] })).toMatch(/Operations sees it already\. Announced with an earlier import\.$/)
    expect(openingWords([old, fresh], { met: [4] })).toMatch(/Operations sees them already\. 1 of them announced with an earlier import\.$/)
    expect(openingWords([old], { met: [4], dryRun: true })).toMatch(/Operations sees it already, from an earlier import\.$/)
    expect(openingWords([old, fresh], { met: [4], dryRun: true })).toMatch(/sees 1 of them already.*; nothing was kept of the rest, which it does not see yet\.$/)
  })
})

describe('a ratio against the table', () => {
  it('says that the conductor was not measured, and is provisional where something else was written for it', () => {
    const byTable = { conductor: 'Drake', uohm: 22.29 }
    expect(ratioText(urgent({ ratio: 3.6, by_table: byTable }))).toBe("ratio 3.60 by the table's conductor, not measured")
    expect(tableText(urgent({ by_table: byTable }))).toBe(
      "By the table's conductor, not measured: 22.3 µΩ of Drake over the electrode span, since none was measured.")
    expect(tableText(urgent({ by_table: { ...byTable, typed: '-5' } }))).toMatch(/^Provisional: .* since '-5' cannot be a conductor reading\.$/)
    expect(tableText(urgent())).toBe('')
  })
})
