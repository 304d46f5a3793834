import { describe, expect, it } from 'vitest'
import { defaultPolicy, ownNumbersClass } from '@/lib/condition'
import { readFile, readingCsv, recordsOf } from '@/test/fixtures/intake/read-file'

const read = (fields: Record<string, string>) => readFile(readingCsv({ side_a_uohm: '12.4', side_b_uohm: '12.1', conductor_uohm: '21.8', ...fields }), 'readings')

describe('a side over the range of the instrument', () => {
  it.each(['OL', 'ol', 'O.L', 'O.L.', 'OVLD', 'OVL', 'over range', '>2000', '> 2', '>2000 µΩ'])('written %s is read, never as sound', async (text) => {
    const file = await read({ side_a_uohm: text })
    const [record] = recordsOf(file)
    expect(record).toMatchObject({ sideAUohm: 50_000, sideBUohm: 12.1, note: `Side A was over range ('${text}').` })
    const issue = file.issues.find(({ code }) => code === 'over-range')
    expect(issue?.remedy).toContain('an engineer clears the class by name')
    expect(issue).toMatchObject({ severity: 'warning', field: 'side_a_uohm', message: expect.stringContaining('the joint may be open') })
    expect(`${issue?.message} ${issue?.remedy}`).not.toContain('leave')
    const own = ownNumbersClass({
      source: 'resistance', readingId: 1, sideAUohm: record?.sideAUohm ?? undefined, sideBUohm: 12.1, conductorUohm: 21.8, electrodeSpanM: 0.3048, sidesDeclared: false,
      afterRepair: false,
    }, undefined, defaultPolicy)
    expect(own.class).toBe('critical')
  })

  it('leaves a conductor over range out, for the table to stand in', async () => {
    const file = await read({ conductor_uohm: 'OL' })
    expect(recordsOf(file)[0]).toMatchObject({ conductorUohm: null, conductorUnusable: 'OL', sideAUohm: 12.4 })
    expect(file.issues.map(({ code, severity }) => [code, severity])).toContainEqual(['over-range', 'warning'])
  })

  it('is refused of a temperature, with whom to call', async () => {
    const file = await read({ side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', kind: 'infrared', splice_temp_c: '>150' })
    expect(file.issues.find(({ field }) => field === 'splice_temp_c')).toMatchObject({ severity: 'error', code: 'over-range', remedy: expect.stringContaining('call the control room now') })
  })
})
