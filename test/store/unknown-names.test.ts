import { beforeAll, describe, expect, it } from 'vitest'
import { commandJson } from '@/lib/launch/import-json'
import { reportText } from '@/lib/launch/report-text'
import { useDatabase } from './database'
import { buildNetwork, csv, lineFeature, linesFile, importText, reading, report } from './utility'

useDatabase()

beforeAll(async () => {
  await buildNetwork()
  await importText('lines', linesFile([lineFeature('KF-115-02', 9_000)]))
})

describe('a wrong name in readings', () => {
  const text = csv([
    reading('a', 450, { circuit: 'KF-115-20' }), reading('b', 1050, { circuit: 'KF-115-2' }), reading('c', 1650, { circuit: 'KF-115-2' }),
    reading('d', 450, { circuit: 'S1' }), reading('e', 1050, { circuit: 'S1', structure_back: '99' }),
  ])

  it.each([true, false])('is said in the report with field, value, count, remedy and nearest name (dry run: %s)', async (dryRun) => {
    const r = await report('readings', text, { survey: 'Spring', dryRun })
    expect(r).toMatchObject({ rows: 5, read: 5, rejected: 0, placed: 1, review: 4 })
    const remarks = r.issues.filter((issue) => issue.code.startsWith('unknown-'))
    expect(remarks.map(({ severity, row, field, value, code }) => ({ severity, row, field, value, code }))).toEqual([
      { severity: 'warning', row: 0, field: 'circuit', value: 'KF-115-2', code: 'unknown-circuit' },
      { severity: 'warning', row: 0, field: 'circuit', value: 'KF-115-20', code: 'unknown-circuit' },
      { severity: 'warning', row: 0, field: 'structure_back', value: '99', code: 'unknown-structure' },
    ])
    expect(remarks[0]?.message).toBe('File: there is no circuit \'KF-115-2\': 2 rows name it, the first is row 2, and they wait for review. The nearest name is KF-115-02.')
    expect(remarks[0]?.remedy).toContain('correct it to KF-115-02 and import the file again')
    expect(remarks[2]?.message).toContain('there is no structure \'99\'')
    expect(reportText('readings.csv', r)).toContain('warning: File: there is no circuit \'KF-115-2\': 2 rows name it')
    expect(JSON.stringify(commandJson([{ file: 'readings.csv', dryRun, report: r }], 0))).toContain('"code":"unknown-circuit"')
  })
})

describe('a wrong circuit in other files', () => {
  it('is rejected with the nearest name', async () => {
    const r = await report('crossings', csv([{ circuit: 'KF-115-2', line_distance_m: 100, kind: 'road' }, { circuit: 'Q', line_distance_m: 100, kind: 'road' }]))
    expect(r.issues.map(({ code, message }) => [code, message])).toEqual([
      ['unknown-circuit', 'Row 1, line 2, circuit: Circuit KF-115-2 is not known. The nearest name is KF-115-02.'],
      ['unknown-circuit', 'Row 2, line 3, circuit: Circuit Q is not known.'],
    ])
  })
})
