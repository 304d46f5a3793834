import { beforeAll, describe, expect, it } from 'vitest'
import { previewFile, PREVIEW_BYTES } from '@/lib/cases/preview-file'
import { importPreview } from '@/lib/contract/intake'
import { listIssues } from '@/lib/store/import-issues'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { at, buildNetwork, csv, linesFile, reading, report, scope } from './utility'

useDatabase()

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([{ splice_id: 'K1', circuit: 'S1', line_distance_m: 450, phase: 'A' }]))
})

const look = async (text: string, more: Partial<Parameters<typeof previewFile>[1]> = {}) => {
  const preview = await previewFile(scope, { fileName: 'campaign.csv', ...more }, Buffer.from(text))
  expect(() => importPreview.parse(preview)).not.toThrow()
  return preview
}

describe('a preview', () => {
  it('guesses kind and columns and says in words what each row would become', async () => {
    const preview = await look(csv([
      reading('a', 450), reading('b', 1650, { phase: 'B' }), reading('c', 0, { lat: 47.9 }), reading('d', 450, { side_b_uohm: -2 }), reading('e', 1050, { side_a_uohm: 90 }),
      reading('a', 450), reading('f', 1050, { side_a_uohm: 90, taken_at: 'x' }),
    ]))
    expect(preview.kind).toBe('readings')
    expect(preview.columns.find((c) => c.column === 'side_a_uohm')).toMatchObject({ field: 'side_a_uohm', basis: 'template', samples: ['12', '90'] })
    const [known, fresh, away, wrong, urgent, again, refused] = preview.rows
    expect(known?.becomes).toMatchObject({ state: 'placed', text: expect.stringMatching(/^On splice K1 of circuit S1, STR S2-S3 \+ 150 m, phase A/) })
    expect(fresh?.becomes).toMatchObject({ state: 'placed', text: expect.stringContaining('a new splice of circuit S1') })
    expect(away?.becomes).toMatchObject({ state: 'review', text: 'No line lies within 30 m of the position.' })
    expect(wrong?.becomes.state).toBe('rejected')
    expect(wrong?.issues[0]).toMatchObject({ field: 'side_b_uohm' })
    expect(urgent?.becomes).toMatchObject({ state: 'placed', own_class: 'critical' })
    expect(refused?.becomes).toMatchObject({ state: 'rejected', own_class: 'critical' })
    expect(again?.becomes.text).toBe('The same as row 1')
  })

  it('cautions a conductor reading that cannot be right, and judges by the lower reference', async () => {
    const fits = reading('fits', 450, { conductor_uohm: 24 })
    const preview = await look(csv([reading('high', 450, { side_a_uohm: 80, conductor_uohm: 80 }), reading('mild', 450, { conductor_uohm: 80 }), fits, reading('away', 0, {
      lat: 47.9, side_a_uohm: 80, conductor_uohm: 80, circuit: 'S1',
    })]))
    const [high, mild, good, away] = preview.rows
    for (const row of [high, mild, away]) {
      expect(row?.issues).toContainEqual(expect.objectContaining({ severity: 'warning', field: 'conductor_uohm', code: 'conductor-doubtful' }))
    }
    expect(high?.issues.at(-1)?.message).toMatch(/^Row 1, line 2, conductor_uohm: Provisional: the conductor reads 80\.0 µΩ, 3\.59 times the 22\.3 µΩ of Drake/)
    expect(high?.becomes).toMatchObject({ state: 'placed', own_class: 'critical', own_provisional: true })
    expect(mild?.becomes.own_class).toBeUndefined()
    expect(good?.issues).toEqual([])
    expect(away?.becomes).toMatchObject({ state: 'review', own_class: 'critical', own_provisional: true })
  })

  it('takes for readings what speaks of ohms, asks for the kind of what may be readings, and calls out numbers that were not understood', async () => {
    const ohms = await look('Ckt,From pole,Ph,P (µΩ),Q (µΩ)\nS1,S2,A,12,12\nS1,S2,A,30,12')
    expect(ohms).toMatchObject({ kind: 'readings', refusal: { code: 'mapping', message: expect.stringContaining("'P (µΩ)' and 'Q (µΩ)' were not understood and speak for readings") } })
    expect(ohms.refusal?.message).not.toContain('control room')
    expect(ohms.rows.map(({ becomes }) => becomes.own_class)).toEqual([undefined, 'urgent'])
    const open = await look('Ckt,From pole,Ph,Ratio\nS1,S2,A,1.2')
    expect(open.refusal).toMatchObject({ code: 'kind-open', message: expect.stringContaining("'Ratio' was not understood") })
    const unheard = await look('Kreis,Wann,Links,Leiter\nIN-1,2024-05-04T09:00:00Z,8,12')
    expect(unheard.refusal).toMatchObject({ code: 'mapping', message: expect.stringMatching(/^No column of the file has a name that is known\./) })
    expect((await look('Ckt,From pole,To pole,Ph,Ratio\nS1,S2,S3,A,1.2', { kind: 'splices' })).refusal).toBeUndefined()
  })

  it('stores nothing', async () => {
    const counts = await database().row<{ n: number }>(sql`SELECT (SELECT count(*) FROM reading) + (SELECT count(*) FROM survey) AS n`)
    expect(counts?.n).toBe(0)
    expect((await database().row<{ n: number }>(sql`SELECT count(*) AS n FROM splice`))?.n).toBe(1)
  })

  it('shows at most 50 rows, and of a file that was cut only whole ones', async () => {
    const many = csv(Array.from({ length: 40_000 }, (_, i) => reading(`m${i}`, 450)))
    expect(many.length).toBeGreaterThan(PREVIEW_BYTES)
    expect((await look(many)).rows).toHaveLength(50)
    const wide = csv(Array.from({ length: 30 }, (_, i) => reading(`w${i}`, 450, { note: 'n'.repeat(50_000) })))
    const cut = await look(wide)
    expect(cut.rows.length).toBeLessThan(30)
    expect(cut.rows.every((row) => row.becomes.state === 'placed')).toBe(true)
    expect(cut.refusal).toBeUndefined()
  })

  it('takes the mapping that it is given', async () => {
    const preview = await look('when,left\r\n2026-06-01T10:00:00Z,12', {
      kind: 'readings', mapping: { kind: 'readings', columns: [{ column: 'when', field: 'taken_at' }, { column: 'left', field: 'side_a_uohm', unit: 'uohm' }] },
    })
    expect(preview.rows[0]?.cells).toEqual({ when: '2026-06-01T10:00:00Z', left: '12' })
    expect(preview.columns.map((c) => c.field)).toEqual(['taken_at', 'side_a_uohm'])
  })

  it('speaks of lines, structures and splices too', async () => {
    expect((await look(linesFile(), { fileName: 'lines.geojson' })).rows[0]?.becomes.text).toMatch(/^Line of circuit L1, 11 points, which is stored already$/)
    const splices = await look(csv([{ splice_id: 'N', circuit: 'S1', line_distance_m: 700, phase: 'C' }, { splice_id: 'M', circuit: 'X9', line_distance_m: 1, phase: 'A' }]), { kind: 'splices' })
    expect(splices.rows.map((row) => row.becomes.state)).toEqual(['read', 'rejected'])
    expect(splices.rows[0]?.becomes.text).toMatch(/STR S3-S4 \+ 10[01] m/)
  })

  it('gives the columns and rows of a file that nothing of is known, and says what is missing', async () => {
    const preview = await look('Zustand,Mast\r\ngut,12\r\n')
    expect(preview.refusal).toMatchObject({ code: 'mapping', message: 'No column of the file has a name that is known. Its columns are \'Zustand\' and \'Mast\'.' })
    expect(preview.refusal?.remedy).toMatch(/^Say which kind of file it is and which column holds what/)
    expect(preview.columns.map(({ column, field, samples }) => [column, field, samples])).toEqual([['Zustand', null, ['gut']], ['Mast', null, ['12']]])
    expect(preview.mapping.columns.map(({ column }) => column)).toEqual(['Zustand', 'Mast'])
    expect(preview.rows.map(({ cells, becomes }) => [cells, becomes.state])).toEqual([[{ Zustand: 'gut', Mast: '12' }, 'rejected']])

    const structures = await look('Zustand,Mast\r\ngut,12\r\n', { kind: 'structures' })
    expect(structures).toMatchObject({ kind: 'structures', refusal: { message: 'No column is mapped to structure, which every row needs. Its columns are \'Zustand\' and \'Mast\'.' } })
    const mast = { column: 'Mast', field: 'structure', basis: 'user' as const }
    const placeless = await look('Zustand,Mast\r\ngut,12\r\n', { kind: 'structures', mapping: { kind: 'structures', columns: [{ column: 'Zustand', field: null }, mast] } })
    expect(placeless.refusal?.message).toContain('No column is mapped to any of lon with lat or circuit with line_distance_m, and every row needs one of them.')
    const mapped = await look('Mast,Ost,Nord\r\n12,-114,47\r\n', {
      kind: 'structures', mapping: { kind: 'structures', columns: [mast, { column: 'Ost', field: 'lon' }, { column: 'Nord', field: 'lat' }] },
    })
    expect(mapped.refusal).toBeUndefined()
  })

  it('says of a CSV of lines that lines are GeoJSON only, and lets another kind be chosen', async () => {
    const text = 'circuit,voltage_kv,from,to,conductor\r\nS1,115,Alder,Birch,Drake\r\n'
    for (const kind of [undefined, 'lines'] as const) {
      const preview = await look(text, { kind })
      expect(preview).toMatchObject({ kind: 'lines', refusal: { code: 'lines-are-geojson', message: expect.stringContaining('GeoJSON only') } })
      expect(preview.columns).toHaveLength(5)
    }
    expect((await look(text, { kind: 'splices' })).refusal?.message).toContain('No column is mapped to any of structure_back, structure_ahead')
  })

  it('gives the span of a row that names structures alone, and no place within it', async () => {
    const declared = { lon: '', lat: '', gnss_accuracy_m: '', circuit: 'S1' }
    const { rows } = await look(csv([
      reading('span', 0, { ...declared, structure_back: 'S2', structure_ahead: 'S3', offset_from_structure_m: '' }), reading('offset', 0, { ...declared, structure_back: 'S2', structure_ahead: 'S3', offset_from_structure_m: 40 }),
      reading('one', 0, { ...declared, structure_back: 'S2', offset_from_structure_m: '' }), reading('circuit', 0, { ...declared, offset_from_structure_m: '' }), reading('placed', 450),
    ]))
    const [span, offset, one, circuit, placed] = rows.map(({ becomes }) => becomes)
    expect(span).toMatchObject({ text: expect.stringMatching(/STR S2-S3, phase A$/), lon: null, lat: null })
    const ends = [at(300, 5_000), at(600, 5_000)]
    for (const named of [span, one]) {
      expect(named?.course).toHaveLength(2)
      named?.course?.forEach(([lon, lat], i) => {
        expect(lon).toBeCloseTo(ends[i]?.lon ?? 0, 6)
        expect(lat).toBeCloseTo(ends[i]?.lat ?? 0, 6)
      })
    }
    expect(offset).toMatchObject({ text: expect.stringContaining('S2-S3 + 40 m'), lon: expect.closeTo(at(340, 5_000).lon, 4) })
    expect(circuit).toMatchObject({ state: 'review', lon: null })
    expect([circuit?.course, placed?.course]).toEqual([undefined, undefined])

    const extents = await look(csv([{ circuit: 'S1', structure_from: 'S3', structure_to: 'S1', surveyed_on: '2026-05-01', method: 'walked' }]), { kind: 'extents' })
    expect(extents.rows[0]?.becomes.course).toHaveLength(3)
  })

  it('says to swap a row where few are swapped, and the columns where most are', async () => {
    const swapped = (id: string) => reading(id, 450, { lon: at(450, 5_000).lat, lat: at(450, 5_000).lon })
    const few = await look(csv([reading('a', 450), reading('b', 1050), swapped('c')]))
    expect(few.rows[2]?.issues[0]).toMatchObject({ code: 'swapped-lon-lat', remedy: 'Swap longitude and latitude in this row.' })
    const most = await look(csv([swapped('d'), swapped('e'), reading('f', 450)]))
    expect(most.rows.slice(0, 2).map((row) => row.issues[0]?.remedy)).toEqual(Array(2).fill(
      'Most rows have it so: swap the columns of longitude and latitude at the import (under Intake, or by command --map lon=COLUMN --map lat=COLUMN), and import the file again.'))
    const imported = await report('readings', csv([swapped('d'), swapped('e'), reading('f', 450)]), { dryRun: true })
    expect(imported.issues.filter((issue) => issue.code === 'swapped-lon-lat').map((issue) => issue.remedy)).toEqual(most.rows.slice(0, 2).map((row) => row.issues[0]?.remedy))
    const stored = await listIssues(scope, imported.import_id)
    expect(stored.items.filter((issue) => issue.code === 'swapped-lon-lat').every((issue) => issue.remedy.includes('swap the columns'))).toBe(true)
  })

  it('refuses by name what is no table', async () => {
    expect(await look('\u0000\u0001\u0002')).toMatchObject({ rows: [], refusal: { code: expect.any(String), remedy: expect.stringMatching(/\.$/) } })
    expect((await look('')).refusal).toMatchObject({ code: 'empty' })
  })

  it('warns of a splice far colder than its air, which is read all the same', async () => {
    const cold = { kind: 'infrared', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', splice_temp_c: -29, ambient_c: 28, conductor_temp_c: 31 }
    const { rows } = await previewFile(scope, { fileName: 'cold.csv', kind: 'readings' }, Buffer.from(csv([reading('cold', 1_650, cold)])))
    expect(rows[0]).toMatchObject({ becomes: { state: expect.not.stringMatching('rejected') }, issues: [{ severity: 'warning', code: 'colder-than-sky' }] })
    expect(rows[0]?.issues[0]?.message).toMatch(/the splice reads 57 °C below the air: colder than even bright metal/)
  })
})
