import fs from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { recordCall } from '@/lib/cases/calls'
import { proposeLimit, stepLimit } from '@/lib/cases/current-limits'
import { undoImport } from '@/lib/cases/undo-import'
import { removeView, saveView, takeSplice } from '@/lib/cases/watch'
import { defaultPolicy } from '@/lib/condition'
import { compareByRisk, consequenceOf, riskOf } from '@/lib/condition/risk'
import type { ConditionClass } from '@/lib/condition/types'
import { spliceDetail, spliceList, type ListedSplice } from '@/lib/contract/contract'
import type { SpliceFilter } from '@/lib/contract/filter'
import { narrowed } from '@/lib/store/scope'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { name, sql } from '@/lib/store/sql/sql'
import { listSurveys } from '@/lib/store/surveys'
import { idsThatPass } from '@/lib/store/tile-sources'
import { database, inTransaction } from '@/lib/store/transaction'
import { listViews } from '@/lib/store/watch'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()

const idOf: Record<string, number> = {}
const id = (name: string): number => idOf[name] ?? 0
const list = async (filter: SpliceFilter = {}) => spliceList.parse(await listSplices(scope, { filter, sort: 'risk', limit: 500 }))
const names = ({ items }: { items: ListedSplice[] }) => items.map(({ splice }) => splice)
const watchOf = async (name: string) => (await list()).items.find(({ splice }) => splice === name)?.watch

beforeAll(async () => {
  await buildNetwork()
  await importText('lines', linesFile([lineFeature('S1', 5_000, { radial: true, mw: 140 })]), {}, 'lines-again.geojson')
  await report('splices', csv([
    ...[['near', 450], ['far', 750], ['fine', 1050], ['once', 1350], ['unread', 1650]].map(([name = '', m = 0]) => ({ splice_id: name, circuit: 'S1', line_distance_m: m, phase: 'A', barrel_od_mm: 47.8 })),
  ]))
  await report('readings', csv([
    reading('n', 450, { side_a_uohm: 44, conductor_uohm: 20 }), reading('fa', 750, { side_a_uohm: 45, conductor_uohm: 20 }), reading('fi', 1050),
  ]), { survey: 'Spring' })
  await report('readings', csv([reading('o', 1350, { taken_at: '2019-06-01T10:00:00Z', side_a_uohm: 45, conductor_uohm: 20 })]), { survey: 'Long ago' })
  await report('crossings', csv([{ circuit: 'S1', line_distance_m: 500, kind: 'rail' }]))
  await report('loads', csv([{ circuit: 'S1', taken_at: '2026-06-01T10:00:00Z', current_a: 300, quality: 'measured' }, { circuit: 'S1', taken_at: '2026-06-01T10:00:00Z', current_a: 700, quality: 'expected-peak' }]))
  await report('loads', csv([{ circuit: 'S1', taken_at: '2026-06-01T10:00:00Z', current_a: 650, quality: 'post-contingency' }]))
  for (const { splice, id: spliceId } of (await listSplices(scope, { limit: 500 })).items) idOf[splice] = spliceId
})

interface Kept { splice_id: number; class: ConditionClass; risk: number; load_share: number | null; consequence: number; confidence: 'high'; held: boolean; limit_line_a: number | null; year: number; ratio: number | null }
const kept = () => database().rows<Kept>(sql`
  SELECT splice_id, class, risk, load_share, consequence, confidence, held, limit_line_a, read_year(last_reading_at) AS year, ratio FROM splice_state`)

describe('the order by risk', () => {
  it('is that of the rule: what the database keeps is what the rule makes of the same facts', async () => {
    const rows = await kept()
    const acute = rows.filter(({ class: of }) => ['degraded', 'urgent', 'critical'].includes(of))
    expect(acute.length).toBe(3)
    for (const row of acute) {
      expect(row.load_share).toBeCloseTo(700 / (row.limit_line_a ?? NaN), 9) // the expected peak is above the last known load
      expect(row.consequence).toBe(consequenceOf({ radial: true, mw: 140, crosses: row.splice_id === id('near') }))
      expect(row.risk).toBe(riskOf({ loadShare: row.load_share ?? undefined, confidence: row.confidence, held: row.held, consequence: row.consequence }))
    }
    for (const row of rows.filter((one) => !acute.includes(one))) expect(row).toMatchObject({ risk: 0, load_share: null, consequence: 0 })
    const byRule = rows.map((row) => ({ id: row.splice_id, class: row.class, risk: row.risk, readYear: row.year, ratio: row.ratio })).toSorted(compareByRisk)
    expect((await list()).items.map((one) => one.id)).toEqual(byRule.map((one) => one.id))
  })

  it('goes on from page to page', async () => {
    const paged: number[] = []
    for (let cursor: string | undefined; ;) {
      const page = await listSplices(scope, { sort: 'risk', limit: 2, cursor })
      paged.push(...page.items.map((one) => one.id))
      if (page.next_cursor === null) break
      cursor = page.next_cursor
    }
    expect(paged).toEqual((await list()).items.map((one) => one.id))
  })

  it('counts a flow after a contingency as the peak, wherever it is greater', async () => {
    const before = await kept()
    const contingency = csv([{ circuit: 'S1', taken_at: '2026-06-02T10:00:00Z', current_a: 900, quality: 'post-contingency' }])
    const { import_id: importId } = await report('loads', contingency)
    const after = await kept()
    for (const { class: shown, load_share: share, limit_line_a: limitA, risk, confidence, held, consequence } of after) {
      if (shown !== 'degraded' && shown !== 'urgent' && shown !== 'critical') continue
      expect(share).toBeCloseTo(900 / (limitA ?? NaN), 9)
      expect(risk).toBe(riskOf({ loadShare: share ?? undefined, confidence, held, consequence }))
    }
    expect((await watchOf('near'))?.load).toBe('contingency')

    // What was kept before contingencies counted is brought up to date by the migration, to the same.
    await database().run(sql`UPDATE splice_state n SET load_share = was.load_share, risk = was.risk
      FROM jsonb_to_recordset(${JSON.stringify(before)}::jsonb) AS was (splice_id int, load_share float8, risk int) WHERE was.splice_id = n.splice_id`)
    expect(await kept()).not.toEqual(after)
    await database().run(sql`${name(fs.readFileSync('prisma/migrations/20261201000000_contingency_in_risk/migration.sql', 'utf8'))}`)
    const byId = (rows: Kept[]) => rows.toSorted((a, b) => a.splice_id - b.splice_id)
    expect(byId(await kept())).toEqual(byId(after))
    await undoImport(scope, importId, 'tester')
    expect(byId(await kept()).map(({ risk }) => risk)).toEqual(byId(before).map(({ risk }) => risk))
  })

  it('follows a limit that comes into force', async () => {
    const before = (await kept()).find((row) => row.splice_id === id('far'))
    const proposed = await proposeLimit(scope, id('far'), { line_a: 200, proposed_by: 'P. Proposer', reason: 'Runs hot' }, 'tester')
    if (!proposed.ok) throw new Error(proposed.error.message)
    expect((await watchOf('far'))?.limit_state).toBe('proposed')
    await stepLimit(scope, proposed.value.id, { step: 'agree', agreed_by: 'R. Engineer' }, 'tester')
    await stepLimit(scope, proposed.value.id, { step: 'accept', accepted_by: 'O. Operator', read_back_a: 200 }, 'tester')
    const after = (await kept()).find((row) => row.splice_id === id('far'))
    expect(before?.limit_line_a).toBeGreaterThan(200)
    expect(after?.load_share).toBeCloseTo(3.5, 9)
    expect((await watchOf('far'))?.limit_state).toBe('in-force')
  })

  it('reads its index and no table whole', async () => {
    const plan = await inTransaction(async (tx) => {
      await tx.run(sql`SET LOCAL enable_seqscan = off`)
      return tx.rows<{ 'QUERY PLAN': string }>(sql`
        EXPLAIN SELECT splice_id FROM splice_state st ORDER BY -class_rank(st.class), -st.risk, read_year(st.last_reading_at), -coalesce(st.ratio, 0), st.splice_id LIMIT 10`)
    })
    expect(plan.map((line) => line['QUERY PLAN']).join('\n')).toContain('splice_state_by_risk')
  })
})

describe('a row of the list', () => {
  it('says what to do next, by when, who has it, whether it was called in, and why it stands where it does', async () => {
    const row = await watchOf('near')
    expect(row).toMatchObject({ next: 'call-control-room', waits_for_call: true, called_at: null, owner: null, limit_state: 'none', radial: true, mw: 140, crossing: 'rail', load: 'peak' })
    await recordCall(scope, id('near'), { kind: 'call', by: 'L', whom: 'Control room', decided: ['load-relief'], told_control_room: true }, 'tester')
    const called = await watchOf('near')
    expect(called).toMatchObject({ waits_for_call: false, next: 'repair' })
    expect(called?.called_at).not.toBeNull()
    // Of 1 June 2026, 10:00 UTC, with the response time of the policy that is in force.
    const { class: shown } = (await list()).items.find(({ splice }) => splice === 'near') ?? {}
    const { criticalHours, urgentDays } = defaultPolicy.response
    const dueMs = Date.parse('2026-06-01T10:00:00Z') + (shown === 'critical' ? criticalHours : urgentDays * 24) * 3_600_000
    expect(Math.abs(Date.parse(called?.due_at ?? '') - dueMs)).toBeLessThan(1000) // the import ends a moment after its class is shown
    expect((await list()).items.find(({ splice }) => splice === 'fine')?.watch).toBeNull()
  })

  it('names who has taken it, with the trail of who had it', async () => {
    expect(await takeSplice(scope, id('near'), 'A. Planner', 'tester')).toMatchObject({ ok: true, value: { owner: 'A. Planner' } })
    expect((await watchOf('near'))?.owner).toBe('A. Planner')
    expect(spliceDetail.parse(await getSplice(scope, id('near'))).owner.owner).toBe('A. Planner')
    await takeSplice(scope, id('near'), 'B. Planner', 'tester')
    await takeSplice(scope, id('near'), null, 'tester')
    expect((await watchOf('near'))?.owner).toBeNull()
    const trail = await database().rows<{ detail: { from: string | null; to: string | null } }>(sql`SELECT detail FROM audit_entry WHERE action = 'splice.taken' ORDER BY id`)
    expect(trail.map(({ detail }) => [detail.from, detail.to])).toEqual([[null, 'A. Planner'], ['A. Planner', 'B. Planner'], ['B. Planner', null]])
    expect(await takeSplice(narrowed(scope, []), id('near'), 'X', 'tester')).toMatchObject({ ok: false, error: { code: 'not-found' } })
  })
})

describe('the filters', () => {
  it('narrow by survey, age, evidence and confidence, list and tiles alike, and count what they hide', async () => {
    const surveys = Object.fromEntries((await listSurveys(scope)).map(({ name, id: survey }) => [name, survey]))
    const cases: [SpliceFilter, string[]][] = [
      [{ surveyIds: [surveys['Long ago'] ?? 0] }, ['once']],
      [{ surveyIds: [surveys.Spring ?? 0] }, ['near', 'far', 'fine']],
      [{ ages: ['never'] }, ['unread']],
      [{ ages: ['over-6'] }, ['once']],
      [{ ages: ['under-1', 'never'] }, ['near', 'far', 'fine', 'unread']],
      [{ ages: [] }, []],
      [{ evidence: ['none'] }, ['unread']],
      [{ evidence: ['resistance'], surveyIds: [surveys['Long ago'] ?? 0] }, ['once']],
    ]
    const whole = await list()
    for (const [filter, expected] of cases) {
      const page = await list(filter)
      expect(names(page).toSorted(), JSON.stringify(filter)).toEqual(expected.toSorted())
      expect(page.total).toBe(expected.length)
      expect([...await idsThatPass(scope, filter)].toSorted()).toEqual(expected.map(id).toSorted())
      expect(page.hidden.urgent + page.counts.urgent).toBe(whole.counts.urgent)
      expect(page.hidden.critical + page.counts.critical).toBe(whole.counts.critical)
    }
    const byConfidence = await Promise.all((['high', 'medium', 'low'] as const).map(async (one) => (await list({ confidences: [one] })).total ?? 0))
    expect(byConfidence.reduce((sum, n) => sum + n, 0)).toBe(5)
  })
})

describe('a saved view', () => {
  it('is kept for the scope under one name, as the list writes its filter, and comes back as it was', async () => {
    const saved = await saveView(scope, { name: 'Urgent, old', query: 'evidence=resistance&class=urgent,critical' }, 'tester')
    if (!saved.ok) throw new Error(saved.error.message)
    expect(saved.value.query).toBe('class=urgent,critical&evidence=resistance')
    expect(await saveView(scope, { name: 'URGENT, old', query: '' }, 'tester')).toMatchObject({ ok: false, error: { code: 'in-use' } })
    expect(await saveView(scope, { name: 'Odd', query: 'class=fine' }, 'tester')).toMatchObject({ ok: false, error: { code: 'invalid' } })
    expect(await saveView(scope, { name: 'Odd', query: 'colour=red' }, 'tester')).toMatchObject({ ok: false, error: { code: 'invalid' } })
    expect(await listViews(scope)).toEqual([saved.value])
    expect(await listViews(narrowed(scope, [1]))).toEqual([])
    expect(await removeView(narrowed(scope, [1]), saved.value.id, 'tester')).toMatchObject({ ok: false })
    expect(await removeView(scope, saved.value.id, 'tester')).toMatchObject({ ok: true, value: { name: 'Urgent, old' } })
    expect(await listViews(scope)).toEqual([])
  })
})
