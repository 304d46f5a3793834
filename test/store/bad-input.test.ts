import { beforeAll, describe, expect, it } from 'vitest'
import { importFromStream } from '@/lib/cases/import-from-stream'
import { previewFile } from '@/lib/cases/preview-file'
import { importReadingsArray, type ReadingRow } from '@/lib/cases/import-readings-array'
import { rejectedRowsCsv } from '@/lib/cases/rejected-rows-csv'
import { listIssues } from '@/lib/store/import-issues'
import { listReview, readingsOfImport } from '@/lib/store/readings'
import { useDatabase } from './database'
import { at, buildNetwork, csv, lineFeature, linesFile, reading, report, scope, source } from './utility'

useDatabase()
beforeAll(buildNetwork)

async function rejectedText(importId: number): Promise<string> {
  let text = ''
  for await (const line of (await rejectedRowsCsv(scope, importId))?.lines ?? []) text += line
  return text
}

const errors = async (rows: Record<string, string | number>[], survey: string) => {
  const r = await report('readings', csv(rows), { survey })
  expect(r.read + r.rejected).toBe(r.rows)
  return { r, codes: r.issues.map((i) => [i.row, i.severity, i.field]) }
}

describe('readings that cannot be right', () => {
  it('are refused one by one, by row, field and value, each with a remedy; the others are read', async () => {
    const { r } = await errors([
      reading('good', 450),
      reading('zero', 450, { conductor_uohm: 0 }),
      reading('negative', 450, { side_a_uohm: -4 }),
      reading('future', 450, { taken_at: '2199-01-01T00:00:00Z' }),
      reading('word', 450, { side_b_uohm: 'twelve' }),
      reading('range', 450, { lon: 999 }),
      reading('kind', 450, { kind: 'sonar' }),
    ], 'Wrong')
    expect(r).toMatchObject({ rows: 7, read: 2, placed: 2 })
    const refused = r.issues.filter((i) => i.severity === 'error')
    expect(refused.map((i) => [i.row, i.field])).toEqual(expect.arrayContaining([[3, 'side_a_uohm'], [4, 'taken_at'], [5, 'side_b_uohm'], [6, 'lon'], [7, 'kind']]))
    // A slip of the pen in the conductor's cell is named as any other, and the sides are kept.
    const named = r.issues.filter((i) => i.severity === 'error' || i.row === 2)
    expect(named.find((i) => i.row === 2)).toMatchObject({ severity: 'warning', field: 'conductor_uohm', value: '0', code: 'not-positive' })
    for (const issue of named) expect(issue).toMatchObject({ value: expect.any(String), message: expect.stringMatching(/\.$/), remedy: expect.stringMatching(/\.$/) })
  })

  it('keep (0, 0) and swapped coordinates from being believed', async () => {
    const { lon, lat } = at(450, 5_000)
    const r = await report('readings', csv([reading('origin', 0, { lon: 0, lat: 0 }), reading('swapped', 0, { lon: lat, lat: lon })]), { survey: 'Elsewhere' })
    expect(r.read + r.rejected).toBe(2)
    expect(r.placed).toBe(0)
    expect(r.issues.map((i) => i.row).sort()).toEqual([1, 2])
  })

  it('are placed and not called sound where both electrodes sat on the barrel, or the unit was another', async () => {
    const r = await report('readings', csv([
      reading('barrel', 1050, { side_a_uohm: 2.4, side_b_uohm: 2.3 }), reading('milliohm', 1650, { phase: 'B', side_a_uohm: 0.012, side_b_uohm: 0.011, conductor_uohm: 0.0218 }),
    ]), { survey: 'Doubtful' })
    expect(r.read + r.rejected).toBe(2)
    const readings = (await readingsOfImport(scope, r.import_id)).items
    expect(readings.length + r.rejected).toBe(2)
  })

  it('give back what was refused as a file to correct, without anything a spreadsheet would run', async () => {
    const r = await report('readings', csv([reading('=HYPERLINK("x")', 450, { conductor_uohm: -1 })]), { survey: 'Formula' })
    const text = await rejectedText(r.import_id)
    expect(text.split('\n').filter((l) => l.trim() !== '')).toHaveLength(2)
    expect(text).not.toMatch(/(^|[,\n"])=HYPERLINK/)
    expect(text).toContain('conductor_uohm')
  })
})

describe('rejected rows that come back', () => {
  it('are read as their file was: its order of day and month, its survey, its delimiter', async () => {
    const semicolons = (rows: Record<string, string | number>[]) => csv(rows).replaceAll(',', ';')
    const r = await report('readings', semicolons([
      reading('d1', 450, { taken_at: '14/04/2026 09:00' }), reading('d2', 450, { taken_at: '03/04/2026 09:00', conductor_uohm: 'x' }),
    ]), {}, 'spring.csv')
    expect(r).toMatchObject({ rows: 2, read: 1, rejected: 1 })
    const text = await rejectedText(r.import_id)
    const same = await report('readings', text, {}, 'spring.rejected.csv')
    expect(same.issues.filter((i) => i.severity === 'error').map((i) => [i.code, i.field, i.value])).toEqual(
      r.issues.filter((i) => i.severity === 'error').map((i) => [i.code, i.field, i.value]))
    const corrected = await report('readings', text.replace(',x,0.3048', ',21.8,0.3048'), {}, 'spring.rejected.csv')
    expect(corrected).toMatchObject({ rows: 1, read: 1, rejected: 0 })
    const [d2] = (await readingsOfImport(scope, corrected.import_id)).items
    expect(d2).toMatchObject({ reading_id: 'd2', survey: 'spring', taken_at: '2026-04-03T09:00:00.000Z' })
    expect(await report('readings', text.replace(',x,0.3048', ',21.8,0.3048'), { survey: 'Summer' }, 'spring.rejected.csv')).toMatchObject({ read: 1 })
  })
})

describe('a rejected number with another decimal mark than its column', () => {
  it('is no less doubtful when its row comes back alone, and is read once it is written as the others were', async () => {
    const semicolons = csv([
      reading('p1', 450, { side_a_uohm: '9.6' }), reading('p2', 450, { side_a_uohm: '9.7' }), reading('p3', 450, { side_a_uohm: 'COMMA' }),
    ]).replaceAll(',', ';').replace('COMMA', '9,6')
    const r = await report('readings', semicolons, {}, 'marks.csv')
    expect(r).toMatchObject({ rows: 3, read: 2, rejected: 1 })
    expect(r.issues).toMatchObject([{ code: 'ambiguous-number', field: 'side_a_uohm', value: '9,6' }])
    const text = await rejectedText(r.import_id)
    const again = await report('readings', text, {}, 'marks.rejected.csv')
    expect(again).toMatchObject({ rows: 1, read: 0, rejected: 1 })
    expect(again.issues).toMatchObject([{ code: 'ambiguous-number', field: 'side_a_uohm', value: '9,6' }])
    expect(await report('readings', text.replaceAll('9,6', '9.6'), {}, 'marks.rejected.csv')).toMatchObject({ read: 1, rejected: 0 })
  })
})

describe('what a report says of its file', () => {
  it('names no column of points among lines as unread that names their structures', async () => {
    const point = { type: 'Feature', geometry: { type: 'Point', coordinates: [-113.9, 47.3] }, properties: { structure: 'P9', paint: 'grey' } }
    const r = await report('lines', linesFile([lineFeature('P1', 33_000), point as never]), {}, 'points.geojson')
    expect(r.ignored_columns.map(({ column }) => column)).toEqual(['paint'])
  })

  it('names the columns that were not understood, with samples', async () => {
    const r = await report('readings', csv([
      reading('i1', 450, { weather: 'fair', blank: '' }), reading('i2', 450, { weather: 'rain' }), reading('i3', 450, { weather: 'fair' }),
    ]), { survey: 'Ignored' })
    expect(r.ignored_columns).toEqual([{ column: 'weather', samples: ['fair', 'rain'] }, { column: 'blank', samples: [] }])
  })

  it('says that there are no rows under the header', async () => {
    for (const dryRun of [true, false]) {
      const bare = await importFromStream(scope, source('bare.csv', 'reading_id,side_a_uohm\n'), { kind: 'readings', actor: 'tester', dryRun })
      expect(bare).toMatchObject({ ok: false, error: { fileCode: 'no-rows', message: 'There are no rows under the header.' } })
    }
    const preview = await previewFile(scope, { fileName: 'bare.csv' }, Buffer.from('reading_id,side_a_uohm\n'))
    expect(preview).toMatchObject({ rows: [], refusal: { code: 'no-rows' }, columns: [{ field: 'reading_id' }, { field: 'side_a_uohm' }] })
    const empty = await importFromStream(scope, source('x.geojson', '{"type":"FeatureCollection","features":[]}'), { kind: 'lines', actor: 'tester' })
    expect(empty).toMatchObject({ ok: false, error: { fileCode: 'no-rows', message: 'The file is a collection without features.' } })
  })

  it('gives row and line, also where geometry or the store refused a row', async () => {
    const network = await report('splices', 'splice_id,circuit,structure_back,note\nA,S1,S1,"two\nlines"\nB,NONE,S1,\n')
    const issue = network.issues.find((i) => i.severity === 'error')
    expect(issue).toMatchObject({ row: 2, line: 4, field: 'circuit', message: expect.stringMatching(/^Row 2, line 4, circuit: Circuit NONE/) })
    expect((await listIssues(scope, network.import_id)).items.find((i) => i.severity === 'error')).toMatchObject({ row: 2, line: 4 })
  })

  it('tells how the bytes were read', async () => {
    const r = await report('readings', csv([reading('n1', 450)]).replaceAll(',', ';'), { survey: 'Notes' })
    expect(r.notes).toEqual(['Cells are parted by semicolons.'])
  })
})

describe('files that cannot be read', () => {
  const tenThousandColumns = `${Array.from({ length: 10_000 }, (_, i) => `c${i}`).join(',')}\r\n${'1,'.repeat(9_999)}1`
  it.each([
    ['an empty one', ''], ['one of 10,000 columns', tenThousandColumns], ['a picture', '\u0089PNG\r\n\u001a\n\u0000\u0000'], ['half a GeoJSON', '{"type":"FeatureCollection","features":[{"ty'],
  ])('%s', async (_what, text) => {
    const result = await importFromStream(scope, source('file.bin', text), { kind: 'readings', actor: 'tester' })
    expect(result).toMatchObject({ ok: false, error: { message: expect.stringMatching(/\.$/), remedy: expect.stringMatching(/\.$/) } })
  })
})

describe('readings from another program', () => {
  const row = (id: string, eastM: number, more: ReadingRow = {}): ReadingRow => ({ ...reading(id, eastM), findings: ['none'], after_repair: false, note: null, ...more })

  it('come as a list, with the same report', async () => {
    const result = await importReadingsArray(scope, [row('p1', 2250), row('p2', 2250, { conductor_uohm: 'x' })], { survey: 'Program', actor: 'program' })
    expect(result).toMatchObject({ ok: true, value: { again: false, report: { rows: 2, read: 1, rejected: 1, placed: 1 } } })
    expect(await importReadingsArray(scope, [row('p1', 2250), row('p2', 2250, { conductor_uohm: 'x' })], { survey: 'Program', actor: 'program' }))
      .toMatchObject({ ok: true, value: { again: true, report: { rows: 2 } } })
  })

  it('are at most ten thousand at a time, and at least one', async () => {
    expect(await importReadingsArray(scope, [], { actor: 'program' })).toMatchObject({ ok: false, error: { code: 'empty' } })
    expect(await importReadingsArray(scope, new Array<ReadingRow>(10_001).fill({ reading_id: 'x' }), { actor: 'program' })).toMatchObject({ ok: false, error: { code: 'too-large' } })
  })
})

describe('nothing', () => {
  it('was dropped: what has no place waits for a person', async () => {
    const waiting = await listReview(scope)
    expect(waiting.items.map((i) => i.reading.reading_id)).toContain('origin')
  })
})
