import { beforeAll, describe, expect, it } from 'vitest'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'
import { recordCall, strikeEntry } from '@/lib/cases/calls'
import { changeSettings } from '@/lib/cases/change-settings'
import { undoImport } from '@/lib/cases/undo-import'
import { callEntry, callPage, lookAgain, type CallEntryJson, type RecordCall } from '@/lib/contract/calls'
import { spliceDetail } from '@/lib/contract/contract'
import { callsOfSplice, listCalls, lookAgainNow } from '@/lib/store/calls'
import { narrowed } from '@/lib/store/scope'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

const HOUR_MS = 3_600_000
const idOf: Record<string, number> = {}
let circuitId = 0
let spliceImport = 0

beforeAll(async () => {
  await buildNetwork()
  const splices = [['bad', 450], ['worse', 750], ['fine', 1050], ['apart', 1350]] as const
  spliceImport = (await report('splices', csv(splices.map(([name, m]) => ({ splice_id: name, circuit: 'S1', line_distance_m: m, phase: 'A', barrel_od_mm: 47.8 }))))).import_id
  await report('readings', csv([
    reading('b', 450, { side_a_uohm: 36, conductor_uohm: 20 }), reading('w', 750, { side_a_uohm: 80, conductor_uohm: 20 }), reading('f', 1050),
  ]), { survey: 'Walk' })
  for (const { splice, id: spliceId, circuit_id } of (await listSplices(scope, { limit: 500 })).items) {
    idOf[splice] = spliceId
    circuitId = circuit_id
  }
})

const id = (name: string): number => idOf[name] ?? 0
const call = (more: Partial<Extract<RecordCall, { kind: 'call' }>> = {}): RecordCall => ({ kind: 'call', by: 'L. Engineer', whom: 'Control room, desk 2', decided: ['load-relief', 'reclosing-blocked'], ...more })
const taken = (outcome: Awaited<ReturnType<typeof recordCall>>): CallEntryJson => {
  if (!outcome.ok) throw new Error(outcome.error.message)
  return callEntry.parse(outcome.value)
}
const refusal = (outcome: Awaited<ReturnType<typeof recordCall>>) => (outcome.ok ? 'taken' : outcome.error.message)
const ago = (hours: number): string => new Date(Date.now() - hours * HOUR_MS).toISOString()

describe('a call', () => {
  it('says who called whom, when, and what was decided, with the class of then', async () => {
    const entry = taken(await recordCall(scope, id('bad'), call({ at: ago(2), note: 'Flow 610 A' }), 'tester'))
    expect(entry).toMatchObject({
      kind: 'call', splice: 'bad', circuit: 'S1', by: 'L. Engineer', whom: 'Control room, desk 2', decided: ['load-relief', 'reclosing-blocked'], note: 'Flow 610 A', nothing_why: null,
      noted_by: 'tester', struck_at: null, told_control_room: false,
    })
    expect(entry.class_now).toBe(entry.class)
    expect(['urgent', 'critical']).toContain(entry.class)
    expect(Date.now() - Date.parse(entry.at)).toBeGreaterThan(1.9 * HOUR_MS)
    expect(entry.position_text).toContain('STR S2-S3')
    expect(spliceDetail.parse(await getSplice(scope, id('bad'))).calls).toContainEqual(entry)
    const audit = await database().row<{ action: string; detail: { call_id: number } }>(sql`SELECT action, detail FROM audit_entry ORDER BY id DESC LIMIT 1`)
    expect(audit).toMatchObject({ action: 'call.recorded', detail: { call_id: entry.id } })
  })

  it('may not be still to come, nor contradict itself, nor decide nothing without why', async () => {
    const refused = async (more: Parameters<typeof call>[0]) => refusal(await recordCall(scope, id('bad'), call(more), 'tester'))
    expect(await refused({ at: new Date(Date.now() + HOUR_MS).toISOString() })).toContain('still to come')
    expect(await refused({ decided: ['reclosing-blocked', 'reclosing-left-on'] })).toBe('Reclosing is blocked and left on.')
    expect(await refused({ decided: ['nothing-yet'] })).toBe('Nothing was decided yet, without why.')
    expect(await refused({ decided: ['nothing-yet', 'outage'], nothing_why: 'x' })).toBe('Nothing was decided yet, and something was.')
    expect(await refused({ decided: ['outage', 'outage'] })).toBe('decided names something twice.')
    expect(await refused({ decided: ['nothing-yet'], nothing_why: 'The planner calls back at four' })).toBe('taken')
    expect(refusal(await recordCall(scope, 999_999, call(), 'tester'))).toBe('There is no splice with this number.')
  })

  it('is outside the scope of who does not look after its circuit', async () => {
    const narrow = narrowed(scope, [])
    expect(refusal(await recordCall(narrow, id('bad'), call(), 'tester'))).toBe('There is no splice with this number.')
    expect((await listCalls(narrow)).items).toEqual([])
    expect(await callsOfSplice(narrow, id('bad'))).toEqual([])
    expect((await lookAgainNow(narrow, Date.now())).acute).toBe(0)
  })
})

describe('a wrong entry', () => {
  it('is struck with a reason, once, and stays readable', async () => {
    const wrong = taken(await recordCall(scope, id('fine'), call({ note: 'Other splice' }), 'tester'))
    const struck = taken(await strikeEntry(scope, wrong.id, { struck_by: 'L. Engineer', why: 'Meant the other splice' }, 'tester'))
    expect(struck).toEqual({ ...wrong, struck_at: struck.struck_at, struck_by: 'L. Engineer', struck_why: 'Meant the other splice' })
    expect((await listCalls(scope)).items).toContainEqual(struck)
    expect(refusal(await strikeEntry(scope, wrong.id, { struck_by: 'L. Engineer', why: 'Again' }, 'tester'))).toBe('This entry was struck already.')
    expect(refusal(await strikeEntry(narrowed(scope, []), wrong.id, { struck_by: 'X', why: 'Y' }, 'tester'))).toContain('There is no entry of the log')
  })

  it('is kept by the database itself, which refuses what the product would', async () => {
    const run = (text: string) => database().run(sql([text]))
    const insert = (columns: string, values: string) => run(`INSERT INTO call_entry (splice_id, kind, class, by_name, noted_by${columns}) SELECT id, ${values} FROM splice LIMIT 1`)
    await expect(run('DELETE FROM call_entry')).rejects.toMatchObject({ constraint: 'call_entry_kept' })
    await expect(run(`UPDATE call_entry SET note = 'x'`)).rejects.toMatchObject({ constraint: 'call_entry_kept' })
    await expect(insert(', whom, at, decided', `'call', 'urgent', 'L', 'x', 'W', now() + INTERVAL '1 hour', '{outage}'`)).rejects.toMatchObject({ constraint: 'call_entry_not_to_come' })
    await expect(insert(', whom, at', `'call', 'urgent', 'L', 'x', 'W', now()`)).rejects.toMatchObject({ constraint: 'call_entry_whole' })
    await expect(insert(', whom, at, decided', `'call', 'urgent', 'L', 'x', 'W', now(), '{prayer}'`)).rejects.toMatchObject({ constraint: 'call_entry_decided' })
    await expect(insert(', whom, at, decided', `'call', 'urgent', 'L', 'x', 'W', now(), '{nothing-yet}'`)).rejects.toMatchObject({ constraint: 'call_entry_nothing_alone_with_why' })
    await expect(insert(', at', `'look', 'urgent', ' ', 'x', now()`)).rejects.toMatchObject({ constraint: 'call_entry_texts_given' })
    await expect(run('DELETE FROM splice')).rejects.toMatchObject({ code: '23503' })
  })

  it('keeps the splices it is about: their import is not undone from under it', async () => {
    const outcome = await undoImport(scope, spliceImport, 'tester')
    expect(outcome.ok ? '' : outcome.error.message).toContain('log of calls')
  })
})

describe('what the control room was told', () => {
  it('stands in the same log once: by its notice, or by the call that told it', async () => {
    const waiting = (await listUrgent(scope)).filter(({ splice_id: of }) => of === id('worse'))
    expect(waiting.length).toBeGreaterThan(0)
    const entry = taken(await recordCall(scope, id('worse'), call({ decided: ['outage'], told_control_room: true }), 'tester'))
    expect(entry.told_control_room).toBe(true)
    const ofWorse = async () => (await listUrgent(scope)).filter(({ splice_id: of }) => of === id('worse')).length
    expect(await ofWorse()).toBe(0)
    expect((await callsOfSplice(scope, id('worse'))).map(({ kind }) => kind)).toEqual(['call'])
    // Struck, it told nobody: the alarm is back.
    taken(await strikeEntry(scope, entry.id, { struck_by: 'L. Engineer', why: 'Nobody answered' }, 'tester'))
    expect(await ofWorse()).toBe(waiting.length)
    const [notice] = waiting
    await acknowledgeUrgent(scope, { noticeId: notice?.notice_id ?? 0 }, 'tester', { told_to: 'Desk 1', told_at: ago(1) })
    const log = await callsOfSplice(scope, id('worse'))
    expect(log.map(({ kind }) => kind)).toEqual(['call', 'told'])
    expect(log[1]).toMatchObject({ whom: 'Desk 1', by: 'tester', class: 'critical', splice: 'worse', decided: [], told_control_room: true })
  })
})

describe('the log', () => {
  it('is newest first, by circuit and since, page after page without a gap', async () => {
    const all = callPage.parse(await listCalls(scope, { limit: 500 })).items
    expect(all.map(({ at }) => at)).toEqual(all.map(({ at }) => at).toSorted().reverse())
    expect(all.length).toBeGreaterThanOrEqual(5)
    const paged: CallEntryJson[] = []
    for (let cursor: string | undefined; ;) {
      const page = await listCalls(scope, { limit: 2, cursor })
      paged.push(...page.items)
      if (page.next_cursor === null) break
      cursor = page.next_cursor
    }
    expect(paged).toEqual(all)
    expect((await listCalls(scope, { circuitIds: [circuitId] })).items).toEqual(all)
    expect((await listCalls(scope, { circuitIds: [circuitId + 999] })).items).toEqual([])
    const since = ago(1.5)
    expect((await listCalls(scope, { since })).items).toEqual(all.filter(({ at }) => at >= since))
  })
})

describe('urgent and critical', () => {
  const day = 24 * HOUR_MS
  const clock = (ms: number) => new Date(ms).toISOString().slice(11, 16)
  const names = async (nowMs: number) => lookAgain.parse(await lookAgainNow(scope, nowMs)).items.map(({ splice }) => splice)

  it('come back at each peak-load period, and go for the rest of it once somebody looked', async () => {
    const nowMs = Date.now()
    await changeSettings(scope, { time_zone: 'UTC', peak_periods: [{ from: clock(nowMs - 2 * HOUR_MS), to: clock(nowMs + 2 * HOUR_MS) }] }, 'tester')
    expect(await names(nowMs)).toEqual(['worse', 'bad'])
    const look = taken(await recordCall(scope, id('worse'), { kind: 'look', by: 'O. Operator', note: '41 K over its conductor at 600 A' }, 'tester'))
    expect(look).toMatchObject({ kind: 'look', whom: null, decided: [] })
    expect(await names(nowMs + 1000)).toEqual(['bad'])
    const answer = lookAgain.parse(await lookAgainNow(scope, nowMs + 1000))
    expect(answer).toMatchObject({ acute: 2, looked: 1 })
    // What the control room was told of a notice is no look.
    const told = (await listCalls(scope)).items.filter(({ splice, told_control_room: was, struck_at: struck }) => splice === 'worse' && was && struck === null)
    const worse = (await lookAgainNow(scope, nowMs + day)).items.find(({ splice }) => splice === 'worse')
    expect(told).not.toEqual([])
    expect(worse?.last_told_at).toBe(told.map(({ at }) => at).sort().at(-1))
    expect(worse?.last_look_at).toBe(look.at)
    expect(Date.parse(worse?.last_reading_at ?? '')).toBeLessThan(Date.parse(look.at))
    expect(Date.parse(answer.next?.from ?? '') - Date.parse(answer.current?.from ?? '')).toBe(day)
    // The same hour a day later is another period.
    expect(await names(nowMs + day)).toEqual(['worse', 'bad'])
    // A look that was struck was none.
    taken(await strikeEntry(scope, look.id, { struck_by: 'O. Operator', why: 'Wrong tower' }, 'tester'))
    expect(await names(nowMs + 1000)).toEqual(['worse', 'bad'])
  })

  it('wait for the next period between two, which is named', async () => {
    const nowMs = Date.now()
    await changeSettings(scope, { peak_periods: [{ from: clock(nowMs + 2 * HOUR_MS), to: clock(nowMs + 4 * HOUR_MS) }] }, 'tester')
    const answer = await lookAgainNow(scope, nowMs)
    expect(answer.current).toBeNull()
    expect(Math.abs(Date.parse(answer.next?.from ?? '') - nowMs - 2 * HOUR_MS)).toBeLessThan(60_000)
    expect(answer.items.map(({ splice }) => splice)).toEqual(['worse', 'bad'])
  })
})
