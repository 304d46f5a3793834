import { describe, expect, it } from 'vitest'
import { compileMapping, guessMapping, mappingProblems, withSaid, type ImportKind, type RawRow, type Said } from '@/lib/intake/index'
import { context, open, rowsOf } from '@/test/fixtures/intake/read-file'

/** A file read as somebody said by command. */
async function read(text: string, kind: ImportKind, said: Said) {
  const table = await open(text)
  const rows = await rowsOf(table)
  const sample = rows.filter((row): row is RawRow => !('severity' in row))
  const mapping = withSaid(guessMapping(table.columns, sample, kind), said, table.columns, sample)
  const problems = mappingProblems(mapping, table.columns)
  if (problems.length > 0) return { problems, records: [], notes: [] }
  const normaliser = compileMapping(mapping, table.columns, context())
  const outcomes = rows.map((row) => normaliser.row(row))
  return { problems, records: outcomes.map((outcome) => (outcome.state === 'read' ? outcome.record : null)), notes: normaliser.notes() }
}

const HEADER = 'Test No,Date,R a,R cond\n'

describe('what a person says of a file', () => {
  it('is a unit, by the field or by the header of its column', async () => {
    const { records } = await read(`${HEADER}1,2026-05-04T09:00Z,0.0124,0.0213\n`, 'readings', { units: [{ of: 'side_a_uohm', unit: 'mohm' }, { of: 'r COND', unit: 'mΩ' }] })
    expect(records).toMatchObject([{ sideAUohm: 12.4, conductorUohm: 21.3 }])
  })

  it('is the unit of the other resistances too, where their headers name none, and that is said', async () => {
    const { records, notes } = await read('R a,R b,R cond\n0.0124,0.0121,0.0213\n', 'readings', { units: [{ of: 'side_a_uohm', unit: 'mohm' }] })
    expect(records).toMatchObject([{ sideAUohm: 12.4, sideBUohm: 12.1, conductorUohm: 21.3 }])
    const said = notes.map(({ message }) => message).join()
    expect(said).toContain('No unit is given for Side B resistance; milliohms were taken, as for the other resistances')
    expect(said).toContain('No unit is given for Conductor resistance; milliohms were taken')
    const named = await read('R a,R cond (µΩ)\n0.0124,21.3\n', 'readings', { units: [{ of: 'side_a_uohm', unit: 'mohm' }] })
    expect(named.records).toMatchObject([{ sideAUohm: 12.4, conductorUohm: 21.3 }])
    const chosen = await read('R a,wire here\n0.0124,0.0213\n', 'readings', { fields: [{ field: 'conductor_uohm', column: 'wire here' }], units: [{ of: 'side_a_uohm', unit: 'mohm' }] })
    expect(chosen.records).toMatchObject([{ sideAUohm: 12.4, conductorUohm: 21.3 }])
  })

  it('is warned of where a guess mixes the units of sides and conductor', async () => {
    const { notes } = await read('R a (mΩ),R cond\n0.0124,21.3\n', 'readings', {})
    expect(notes.map(({ message }) => message).join()).toContain('No unit is given for Conductor resistance; micro-ohms were taken, while Side A resistance is in mΩ')
  })

  it('is the zone, the order of dates and the sign of decimals', async () => {
    const { records } = await read(`${HEADER}1,03/04/2026 09:00,"1,234","21,3"\n`, 'readings', { timeZone: 'America/Boise', dateOrder: 'dmy', decimalComma: true })
    // 3 April 2026, 09:00 daylight time of Boise (UTC-6)
    expect(records).toMatchObject([{ takenAt: new Date('2026-04-03T15:00:00Z'), sideAUohm: 1.234, conductorUohm: 21.3 }])
    const zones = async (said: Said) => (await read(`${HEADER}1,2026-05-04 09:00,12,21\n`, 'readings', said)).notes.filter(({ message }) => message.startsWith('Times'))
    expect(await zones({ timeZone: 'America/Boise' })).toMatchObject([{ message: 'Times without an offset were read as America/Boise (1 row, first row 1).', isSaid: true }])
    const [ofUtility] = await zones({})
    expect(ofUtility).toMatchObject({ message: expect.stringMatching(/^Times without an offset were read as \S+, the utility's zone \(1 row/) })
    expect(ofUtility).not.toHaveProperty('isSaid')
  })

  it('is what holds for every row that does not say it itself', async () => {
    const { records, notes } = await read('splice_id,circuit,structure_back,type\nS-1,C-1,45,\nS-2,C-1,46,jumper\n', 'splices', { values: { kind: 'dead end' } })
    expect(records).toMatchObject([{ kind: 'dead-end' }, { kind: 'jumper splice' }])
    expect(notes).toMatchObject([{ message: "Kind of fitting is 'dead end' in rows that do not say it, as was set at the import (1 row, first row 1).", isSaid: true }])
    expect((await read('splice_id,structure_back\nS-1,45\n', 'splices', { values: { circuit: 'C-1' } })).records).toMatchObject([{ circuit: 'C-1' }])
  })

  it('is refused where it cannot be meant', async () => {
    const file = `${HEADER}1,2026-05-04T09:00Z,12,21\n`
    await expect(read(file, 'readings', { units: [{ of: 'side_b_uohm', unit: 'mohm' }] })).rejects.toThrow("No column is read as 'side_b_uohm', so it has no unit that could be set. Its columns are 'Test No', 'Date', 'R a' and 'R cond'.")
    await expect(read(file, 'readings', { units: [{ of: 'side_a_uohm', unit: 'parsec' }] })).rejects.toMatchObject({ message: "'parsec' is no unit that is known.", remedy: 'Write one of: uohm, mohm, ohm.' })
    expect((await read(file, 'readings', { units: [{ of: 'side_a_uohm', unit: 'ft' }] })).problems).toEqual(['side_a_uohm is measured in µΩ, and column R a is set to ft.'])
    expect((await read(file, 'readings', { values: { kind: 'guess' } })).problems[0]).toContain('Write one of: resistance, infrared, visual.')
    expect((await read(file, 'readings', { values: { reading_id: 'x' } })).problems[0]).toContain('names each of the readings apart')
    expect((await read(file, 'readings', { values: { ohms: '1' } })).problems).toEqual(["'ohms' is no field of readings."])
  })
})

describe('what is missing', () => {
  it('is told with the columns that there are, few of many', async () => {
    expect((await read('a,b\n1,2\n', 'splices', {})).problems).toEqual(['No column is mapped to circuit, which every row needs.', "Its columns are 'a' and 'b'."])
    const many = Array.from({ length: 20 }, (_, i) => `c${i}`)
    const [, columns] = mappingProblems({ kind: 'splices', columns: [] }, many)
    expect(columns).toBe("Its columns are 'c0', 'c1', 'c2', 'c3', 'c4', 'c5', 'c6', 'c7', 'c8', 'c9', 'c10', 'c11' and 8 more.")
    expect(mappingProblems({ kind: 'readings', columns: [{ column: 'Rc', field: 'conductor_uohm' }] }, ['R cond'])).toEqual(["The file has no column 'Rc'.", "Its only column is 'R cond'."])
  })
})
