import { beforeAll, describe, expect, it } from 'vitest'
import { undoWords } from '@/components/intake/words'
import { undoImport } from '@/lib/cases/undo-import'
import { importStatus } from '@/lib/contract/contract'
import { importAsOfNow } from '@/lib/store/import-as-of-now'
import { useDatabase } from './database'
import { csv, linesFile, reading, report, scope, structuresFile } from './utility'

useDatabase()

const ids: Record<string, number> = {}
beforeAll(async () => {
  ids.lines = (await report('lines', linesFile())).import_id
  ids.structures = (await report('structures', structuresFile())).import_id
  ids.splices = (await report('splices', csv([{ splice_id: 'one', circuit: 'S1', line_distance_m: 450, phase: 'A' }]))).import_id
  ids.readings = (await report('readings', csv([reading('a', 450), reading('b', 1050)]), { survey: 'Spring' }, 'spring.csv')).import_id
})

const restingOn = async (kind: string) => importStatus.parse(await importAsOfNow(scope, ids[kind] ?? 0)).resting

describe('what rests on an import', () => {
  it('is counted in readings for lines, structures and splices, with what must be undone first', async () => {
    expect(await restingOn('lines')).toMatchObject({ readings: 2 })
    expect((await restingOn('lines'))?.blockers).toEqual(expect.arrayContaining([
      { what: 'splices', count: 1, import_id: ids.splices, file_name: 'splices.txt' }, { what: 'readings', count: 2, import_id: ids.readings, file_name: 'spring.csv' },
    ]))
    expect(await restingOn('structures')).toMatchObject({ readings: 2 })
    expect(await restingOn('splices')).toEqual({ readings: 1, blockers: [{ what: 'readings', count: 1, import_id: ids.readings, file_name: 'spring.csv' }] })
    expect(await restingOn('readings')).toBeUndefined()
  })

  it('is what the undo refuses for, and is said before anybody tries', async () => {
    const status = importStatus.parse(await importAsOfNow(scope, ids.splices ?? 0))
    expect(undoWords(status.report!, status.resting).slice(0, 2)).toEqual([
      '1 reading rests on it.',
      `It cannot be undone before what lies on it: 1 reading of import ${ids.readings} (spring.csv). Undo those imports first, the last one first.`,
    ])
    expect(await undoImport(scope, ids.splices ?? 0, 'tester')).toMatchObject({ ok: false, error: { code: 'in-use' } })
  })

  it('is nothing once it was undone, and then the undo goes through', async () => {
    expect(await undoImport(scope, ids.readings ?? 0, 'tester')).toMatchObject({ ok: true })
    expect(await restingOn('splices')).toEqual({ readings: 0, blockers: [] })
    expect(await undoImport(scope, ids.splices ?? 0, 'tester')).toMatchObject({ ok: true })
  })
})
