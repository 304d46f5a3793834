import { beforeAll, describe, expect, it } from 'vitest'
import { openMapped } from '@/lib/cases/importing/open-mapped'
import { previewFile } from '@/lib/cases/preview-file'
import { getSettings } from '@/lib/store/settings'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, report, scope, source } from './utility'

useDatabase()
beforeAll(buildNetwork)

const text = (day: string) => `R a,R cond,measured\n12.4,21.8,${day} 09:00\n`
const columns = [{ column: 'R a', field: 'side_a_uohm' }, { column: 'R cond', field: 'conductor_uohm' }, { column: 'measured', field: 'taken_at' }]

describe('what was said of an earlier file with the same columns', () => {
  it('is taken for the next one, and said in the report and in the preview', async () => {
    const mapping = { kind: 'readings' as const, columns, timeZone: 'America/Boise', dateOrder: 'dmy' as const }
    const first = await report('readings', text('03/04/2026'), { mapping }, 'first.csv')
    expect(first.notes.join()).not.toContain('Read as')
    const second = await report('readings', text('05/04/2026'), {}, 'second.csv')
    const words = `Read as import ${first.import_id} was: columns, zone (America/Boise), date order (day first). Check it where this file differs, or forget it (by its button under Intake, or by command --fresh-mapping).`
    expect(second.notes[0]).toContain(words)
    const preview = await previewFile(scope, { fileName: 'third.csv' }, Buffer.from(text('06/04/2026')))
    expect(preview.as_before).toContain('was: columns, zone (America/Boise), date order (day first).')
  })

  it('is left aside where that is asked for', async () => {
    const options = { kind: 'readings' as const, mapping: null, fresh: true, settings: await getSettings(scope), networkBbox: null, nowMs: Date.now() }
    const { mapping, asBefore } = await openMapped(scope, source('fourth.csv', text('07/04/2026')), options, database())
    expect([mapping.timeZone, mapping.dateOrder, asBefore]).toEqual([undefined, undefined, null])
    const preview = await previewFile(scope, { fileName: 'fourth.csv', fresh: true }, Buffer.from(text('07/04/2026')))
    expect(preview.as_before).toBeUndefined()
    expect(preview.columns.map(({ basis }) => basis)).not.toContain('remembered')
  })

  it('is forgotten once a file is imported as it was read anew', async () => {
    const { mapping } = await previewFile(scope, { fileName: 'fifth.csv', fresh: true }, Buffer.from(text('08/04/2026')))
    await report('readings', text('08/04/2026'), { mapping: { ...mapping, timeZone: 'America/Denver' } }, 'fifth.csv')
    const next = await previewFile(scope, { fileName: 'sixth.csv' }, Buffer.from(text('09/04/2026')))
    expect(next.mapping.timeZone).toBe('America/Denver')
    expect(next.as_before).not.toContain('Boise')
  })
})
