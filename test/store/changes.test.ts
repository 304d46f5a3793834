import { beforeAll, describe, expect, it } from 'vitest'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'
import { clearHeldClass } from '@/lib/cases/clear-held-class'
import { proposeLimit, stepLimit } from '@/lib/cases/current-limits'
import { undoImport } from '@/lib/cases/undo-import'
import { changes, type ChangeKind, type ItemOf } from '@/lib/contract/changes'
import { listChanges, type ChangesAsked } from '@/lib/store/changes'
import { listCircuits } from '@/lib/store/circuits'
import { BadCursor } from '@/lib/store/cursor'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { storeState } from '@/lib/store/state'
import { database, inTransaction } from '@/lib/store/transaction'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { at, buildNetwork, csv, importText, reading, report, scope } from './utility'

useDatabase()

const AT = { worse: 450, worst: 750, better: 1050, same: 1350, repaired: 1650, torn: 1950 }
type Name = keyof typeof AT

const day = (n: number): string => new Date(Date.UTC(2026, 5, 1 + n, 10)).toISOString()
const read = (of: Name, n: number, sideAUohm: number, more: Record<string, string | number> = {}) =>
  reading(`${of}-${n}`, AT[of], { taken_at: day(n), side_a_uohm: sideAUohm, conductor_uohm: 20, ...more })
const send = (name: string, ...rows: Record<string, string | number>[]) => importText('readings', csv(rows), { survey: name }, `${name}.csv`)
const now = async (): Promise<Date> => new Date((await storeState(scope)).complete_to)
/** After what was stored up to here, so that the next thing lies later by the clock of the store. */
const moment = async (): Promise<Date> => {
  await new Promise((resolve) => setTimeout(resolve, 20))
  return now()
}

async function told(since: Date, more: Partial<ChangesAsked> = {}) {
  const answer = changes.parse(await listChanges(scope, { since, ...more }))
  const of = <K extends ChangeKind>(kind: K) => answer.parts.find((part) => part.kind === kind) as { count: number; items: ItemOf<K>[]; next_cursor: string | null } | undefined
  return { answer, of }
}

const counts = async (since: Date, more: Partial<ChangesAsked> = {}) =>
  Object.fromEntries((await told(since, more)).answer.parts.map(({ kind, count }) => [kind, count]))
const NOTHING = { class: 0, notice: 0, conflict: 0, advised: 0, limit: 0, cleared: 0, repair: 0, reading: 0, waiting: 0 }
const spliceId = async (label: Name) => (await listSplices(scope, { limit: 500 })).items.find(({ splice }) => splice === label)?.id ?? 0

let beforeAnything: Date
let beforeSecond: Date

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv(Object.entries(AT).map(([name, m]) => ({ splice_id: name, circuit: 'S1', line_distance_m: m, phase: 'A' }))))
  beforeAnything = await moment()
  await send('First', read('worse', 0, 12), read('worst', 0, 12), read('better', 0, 60), read('same', 0, 12), read('repaired', 0, 28), read('torn', 0, 12))
  beforeSecond = await moment()
  await send('Second', read('worse', 30, 30), read('worst', 30, 60), read('better', 30, 12), read('better', 40, 12), read('same', 30, 12),
    read('repaired', 30, 10, { after_repair: 'yes' }), reading('nowhere', 300, { lon: '', lat: '', phase: '' }))
})

describe('what changed since a moment', () => {
  it('is nothing where nothing was stored since, but what waits', async () => {
    expect(await counts(await moment())).toEqual({ ...NOTHING, waiting: 1 })
  })

  it('tells each splice whose class is another than then, rises before falls and the worst first, with the engine’s sentence', async () => {
    const { of } = await told(beforeSecond)
    const found = of('class')
    expect(found?.items.map(({ splice, direction, from, to }) => [splice, direction, from, to])).toEqual([
      ['worst', 'rise', 'sound', 'critical'], ['worse', 'rise', 'sound', 'degraded'], ['better', 'fall', 'critical', 'sound'], ['repaired', 'fall', 'degraded', 'sound'],
    ])
    expect(found?.count).toBe(4)
    expect(found?.items[0]).toMatchObject({
      circuit: 'S1', held: false, cause: 'import', file_name: 'Second.csv', decided: null, why: expect.stringMatching(/^Critical: the worse side has 3\.00 times the resistance/),
    })
    expect(found?.items[0]?.position_text).toContain('phase A')
    expect(Date.parse(found?.items[0]?.at ?? '')).toBeGreaterThan(beforeSecond.getTime())
  })

  it('leaves out what lay between: from before both, a splice that went up and came down is new and sound', async () => {
    const items = (await told(beforeAnything)).of('class')?.items ?? []
    expect(items.find(({ splice }) => splice === 'better')).toMatchObject({ direction: 'new', from: 'unknown', to: 'sound' })
    expect(items.find(({ splice }) => splice === 'worst')).toMatchObject({ direction: 'rise', from: 'unknown', to: 'critical' })
    expect(items.map(({ direction }) => direction)).toEqual(['rise', 'rise', 'new', 'new', 'new', 'new'])
  })

  it('counts readings by import, survey and circuit, and what waits with how much of it is new', async () => {
    const { of } = await told(beforeSecond)
    expect(of('reading')).toMatchObject({ count: 7, items: [
      { survey: 'Second', circuit: null, readings: 1, placed: 0, review: 1, undone: false }, { survey: 'Second', circuit: 'S1', readings: 6, placed: 6, review: 0, file_name: 'Second.csv', by: 'tester' },
    ] })
    expect(of('waiting')).toMatchObject({ count: 1, items: [{ cause: 'no-position', count: 1, since: 1, urgent: 0 }] })
    expect((await told(await moment())).of('waiting')).toMatchObject({ items: [{ count: 1, since: 0 }] })
  })

  it('tells what was read after a repair', async () => {
    expect((await told(beforeSecond)).of('repair')).toMatchObject({ count: 1, items: [{ splice: 'repaired', class: 'sound', readings: 1, survey: 'Second', taken_at: day(30) }] })
  })

  it('keeps to the circuits that are asked for', async () => {
    const circuits = await listCircuits(scope)
    const idOf = (name: string) => circuits.find((circuit) => circuit.name === name)?.id ?? 0
    expect(await counts(beforeAnything, { circuitIds: [idOf('L1')] })).toEqual(NOTHING)
    // What has no place is on no circuit.
    expect(await counts(beforeSecond, { circuitIds: [idOf('S1')] })).toMatchObject({ class: 4, reading: 6, waiting: 0, repair: 1 })
  })

  it('pages each kind by a cursor that no other kind or moment takes', async () => {
    const whole = (await told(beforeSecond)).of('class')?.items ?? []
    const paged: ItemOf<'class'>[] = []
    for (let cursor: string | undefined; paged.length < 10;) {
      const page = (await told(beforeSecond, { kinds: ['class'], limit: 1, cursor })).of('class')
      paged.push(...page?.items ?? [])
      expect(page?.count).toBe(4)
      cursor = page?.next_cursor ?? undefined
      if (!cursor) break
    }
    expect(paged).toEqual(whole)
    const { next_cursor: next } = (await told(beforeSecond, { kinds: ['class'], limit: 1 })).of('class') ?? {}
    await expect(listChanges(scope, { since: beforeAnything, kinds: ['class'], cursor: next ?? '' })).rejects.toThrow(BadCursor)
    await expect(listChanges(scope, { since: beforeSecond, kinds: ['conflict'], cursor: next ?? '' })).rejects.toThrow(BadCursor)
  })
})

describe('conflicts', () => {
  it('are told once they arise, and not again', async () => {
    const since = await moment()
    await send('Torn', read('torn', 20, 12, { repeat_no: 1 }), read('torn', 20, 26, { repeat_no: 2, reading_id: 'torn-20b' }))
    const { items, count } = (await told(since)).of('conflict') ?? {}
    expect([count, items?.[0]?.splice, items?.[0]?.flags.map(({ code }) => code)]).toEqual([1, 'torn', ['conflict']])
    expect(items?.[0]?.flags[0]?.text).toMatch(/\.$/)
    const later = await moment()
    await send('Torn on', read('torn', 21, 26))
    expect((await told(later)).of('conflict')?.items.filter(({ at: arisen }) => Date.parse(arisen) <= later.getTime())).toEqual([])
  })
})

describe('what people did', () => {
  it('is told: called, proposed, agreed, accepted, lifted, cleared', async () => {
    const since = await moment()
    const worst = await spliceId('worst')
    const [notice] = (await listUrgent(scope)).filter(({ splice_id: id }) => id === worst)
    await acknowledgeUrgent(scope, { noticeId: notice?.notice_id ?? 0 }, 'desk', { told_to: 'Desk 2' })
    await send('Third', read('worst', 60, 12))
    const proposed = await proposeLimit(scope, worst, { line_a: 300, proposed_by: 'P. Planner', reason: 'Until it is cut out' }, 'tester')
    if (!proposed.ok) throw new Error(proposed.error.message)
    await stepLimit(scope, proposed.value.id, { step: 'agree', agreed_by: 'R. Rater' }, 'tester')
    const cleared = await clearHeldClass(scope, worst, { engineer: 'E. Engineer', cause: 'electrodes', reason: 'Read again by another crew' }, 'tester')
    expect(cleared.ok).toBe(true)
    const { of } = await told(since)
    expect(of('notice')).toMatchObject({ count: 1, items: [{ class: 'critical', splice: 'worst', told_to: 'Desk 2' }] })
    expect(of('limit')?.items.map(({ step, by, line_a: lineA }) => [step, by, lineA])).toEqual([['agreed', 'R. Rater', 300], ['proposed', 'P. Planner', 300]])
    expect(of('cleared')).toMatchObject({ count: 1, items: [{ splice: 'worst', engineer: 'E. Engineer', reason: 'Read again by another crew', from: 'critical', to: 'sound', by: 'tester' }] })
    expect(of('class')?.items[0]).toMatchObject({ splice: 'worst', direction: 'fall', cause: 'engineer', decided: { engineer: 'E. Engineer', reason: 'Read again by another crew' } })
  })

  it('is told of an undone import: its readings are taken back', async () => {
    const { report: { import_id: importId } } = await send('Mistake', read('same', 50, 70, { ...at(AT.same, 5_000) }))
    const since = await moment()
    await undoImport(scope, importId, 'somebody')
    expect((await told(since)).of('reading')).toMatchObject({ count: 1, items: [{ survey: 'Mistake', circuit: 'S1', undone: true, by: 'somebody', readings: 1, placed: 0 }] })
  })
})

describe('the moment up to which everything is told', () => {
  it('lies before work that has begun and is not stored yet, so that who asks since then does not miss it', async () => {
    await inTransaction(async (tx) => {
      const begun = (await tx.row<{ at: Date }>(sql`SELECT now() AS at`))?.at ?? new Date()
      await new Promise((resolve) => setTimeout(resolve, 30))
      expect((await now()).getTime()).toBeLessThan(begun.getTime())
    })
    const before = (await database().row<{ at: Date }>(sql`SELECT now() - interval '20 milliseconds' AS at`))?.at ?? new Date()
    expect((await moment()).getTime()).toBeGreaterThan(before.getTime())
  })
})
