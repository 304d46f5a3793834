import { beforeAll, describe, expect, it } from 'vitest'
import { circuitsCsv } from '@/lib/cases/circuits-csv'
import { settleReview } from '@/lib/cases/settle-review'
import { undoImport } from '@/lib/cases/undo-import'
import { circuitDetail } from '@/lib/contract/api'
import { circuitHealth, circuitSummary } from '@/lib/contract/contract'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
import { listHealth } from '@/lib/store/health'
import { sql } from '@/lib/store/sql/sql'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { storeState } from '@/lib/store/state'
import { unsettledInAll } from '@/lib/store/unsettled'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { at, buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

const DAY_MS = 86_400_000
const daysAgo = (days: number): string => new Date(Date.now() - days * DAY_MS).toISOString()
const summaryOf = async (name: string) => circuitSummary.parse((await listCircuits(scope)).find((c) => c.name === name))
const healthOf = async (name: string) => circuitHealth.parse((await listHealth(scope)).find((h) => h.circuit === name))
const detailOf = async (name: string) => circuitDetail.parse(await getCircuit(scope, (await summaryOf(name)).id))

beforeAll(buildNetwork)

describe('an urgent reading whose place is not settled', () => {
  // Between L1 and L2, which share their structures, with no word of which it is.
  const between = (id: string, ratio: number) => reading(id, 0, { ...at(1650, 0), side_a_uohm: 20 * ratio, side_b_uohm: 12, conductor_uohm: 20, phase: '' })

  it('raises every circuit that it may be on, leads to its review and is gone once it is settled or taken back', async () => {
    const { import_id: id } = await report('readings', csv([between('doubtful', 4)]), { survey: 'Doubt' })
    const [row] = await database().rows<{ reading_id: number; id: number; state: string }>(
      sql`SELECT p.reading_id, p.id, p.state FROM placement p JOIN reading r ON r.id = p.reading_id WHERE r.reading_key = 'doubtful' AND p.current`)
    expect(row?.state).toBe('review')
    for (const name of ['L1', 'L2']) {
      expect(await summaryOf(name)).toMatchObject({ counts: { critical: 0 }, unsettled: { urgent: 0, critical: 1, reading_id: row?.reading_id }, worst_class: 'critical' })
      expect((await healthOf(name)).unsettled).toEqual({ urgent: 0, critical: 1, reading_id: row?.reading_id })
    }
    expect(await summaryOf('S1')).toMatchObject({ unsettled: { urgent: 0, critical: 0, reading_id: null }, worst_class: 'unknown' })
    expect((await listCircuits(scope)).map((c) => c.name)).toEqual(['L1', 'L2', 'S1'])
    const [head, ...lines] = (await circuitsCsv(scope)).trim().split('\r\n').map((text) => text.replace(/^\uFEFF/, '').split(','))
    const cell = (name: string, column: string) => lines.find(([circuit]) => circuit === name)?.[head?.indexOf(column) ?? -1]
    expect([cell('L1', 'critical'), cell('L1', 'critical_place_not_settled'), cell('L1', 'worst_class')]).toEqual(['0', '1', 'critical'])
    expect([cell('S1', 'critical_place_not_settled'), cell('S1', 'worst_class')]).toEqual(['0', 'unknown'])
    // On two circuits, and one reading.
    expect(await unsettledInAll(scope)).toEqual({ urgent: 0, critical: 1 })
    const { unsettled } = await storeState(scope)
    expect(unsettled).toEqual([{ reading_id: row?.reading_id, class: 'critical', lon: expect.closeTo(at(1650, 0).lon, 6), lat: expect.closeTo(at(1650, 0).lat, 6) }])
    expect(await undoImport(scope, id, 'tester')).toMatchObject({ ok: true })
    expect(await summaryOf('L1')).toMatchObject({ unsettled: { critical: 0, reading_id: null }, worst_class: 'unknown' })
    expect((await storeState(scope)).unsettled).toEqual([])
  })

  it('counts on the circuit that it names itself, though it lies near no line', async () => {
    const { import_id: id } = await report('readings', csv([{ ...between('named', 2.2), ...at(1650, 60_000), circuit: 's1' }]), { survey: 'Astray' })
    expect(await summaryOf('S1')).toMatchObject({ unsettled: { urgent: 1, critical: 0 }, worst_class: 'urgent' })
    expect(await summaryOf('L1')).toMatchObject({ unsettled: { urgent: 0, critical: 0 } })
    const [row] = await database().rows<{ reading_id: number }>(sql`SELECT id AS reading_id FROM reading WHERE reading_key = 'named'`)
    expect(await settleReview(scope, row?.reading_id ?? 0, { action: 'reject', reason: 'Another utility\'s line' }, 'tester')).toMatchObject({ ok: true })
    expect(await summaryOf('S1')).toMatchObject({ unsettled: { urgent: 0 }, worst_class: 'unknown' })
    expect(await undoImport(scope, id, 'tester')).toMatchObject({ ok: true })
  })
})

describe('what is overdue', () => {
  it('counts from when the reading was taken, however late it was entered, and says both', async () => {
    // The policy's 72 hours for critical and 30 days for urgent.
    const { import_id: id } = await report('readings', csv([
      reading('lain', 450, { taken_at: daysAgo(75), side_a_uohm: 44, conductor_uohm: 20 }), reading('fresh', 1050, { taken_at: daysAgo(2), side_a_uohm: 70, conductor_uohm: 20 }),
      reading('late', 1650, { taken_at: daysAgo(5), side_a_uohm: 70, conductor_uohm: 20 }),
    ]), { survey: 'Late' })
    const { overdue, past_response: late, read_in_late: unread } = await healthOf('S1')
    expect(overdue).toMatchObject({ critical: 1, urgent: 1, degraded: 0, longest: { days: 75 } })
    expect(Date.now() - Date.parse(overdue.longest?.entered_at ?? '')).toBeLessThan(60_000)
    expect(late).toEqual({ critical: 0, urgent: 0, degraded: 0 })
    expect(unread).toMatchObject({ critical: 1, urgent: 1, longest_days: 75 })
    // The clock that runs since it was shown goes on beside it.
    await database().run(sql`UPDATE splice_state SET degraded_since = degraded_since - interval '2 days',
      urgent_since = urgent_since - interval '2 days', critical_since = critical_since - interval '2 days' WHERE class = 'critical'`)
    const later = await healthOf('S1')
    expect([later.overdue.critical, later.past_response.critical]).toEqual([2, 0])
    expect(await undoImport(scope, id, 'tester')).toMatchObject({ ok: true })
  })
})

describe('the one longest overdue', () => {
  it('is named, and found when its own sheet says, also where it is degraded and was only looked at since', async () => {
    const { import_id: id } = await report('readings', csv([
      reading('mild', 450, { taken_at: daysAgo(900), side_a_uohm: 28, conductor_uohm: 20 }),
      reading('looked', 450, { taken_at: daysAgo(20), kind: 'visual', findings: 'none', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', electrode_span_m: '' }),
      reading('newer', 1650, { taken_at: daysAgo(40), side_a_uohm: 70, conductor_uohm: 20 }),
    ]), { survey: 'Long ago' })
    const { overdue, worst_splice: worst } = await healthOf('S1')
    expect(overdue).toMatchObject({ critical: 1, degraded: 1, longest: { days: 900 } })
    expect(overdue.longest?.id).not.toBe(worst?.id)
    const sheet = await getSplice(scope, overdue.longest?.id ?? 0)
    expect(sheet).toMatchObject({ class: 'degraded', splice: overdue.longest?.splice })
    expect(Math.floor((Date.now() - Date.parse(sheet?.first_found_at ?? '')) / DAY_MS)).toBe(overdue.longest?.days)
    expect(sheet?.found_at).toBe(sheet?.first_found_at)
    expect(await undoImport(scope, id, 'tester')).toMatchObject({ ok: true })
  })
})

describe('splices of unknown condition', () => {
  it('are told apart by whether anybody was ever there, and stand before those that are sound', async () => {
    await report('splices', csv([
      { splice_id: 'patrolled', circuit: 'L2', line_distance_m: 500, phase: 'B' }, { splice_id: 'alone', circuit: 'L2', line_distance_m: 2500, phase: 'B' },
      { splice_id: 'half', circuit: 'L2', line_distance_m: 3000, phase: 'A' },
    ]))
    await report('extents', csv([{ survey: 'Patrol', circuit: 'L2', structure_from: '2', structure_to: '5', surveyed_on: '2026-05-01', method: 'visual', result: 'no exception' }]))
    await report('readings', csv([reading('good', 0, { ...at(2000, -6), circuit: 'L2', gnss_accuracy_m: 1, side_a_uohm: 10, side_b_uohm: 10, conductor_uohm: 20 })]), { survey: 'Good' })
    await report('readings', csv([reading('half', 0, { ...at(3000, -6), circuit: 'L2', splice_id: 'half', gnss_accuracy_m: 1, side_a_uohm: 10, side_b_uohm: '', conductor_uohm: 20 })]), { survey: 'Half' })
    const { id, unknown, counts } = await detailOf('L2')
    expect(counts).toMatchObject({ unknown: 3, sound: 1 })
    expect(unknown).toEqual({ never_looked_at: 1, inconclusive: 1, passed_by: 1 })
    const classes = async (sort: 'worst' | 'unsound') => (await listSplices(scope, { filter: { circuitIds: [id] }, sort })).items.map((s) => s.class)
    expect(await classes('unsound')).toEqual(['unknown', 'unknown', 'unknown', 'sound'])
    expect(await classes('worst')).toEqual(['sound', 'unknown', 'unknown', 'unknown'])
  })
})
