import { beforeAll, describe, expect, it } from 'vitest'
import { changePolicy, previewPolicy } from '@/lib/cases/change-policy'
import { changeSettings } from '@/lib/cases/change-settings'
import { clearHeldClass } from '@/lib/cases/clear-held-class'
import { reassessNetwork } from '@/lib/cases/reassess-network'
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

  it('is refused where its edges do not rise', async () => {
    expect(await changePolicy(scope, { values: { edges: { watch: 2, degraded: 1, urgent: 3, critical: 4 } }, procedureNo: null, note: null, actor: 'engineer' }))
      .toMatchObject({ ok: false, error: { code: 'invalid' } })
  })

  it('is a new version, and every splice is assessed by it in the background', async () => {
    const changed = await changePolicy(scope, { values: strict, procedureNo: 'TL-17', note: 'Our own lines', actor: 'engineer' })
    expect(changed).toMatchObject({ ok: true, value: { version: 2, procedure_no: 'TL-17', actor: 'engineer' } })
    expect(changed.ok && await getJob(scope, changed.value.job_id)).toMatchObject({ state: 'queued', failure: null })
    await reassessNetwork(scope, async () => undefined)
    const [first, ...others] = await classes()
    expect(['watch', 'degraded']).toContain(first)
    expect(others).toEqual(['urgent', 'urgent', 'critical'])
    expect((await listSplices(scope)).items.every((s) => !s.held)).toBe(true)
  })

  it('never lowers urgent or critical: they are held, the others follow', async () => {
    const preview = await previewPolicy(scope, lax)
    expect(preview.ok && preview.value.splices.every((s) => s.from !== 'urgent' && s.from !== 'critical')).toBe(true)
    await changePolicy(scope, { values: lax, procedureNo: null, note: null, actor: 'engineer' })
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
    expect(assessments?.map((h) => [h.cause, h.policy_version])).toEqual([['engineer', 3], ['policy', 3], ['policy', 2], ['import', 1]])
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
