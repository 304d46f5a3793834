import { beforeAll, describe, expect, it } from 'vitest'
import { changePolicy, previewPolicy } from '@/lib/cases/change-policy'
import { proposeLimit, stepLimit } from '@/lib/cases/current-limits'
import { changeSettings } from '@/lib/cases/change-settings'
import { clearHeldClass } from '@/lib/cases/clear-held-class'
import { reassessNetwork } from '@/lib/cases/reassess-network'
import { changes } from '@/lib/contract/changes'
import { listChanges } from '@/lib/store/changes'
import { getJob } from '@/lib/store/jobs'
import { currentPolicy, policyHistory } from '@/lib/store/policies'
import { getSettings } from '@/lib/store/settings'
import { getSplice } from '@/lib/store/splice-detail'
import { countSplices, listSplices } from '@/lib/store/splices'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

beforeAll(async () => {
  await buildNetwork()
  // Ratios of the worse side against 20 µΩ: 0.6, 1.15, 1.5, 3.
  await report('readings', csv([12, 23, 30, 60].map((uohm, i) => reading(`p${i}`, 450 + 600 * i, { side_a_uohm: uohm, conductor_uohm: 20 }))), { survey: 'Spring' })
})

const classes = async () => (await listSplices(scope, { sort: 'place' })).items.map((s) => s.class)
const strict = { edges: { watch: 0.5, degraded: 0.7, urgent: 1, critical: 2 } }
const lax = { edges: { watch: 2, degraded: 4, urgent: 6, critical: 8 } }

describe('a change of policy', () => {
  it('starts from the defaults as version 1', async () => {
    expect(await classes()).toEqual(['sound', 'watch', 'degraded', 'critical'])
    expect((await currentPolicy(scope)).version).toBe(1)
  })

  it('is previewed: what it would reclassify, nothing stored', async () => {
    const preview = await previewPolicy(scope, strict)
    expect(preview).toMatchObject({ ok: true, value: { total: 3 } })
    expect(preview.ok && preview.value.splices.map((s) => [s.from, s.to])).toEqual(expect.arrayContaining([['watch', 'urgent'], ['degraded', 'urgent']]))
    expect(await classes()).toEqual(['sound', 'watch', 'degraded', 'critical'])
    expect(await policyHistory(scope)).toHaveLength(1)
  })

  it('is previewed also where no class changes: whose advised current would rise, by how much, and above which limit in force', async () => {
    const [splice] = (await listSplices(scope)).items
    const sheetA = (await getSplice(scope, splice?.id ?? 0))?.outlook?.limit?.line_a ?? NaN
    expect(splice?.class).toBe('critical')
    const proposed = await proposeLimit(scope, splice?.id ?? 0, { line_a: Math.floor(sheetA), reason: 'Ratio 3', proposed_by: 'P. Planner' }, 'tester')
    if (!proposed.ok) throw new Error(proposed.error.message)
    await stepLimit(scope, proposed.value.id, { step: 'agree', agreed_by: 'R. Rating' }, 'tester')
    expect(await stepLimit(scope, proposed.value.id, { step: 'accept', accepted_by: 'O. Operator', read_back_a: Math.floor(sheetA) }, 'tester')).toMatchObject({ ok: true })
    // A splice that may be 100 °C hot carries more than one that may be 93 °C hot, and its class goes by its ratio alone.
    const hotter = await previewPolicy(scope, { limit: { temperatureC: 100 } })
    if (!hotter.ok) throw new Error(hotter.error.message)
    expect(hotter.value).toMatchObject({ total: 0, advised: { fall: 0, acute: 1, over_in_force: 1 } })
    expect(hotter.value.advised.rise).toBeGreaterThan(0)
    const [first] = hotter.value.advised.splices
    expect(first).toMatchObject({ id: splice?.id, class: 'critical', from_a: Math.floor(sheetA), in_force_a: Math.floor(sheetA), over_in_force: true })
    expect(first?.to_a ?? 0).toBeGreaterThan(sheetA)
    const windy = await previewPolicy(scope, { ratingWeather: { windMS: 0.3 } })
    expect(windy.ok && windy.value.advised).toMatchObject({ rise: 0, over_in_force: 0 })
    expect((await previewPolicy(scope, {}))).toMatchObject({ ok: true, value: { total: 0, advised: { total: 0, splices: [] } } })
  })

  it('asks for a named person and a reason wherever a value differs, and for neither where none does', async () => {
    const change = { values: { limit: { temperatureC: 95 } }, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'operator' }
    for (const missing of [{ setBy: null }, { setBy: ' ' }, { note: null }, { note: '  ' }]) {
      expect(await changePolicy(scope, { ...change, ...missing })).toMatchObject({ ok: false, error: { code: 'invalid' } })
    }
    expect((await currentPolicy(scope)).version).toBe(1)
  })

  it('is refused where its edges do not rise', async () => {
    expect(await changePolicy(scope, { values: { edges: { watch: 2, degraded: 1, urgent: 3, critical: 4 } }, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'engineer' }))
      .toMatchObject({ ok: false, error: { code: 'invalid' } })
  })

  it('is a new version, and every splice is assessed by it in the background', async () => {
    const changed = await changePolicy(scope, { values: strict, procedureNo: 'TL-17', note: 'Our own lines', setBy: 'R. Castellan', actor: 'engineer' })
    expect(changed).toMatchObject({ ok: true, value: { version: 2, procedure_no: 'TL-17', set_by: 'R. Castellan', actor: 'engineer' } })
    expect(changed.ok && await getJob(scope, changed.value.job_id)).toMatchObject({ state: 'queued', failure: null })
    await reassessNetwork(scope, async () => undefined)
    const [first, ...others] = await classes()
    expect(['watch', 'degraded']).toContain(first)
    expect(others).toEqual(['urgent', 'urgent', 'critical'])
    expect((await listSplices(scope)).items.every((s) => !s.held)).toBe(true)
  })

  it('tells among what changed whose advised current is another, from which to which, and who stands behind it', async () => {
    const since = new Date()
    await new Promise((resolve) => setTimeout(resolve, 20))
    const before = new Map((await Promise.all((await listSplices(scope)).items.map(({ id }) => getSplice(scope, id)))).map((one) => [one?.id, one?.outlook?.limit?.line_a]))
    expect(await changePolicy(scope, { values: { ...strict, limit: { temperatureC: 80 } }, procedureNo: null, note: 'Old compound', setBy: 'R. Castellan', actor: 'operator' })).toMatchObject({ ok: true })
    await reassessNetwork(scope, async () => undefined)
    const [part] = changes.parse(await listChanges(scope, { since, kinds: ['advised'] })).parts
    const items = part?.kind === 'advised' ? part.items : []
    expect(items.length).toBeGreaterThan(0)
    expect(part?.count).toBe(items.length)
    for (const { id, from_a: from, to_a: to, cause, policy } of items) {
      expect(from).toBeCloseTo(before.get(id) ?? NaN, 0)
      expect(to).toBeCloseTo((await getSplice(scope, id))?.outlook?.limit?.line_a ?? NaN, 0)
      expect(to ?? Infinity).toBeLessThan(from ?? 0)
      expect({ cause, policy }).toEqual({ cause: 'policy', policy: { version: 3, set_by: 'R. Castellan', note: 'Old compound' } })
    }
    expect(changes.parse(await listChanges(scope, { since: new Date(), kinds: ['advised'] })).parts[0]?.count).toBe(0)
  })

  it('never lowers urgent or critical: they are held, the others follow', async () => {
    const preview = await previewPolicy(scope, lax)
    expect(preview.ok && preview.value.splices.every((s) => s.from !== 'urgent' && s.from !== 'critical')).toBe(true)
    await changePolicy(scope, { values: lax, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'engineer' })
    await reassessNetwork(scope, async () => undefined)
    expect(await classes()).toEqual(['sound', 'urgent', 'urgent', 'critical'])
    expect((await listSplices(scope, { sort: 'place' })).items.map((s) => s.held)).toEqual([false, true, true, true])
    expect(await countSplices(scope)).toMatchObject({ sound: 1, urgent: 2, critical: 1 })
  })

  it('leaves lowering to a named engineer with a reason', async () => {
    const splice = (await listSplices(scope)).items[0]
    expect(await clearHeldClass(scope, splice?.id ?? 0, { engineer: 'R. Castellan', cause: 'repaired', reason: ' ' }, 'operator')).toMatchObject({ ok: false, error: { code: 'invalid' } })
    expect(await clearHeldClass(scope, splice?.id ?? 0, { engineer: 'R. Castellan', cause: 'repaired', reason: 'Cut out and replaced' }, 'operator')).toMatchObject({ ok: true })
    const detail = await getSplice(scope, splice?.id ?? 0)
    expect(detail).toMatchObject({ held: false, measured_class: detail?.class })
    const assessments = detail?.history.filter((h) => h.kind === 'assessment')
    expect(assessments?.map((h) => [h.cause, h.policy_version])).toEqual([['engineer', 4], ['policy', 4], ['policy', 3], ['policy', 2], ['import', 1]])
  })
})

describe('settings', () => {
  it('stand at their defaults until somebody sets them, and refuse what is no time zone', async () => {
    expect(await getSettings(scope)).toMatchObject({ unit_system: 'metric', time_zone: 'UTC', phase_letters: { A: 'A' } })
    expect(await changeSettings(scope, { time_zone: 'Nowhere/Land' }, 'operator')).toMatchObject({ ok: false, error: { code: 'invalid' } })
    expect(await changeSettings(scope, { unit_system: 'us', phase_letters: { A: 'R', B: 'S', C: 'T' } }, 'operator')).toMatchObject({ ok: true, value: { unit_system: 'us' } })
    expect(await getSettings(scope)).toMatchObject({ unit_system: 'us', time_zone: 'UTC', phase_letters: { A: 'R', B: 'S', C: 'T' } })
  })

  it('let other people\'s phase letters be read from then on', async () => {
    const r = await report('readings', csv([reading('rst', 2850, { phase: 'S' })]), { survey: 'Letters' })
    expect(r).toMatchObject({ read: 1, placed: 1 })
    expect((await listSplices(scope, { sort: 'recent' })).items.some((s) => s.phase === 'B')).toBe(true)
  })
})
