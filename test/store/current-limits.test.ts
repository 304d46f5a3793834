import { beforeAll, describe, expect, it } from 'vitest'
import { circuitsCsv } from '@/lib/cases/circuits-csv'
import { proposeLimit, stepLimit } from '@/lib/cases/current-limits'
import { reassessNetwork } from '@/lib/cases/reassess-network'
import { undoImport } from '@/lib/cases/undo-import'
import { circuitHealth, spliceDetail } from '@/lib/contract/contract'
import { currentLimit, type CurrentLimitJson } from '@/lib/contract/limits'
import { listHealth } from '@/lib/store/health'
import { limitById, openLimits } from '@/lib/store/limits'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { formatAllowed } from '@/lib/units/format'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

const RATING_A = 900
const DAY_MS = 86_400_000
const idOf: Record<string, number> = {}
let imported = 0

beforeAll(async () => {
  await buildNetwork()
  const splices = [['one', 450], ['two', 750], ['three', 1050]] as const
  await report('splices', csv(splices.map(([name, m]) => ({ splice_id: name, circuit: 'S1', line_distance_m: m, phase: 'A', barrel_od_mm: 47.8 }))))
  imported = (await report('readings', csv([reading('bad', 450, { side_a_uohm: 60, conductor_uohm: 20 })]), { survey: 'Walk' })).import_id
  for (const { splice, id } of (await listSplices(scope, { limit: 500 })).items) idOf[splice] = id
})

const id = (name: string): number => idOf[name] ?? 0
const propose = (name: string, lineA: number, aboveWhy?: string) => proposeLimit(scope, id(name), {
  line_a: lineA, proposed_by: 'P. Proposer', reason: 'Side A reads three times its conductor', above_advised_why: aboveWhy,
}, 'tester')

function taken(outcome: Awaited<ReturnType<typeof propose>>): CurrentLimitJson {
  if (!outcome.ok) throw new Error(outcome.error.message)
  return currentLimit.parse(outcome.value)
}
const refusal = (outcome: Awaited<ReturnType<typeof propose>>): string => (outcome.ok ? 'taken' : outcome.error.code)

async function inForce(name: string, lineA: number): Promise<CurrentLimitJson> {
  const { id: limitId } = taken(await propose(name, lineA))
  taken(await stepLimit(scope, limitId, { step: 'agree', agreed_by: 'R. Engineer' }, 'tester'))
  return taken(await stepLimit(scope, limitId, { step: 'accept', accepted_by: 'O. Operator', read_back_a: lineA }, 'tester'))
}

describe('a limit on the register', () => {
  it('goes from proposed by one, to agreed by another, to accepted with read back', async () => {
    const proposed = taken(await propose('one', 600))
    expect(proposed).toMatchObject({ standing: 'proposed', line_a: 600, proposed_by: 'P. Proposer', agreed_by: null, in_force_from: null })
    // What the engine advised stands beside it, and apparent power of three phases (definition) at 230 kV.
    expect(proposed.advised_a).toBeCloseTo((await getSplice(scope, id('one')))?.outlook?.limit?.line_a ?? NaN, 9)
    expect(proposed.mva).toBeCloseTo((Math.sqrt(3) * 230 * 600) / 1000, 9)
    const step = (s: Parameters<typeof stepLimit>[2]) => stepLimit(scope, proposed.id, s, 'tester')
    expect(refusal(await step({ step: 'accept', accepted_by: 'O. Operator', read_back_a: 600 }))).toBe('wrong-state')
    expect(refusal(await step({ step: 'agree', agreed_by: ' p. proposer ' }))).toBe('invalid')
    expect(taken(await step({ step: 'agree', agreed_by: 'R. Engineer' }))).toMatchObject({ standing: 'agreed', agreed_by: 'R. Engineer' })
    expect(refusal(await step({ step: 'accept', accepted_by: 'O. Operator', read_back_a: 60 }))).toBe('invalid')
    const accepted = taken(await step({ step: 'accept', accepted_by: 'O. Operator', read_back_a: 600 }))
    expect(accepted).toMatchObject({ standing: 'in-force', accepted_by: 'O. Operator' })
    expect(accepted.in_force_from).not.toBeNull()
    expect(spliceDetail.parse(await getSplice(scope, id('one'))).limits).toEqual([accepted])
  })

  it('is one at a time, and never above the section’s rating', async () => {
    expect(refusal(await propose('one', 500))).toBe('wrong-state')
    expect(refusal(await propose('two', RATING_A + 1))).toBe('invalid')
    const limitId = taken(await propose('two', RATING_A)).id
    taken(await stepLimit(scope, limitId, { step: 'lift', lifted_by: 'R. Engineer', why: 'Proposed by mistake' }, 'tester'))
  })

  it('says why where it is above the advised figure, on the register too', async () => {
    const current = (await getSplice(scope, id('one')))?.limits.find(({ standing }) => standing !== 'lifted')
    taken(await stepLimit(scope, current?.id ?? 0, { step: 'lift', lifted_by: 'R. Engineer', why: 'Proposed anew' }, 'tester'))
    const advisedA = Math.floor((await getSplice(scope, id('one')))?.outlook?.limit?.line_a ?? NaN)
    const unsaid = await propose('one', advisedA + 2)
    expect(unsaid).toMatchObject({ error: { code: 'invalid', remedy: expect.stringContaining('above_advised_why') as string } })
    const said = taken(await propose('one', advisedA + 2, 'Wind farm off until May'))
    expect(said.reason).toBe(`Why more than the advised ${formatAllowed(advisedA)}: Wind farm off until May. Side A reads three times its conductor`)
    taken(await stepLimit(scope, said.id, { step: 'lift', lifted_by: 'R. Engineer', why: 'Too much' }, 'tester'))
    await inForce('one', 600)
  })

  it('is lifted by nothing automatic: neither undo nor a new assessment', async () => {
    const [before] = (await getSplice(scope, id('one')))?.limits ?? []
    expect((await undoImport(scope, imported, 'tester')).ok).toBe(true)
    await reassessNetwork(scope, async () => undefined)
    expect((await getSplice(scope, id('one')))?.limits[0]).toEqual(before)
  })

  it('keeps its splice when the import that found it is undone', async () => {
    const found = await report('readings', csv([reading('new', 2500, { side_a_uohm: 60, conductor_uohm: 20 })]), { survey: 'Later walk' })
    expect(found.new_splices).toBe(1)
    const splice = (await listSplices(scope, { limit: 500 })).items.find((one) => one.found_by_survey)
    idOf.found = splice?.id ?? 0
    const limitId = taken(await propose('found', 400)).id
    expect((await undoImport(scope, found.import_id, 'tester')).ok).toBe(true)
    expect((await getSplice(scope, id('found')))?.limits[0]).toMatchObject({ id: limitId, standing: 'proposed' })
    taken(await stepLimit(scope, limitId, { step: 'lift', lifted_by: 'R. Engineer', why: 'The reading was withdrawn' }, 'tester'))
  })

  it('lapses on its review day and then says to ask an engineer', async () => {
    const [limit] = (await getSplice(scope, id('one')))?.limits ?? []
    const dueMs = Date.parse(limit?.review_by ?? '')
    // Its repair was due long ago: within the 72 hours that a critical splice has (a setting), and not the thirty days of others.
    expect((dueMs - Date.parse(limit?.proposed_at ?? '')) / DAY_MS).toBeCloseTo(3, 2)
    expect(await limitById(scope, limit?.id ?? 0, dueMs - 1)).toMatchObject({ standing: 'in-force' })
    const later = await limitById(scope, limit?.id ?? 0, dueMs)
    expect(later).toMatchObject({ standing: 'ask-engineer', lifted_at: null })
    expect(later?.standing_why).toMatch(/review is due.*until a person lifts it/)
  })

  it('lapses at a load above it, but not at one that is suspect', async () => {
    const limit = await inForce('three', 550)
    const at = (ms: number) => new Date(Date.parse(limit.in_force_from ?? '') + ms).toISOString()
    const load = (ms: number, current_a: number, quality: string) => ({ circuit: 'S1', taken_at: at(ms), current_a, quality })
    await report('loads', csv([load(1000, 540, 'measured'), load(2000, 800, 'suspect')]))
    expect(await limitById(scope, limit.id, Date.now())).toMatchObject({ standing: 'in-force', greatest_load_a: 540 })
    await report('loads', csv([load(3000, 551, 'measured')]), {}, 'more.csv')
    expect(await limitById(scope, limit.id, Date.now())).toMatchObject({ standing: 'ask-engineer', greatest_load_a: 551 })
  })

  it('is listed with the limiting splice of a circuit first', async () => {
    const { circuit_id: circuitId } = (await getSplice(scope, id('one'))) ?? { circuit_id: 0 }
    expect((await openLimits(scope, circuitId, Date.now())).map(({ splice, line_a: lineA }) => [splice, lineA])).toEqual([['three', 550], ['one', 600]])
  })

  it('is counted on Health and in its table, those in force and those that have lapsed, with the lowest of each', async () => {
    const [health] = await listHealth(scope)
    expect(circuitHealth.parse(health).limits).toEqual({
      in_force: 1, ask_engineer: 1, lowest_in_force: { splice_id: id('one'), splice: 'one', line_a: 600 }, lowest_ask_engineer: { splice_id: id('three'), splice: 'three', line_a: 550 },
    })
    const [head = [], row = []] = (await circuitsCsv(scope)).trim().split('\r\n').map((text) => text.replace(/^\uFEFF/, '').split(','))
    const at = (column: string) => row[head.indexOf(column)]
    expect([at('limits_in_force'), at('lowest_limit_in_force_a'), at('lowest_limit_in_force_splice')]).toEqual(['1', '600', 'one'])
    expect([at('limits_ask_engineer'), at('lowest_limit_ask_engineer_a'), at('lowest_limit_ask_engineer_splice')]).toEqual(['1', '550', 'three'])
  })

  it('is lifted by a person with a reason, and stays on record', async () => {
    const [limit] = (await getSplice(scope, id('one')))?.limits ?? []
    const lifted = taken(await stepLimit(scope, limit?.id ?? 0, { step: 'lift', lifted_by: 'R. Engineer', why: 'Shunt fitted and proved' }, 'tester'))
    expect(lifted).toMatchObject({ standing: 'lifted', lifted_by: 'R. Engineer', lifted_why: 'Shunt fitted and proved' })
    expect(refusal(await stepLimit(scope, lifted.id, { step: 'agree', agreed_by: 'Somebody' }, 'tester'))).toBe('wrong-state')
    expect((await getSplice(scope, id('one')))?.limits[0]?.id).toBe(lifted.id)
  })

  it('has each of its steps in the history of its splice, and is withdrawn where nobody had accepted it', async () => {
    const steps = async (name: string) => ((await getSplice(scope, id(name)))?.history ?? []).flatMap((entry) => (entry.kind === 'limit' ? [[entry.step, entry.by, entry.why]] : []))
    expect((await steps('one')).slice(0, 4)).toEqual([
      ['lifted', 'R. Engineer', 'Shunt fitted and proved'], ['accepted', 'O. Operator', null], ['agreed', 'R. Engineer', null],
      ['proposed', 'P. Proposer', 'Side A reads three times its conductor'],
    ])
    expect(await steps('two')).toEqual([['withdrawn', 'R. Engineer', 'Proposed by mistake'], ['proposed', 'P. Proposer', 'Side A reads three times its conductor']])
  })

  it('is guarded by the database itself', async () => {
    const insert = (lineA: number, agreedBy: string | null) => database().run(sql`
      INSERT INTO current_limit (splice_id, line_a, reason, proposed_by, review_by, agreed_by, agreed_at)
      VALUES (${id('two')}, ${lineA}::float8, 'x', 'Same', now() + interval '1 day', ${agreedBy}::text, CASE WHEN ${agreedBy}::text IS NULL THEN NULL ELSE now() END)`)
    await expect(insert(RATING_A + 1, null)).rejects.toThrow(/rating of its section/)
    await expect(insert(100, 'same')).rejects.toThrow('current_limit_agreed_by_another')
    const run = (text: ReturnType<typeof sql>) => database().run(text)
    await expect(run(sql`DELETE FROM current_limit WHERE splice_id = ${id('three')}`)).rejects.toThrow(/kept as it was said/)
    await expect(run(sql`UPDATE current_limit SET line_a = 700 WHERE splice_id = ${id('three')}`)).rejects.toThrow(/kept as it was said/)
  })
})
