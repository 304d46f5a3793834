import { beforeAll, describe, expect, it } from 'vitest'
import { classChanges } from '@/lib/contract/class-changes'
import { listSplices } from '@/lib/store/splices'
import { useDatabase } from './database'
import { buildNetwork, csv, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const classOf = async (): Promise<string[]> => (await listSplices(scope)).items.map((splice) => splice.class)

/** 12 µΩ over 0.3048 m is 0.54 of Drake and 1.46 of Bluebird (R dc at 20 °C 71.7 and 26.5 µΩ/m, conductor table). */
describe('what an import does to the classes on show', () => {
  it('is counted in its dry run as in the import, and a conductor of another table changes them', async () => {
    const first = csv([reading('by-table', 450, { conductor_uohm: '' }), reading('measured', 1650)])
    const expected = { total: 2, changes: [{ from: 'unknown', to: 'sound', count: 2 }] }
    expect((await report('readings', first, { survey: 'Walk', dryRun: true })).class_changes).toMatchObject(expected)
    expect(await classOf()).toEqual([])
    expect((await report('readings', first, { survey: 'Walk' })).class_changes).toMatchObject(expected)

    const before = await classOf()
    const heavier = linesFile([lineFeature('S1', 5_000, { conductor: 'Bluebird' })])
    const told = classChanges.parse((await report('lines', heavier, { dryRun: true })).class_changes)
    expect(told.total).toBe(told.splices.length)
    expect(told.changes.every(({ from, to }) => from === 'sound' && to !== 'sound')).toBe(true)
    expect(told.total).toBeGreaterThan(0)
    expect(told.splices[0]?.splice).toMatch(/^found \d+$/)
    expect(await classOf()).toEqual(before)

    expect((await report('lines', heavier)).class_changes).toEqual(told)
    expect(await classOf()).not.toEqual(before)
    expect((await report('lines', heavier, { dryRun: true })).class_changes).toEqual({ total: 0, changes: [], splices: [] })
  })
})
