import { beforeAll, describe, expect, it } from 'vitest'
import { openMapped } from '@/lib/cases/importing/open-mapped'
import { previewFile } from '@/lib/cases/preview-file'
import { undoImport } from '@/lib/cases/undo-import'
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

describe('the order of dates', () => {
  const other = (...days: string[]) => `R a,R cond,measured,by\n${days.map((day, n) => `12.4,21.${n},${day} 09:00,me\n`).join('')}`
  const asShown = async (fileName: string, content: string) => (await previewFile(scope, { fileName, kind: 'readings' }, Buffer.from(content))).mapping
  const checks = 'Nothing in the file tells whether days or months come first'

  it('is not drawn from a day that there is not, nor remembered', async () => {
    const mapping = await asShown('rejected.csv', other('31/04/2026', '02/04/2026'))
    expect(mapping.dateOrder).toBeUndefined()
    await report('readings', other('31/04/2026', '02/04/2026'), { mapping: { ...mapping, columns: [...columns, { column: 'by', field: 'crew' }] } }, 'rejected.csv')
    const next = await previewFile(scope, { fileName: 'later.csv' }, Buffer.from(other('03/04/2026')))
    expect(next.mapping.dateOrder).toBeUndefined()
    expect(next.notes.join()).toContain(checks)
  })

  it('that the dates of one file prove is not that of the next one', async () => {
    const content = other('13/04/2026', '03/04/2026')
    const mapping = await asShown('proves.csv', content)
    expect(mapping.dateOrder).toBe('dmy')
    const proving = await report('readings', content, { mapping }, 'proves.csv')
    expect(proving.issues.map(({ message }) => message).join()).not.toContain(checks)
    const next = await previewFile(scope, { fileName: 'later.csv' }, Buffer.from(other('05/04/2026')))
    expect(next.mapping.dateOrder).toBeUndefined()
    expect(next.as_before).toContain(`Read as import ${proving.import_id} was: columns, decimal point. `)
    expect(next.notes.join()).toContain(checks)
  })

  it('that a person said is', async () => {
    const content = other('06/04/2026')
    const said = await report('readings', content, { mapping: { ...await asShown('said.csv', content), dateOrder: 'dmy' } }, 'said.csv')
    const next = await previewFile(scope, { fileName: 'later.csv' }, Buffer.from(other('07/04/2026')))
    expect(next.mapping.dateOrder).toBe('dmy')
    expect(next.as_before).toContain(`Read as import ${said.import_id} was: columns, date order (day first), decimal point. `)
    // As the page sends it back with a change of its own.
    const again = await previewFile(scope, { fileName: 'later.csv', mapping: { ...next.mapping, timeZone: 'America/Denver' } }, Buffer.from(other('07/04/2026')))
    expect(again.as_before).toBe(next.as_before)
  })

  it('and all else that was said at an import counts no more once that is undone, and what was said before it does again', async () => {
    const before = await asShown('before.csv', other('08/04/2026'))
    const content = other('09/04/2026')
    const wrong = await report('readings', content, { mapping: { ...before, dateOrder: 'mdy', timeZone: 'Asia/Tokyo' } }, 'wrong.csv')
    expect(await asShown('later.csv', other('10/04/2026'))).toMatchObject({ dateOrder: 'mdy', timeZone: 'Asia/Tokyo' })
    expect((await undoImport(scope, wrong.import_id, 'tester')).ok).toBe(true)
    const later = await asShown('later.csv', other('10/04/2026'))
    expect([later.dateOrder, later.timeZone]).toEqual(['dmy', undefined])
  })
})
