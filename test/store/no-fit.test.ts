import { beforeAll, describe, expect, it } from 'vitest'
import { importFromStream } from '@/lib/cases/import-from-stream'
import { importReadingsArray } from '@/lib/cases/import-readings-array'
import { previewFile } from '@/lib/cases/preview-file'
import type { ImportKind } from '@/lib/intake'
import { useDatabase } from './database'
import { buildNetwork, report, scope, source } from './utility'

useDatabase()
beforeAll(buildNetwork)

/** An exchange's closing prices: rows, a date, and nothing of a line. */
const PRICES = 'Date,Contract,Open,Close,Volume\n2026-05-04,CU,4.61,4.66,1200\n2026-05-05,CU,4.66,4.71,980\n'

const refusal = async (kind: ImportKind, text: string) => {
  const result = await importFromStream(scope, source('prices.csv', text), { kind, actor: 'tester' })
  return result.ok ? result.value.report : result.error
}

describe('a file whose columns do not fit', () => {
  it('is refused as a whole, with the fields that have no column and the columns that there are', async () => {
    const refused = {
      code: 'invalid', fileCode: 'mapping', remedy: 'Map a column to one of them, or correct the header line of the file. A file that holds none of them is none of readings.',
      message: 'No column is mapped to any of side_a_uohm, side_b_uohm, splice_temp_c or findings, and every row needs one of them. Its columns are \'Date\', \'Contract\', \'Open\', \'Close\' and \'Volume\'.',
    }
    expect(await refusal('readings', PRICES)).toEqual(refused)
    expect(await refusal('structures', PRICES.replace('Contract', 'Structure'))).toMatchObject({
      fileCode: 'mapping', message: expect.stringContaining('No column is mapped to any of lon with lat or circuit with line_distance_m, and every row needs one of them.'),
    })
    expect(await refusal('splices', PRICES.replace('Contract', 'Circuit'))).toMatchObject({
      fileCode: 'mapping', message: expect.stringContaining('No column is mapped to any of structure_back, structure_ahead, line_distance_m or lon with lat,'),
    })
  })

  it('is refused in the preview too, and for what it was taken is said', async () => {
    const { refusal: refused, columns } = await previewFile(scope, { fileName: 'prices.csv' }, Buffer.from(PRICES))
    expect(refused).toMatchObject({ code: 'mapping', message: expect.stringMatching(/^The file was taken for readings, which its columns fit best\. No column is mapped to any of side_a_uohm/) })
    expect(columns.map(({ column }) => column)).toEqual(['Date', 'Contract', 'Open', 'Close', 'Volume'])
  })

  it('is refused though a column bears the name of the kind, where no row says a kind in it', async () => {
    expect(await refusal('readings', PRICES.replace('Contract', 'Type'))).toMatchObject({ fileCode: 'mapping' })
  })

  it('is read where its rows have what they need otherwise', async () => {
    expect(await report('readings', 'Date,Type,Note\n2026-05-04,visual,rust at the mouth\n')).toMatchObject({ rows: 1, read: 1 })
    const pole = { type: 'Feature', geometry: { type: 'Point', coordinates: [-114, 47] }, properties: { structure: '9001' } }
    expect(await report('structures', JSON.stringify({ type: 'FeatureCollection', features: [pole] }))).toMatchObject({ rows: 1, read: 1 })
  })
})

describe('readings from a program', () => {
  it('are judged each by itself: one that measured nothing is a row that is not read', async () => {
    const sent = await importReadingsArray(scope, [{ reading_id: 'p-1', taken_at: '2026-05-04T09:00:00Z' }], { actor: 'tester' })
    expect(sent).toMatchObject({ ok: true, value: { report: { rows: 1, read: 0, rejected: 1, issues: expect.arrayContaining([expect.objectContaining({ row: 1, code: 'nothing-measured' })]) } } })
  })
})
