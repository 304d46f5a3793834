import { describe, expect, it } from 'vitest'
import { openQuestions } from '@/components/intake/open-questions'
import type { ImportPreview } from '@/lib/contract/intake'
import type { ImportKind } from '@/lib/intake/index'
import { readFile } from '@/test/fixtures/intake/read-file'

/** The questions that a file asks, by what the intake itself says of it. */
async function asked(csv: string, kind: ImportKind) {
  const { notes, mapping, issues } = await readFile(csv, kind)
  const rows = [{ row: 1, cells: {}, becomes: { text: '', state: 'read' as const }, issues: issues.map((i) => ({ ...i, line: null, field: i.field ?? null, value: i.value ?? null })) }]
  const json = JSON.parse(JSON.stringify(mapping)) as ImportPreview['mapping']
  return openQuestions({ format: 'CSV', notes, kind, columns: [], mapping: json, rows }, json)
}

describe('what a file leaves open', () => {
  it('is asked: the order of a date that reads both ways', async () => {
    expect(await asked('reading_id,taken_at,side_a_uohm,conductor_uohm,kind\nR-1,03/04/2026 09:00,9.6,21.3,resistance\n', 'readings')).toEqual({ dateOrder: true, decimals: false, words: [] })
  })

  it('is not asked where the rows tell', async () => {
    expect(await asked('reading_id,taken_at,side_a_uohm,conductor_uohm,kind\nR-1,2026-04-03T09:00Z,9.6,21.3,resistance\n', 'readings')).toEqual({ dateOrder: false, decimals: false, words: [] })
  })

  it('is asked: the sign of decimals, the kind of a reading and of a fitting, and whose position it is', async () => {
    expect(await asked('reading_id,lon,lat,platform,side_a_uohm,conductor_uohm\nR-1,-112,47,helicopter,"1,234",21\n', 'readings')).toMatchObject({ decimals: true })
    expect((await asked('reading_id,lon,lat,platform,side_a_uohm,conductor_uohm\nR-1,-112,47,helicopter,12,21\n', 'readings')).words).toEqual(['kind', 'position_of'])
    expect((await asked('splice_id,circuit,structure_back\nS-1,C-1,45\n', 'splices')).words).toEqual(['kind'])
  })
})
