import { describe, expect, it } from 'vitest'
import { rejectedCsv, type RowIssue } from '@/lib/intake/index'
import { guardCell } from '@/lib/intake/report/guard-cell'
import { open, readFile, readingCsv, recordsOf, rowsOf } from '@/test/fixtures/intake/read-file'

const textOf = async (columns: string[], issues: RowIssue[], delimiter?: string): Promise<string> => {
  let text = ''
  for await (const line of rejectedCsv(columns, issues, delimiter)) text += line
  return text
}

const rejectedOf = (file: Awaited<ReturnType<typeof readFile<'readings'>>>): RowIssue[] =>
  file.outcomes.flatMap((outcome) => (outcome.state === 'rejected' ? outcome.issues.map((issue) => ({ ...issue, raw: outcome.raw })) : []))

describe('the CSV of rejected rows', () => {
  it('holds each row once, as it stood, with everything that was wrong', async () => {
    const file = await readFile(readingCsv({}, { side_a_uohm: '0', conductor_uohm: 'x', note: 'a, "b"' }, {}), 'readings')
    const text = await textOf(file.table.columns, rejectedOf(file))
    expect(text.split('\r\n')).toEqual([
      '\uFEFFreading_id,taken_at,lon,lat,kind,side_a_uohm,side_b_uohm,conductor_uohm,note,row,field,value,code,message,remedy',
      'R-2,2026-05-04T09:26:00-06:00,-112.041733,47.518204,resistance,0,10.4,x,"a, ""b""",2,side_a_uohm | conductor_uohm,0 | x,'
        + 'not-positive | not-a-number,"Row 2, side_a_uohm: \'0\' is not above zero, so it was not measured. | '
        + 'Row 2, conductor_uohm: \'x\' is no number.","Measure again, or leave the cell empty where nothing was measured. | '
        + 'Write a number, or leave the cell empty; words belong into note."',
      '',
    ])
  })

  it('can be corrected and dropped again', async () => {
    const file = await readFile(readingCsv({ side_a_uohm: '0' }), 'readings')
    const text = await textOf(file.table.columns, rejectedOf(file))
    const again = await readFile(text.replace(',0,10.4', ',9.6,10.4'), 'readings')
    expect(again).toMatchObject({ read: 1, rejected: 0 })
    expect(recordsOf(again)[0]).toMatchObject({ readingKey: 'R-1', sideAUohm: 9.6 })
  })

  it('runs nothing in a spreadsheet', async () => {
    const file = await readFile(readingCsv({ reading_id: '=HYPERLINK("http://x")', note: '+1+cmd', lon: '-112.5' }), 'readings')
    const text = await textOf(file.table.columns, rejectedOf(file))
    expect(text).toContain('"\'=HYPERLINK(""http://x"")"')
    expect(text).toContain('\'+1+cmd')
    expect(text).toContain(',-112.5,')
    expect(text).not.toMatch(/(^|,)"?[=+@]/m)
  })

  it('reads features back, and rows by their own delimiter', async () => {
    const issue = (raw: string): RowIssue => (
      { severity: 'error', row: 3, field: 'a', value: 'x', code: 'c', message: 'm', remedy: 'r', raw }
    )
    expect(
      await textOf(['a', 'b'], [issue('{"type":"Feature","properties":{"b":2,"a":"1;x"},"geometry":null}')])
    ).toContain('\r\n"1;x",2,3,a,x,c,m,r\r\n')
    expect(await textOf(['a', 'b'], [issue('1,5;2')], ';')).toContain('\r\n"1,5",2,3,')
    expect(await textOf(['a', 'b'], [issue('1\t2')])).toContain('\r\n1,2,3,')
    expect(await textOf(['a', 'b'], [issue('1,2,3')])).toContain('\r\n"1,2,3",,3,')
  })

  it('leaves warnings out, for their rows were read', async () => {
    const warning: RowIssue = { severity: 'warning', row: 1, code: 'c', message: 'm', remedy: 'r' }
    expect(await textOf(['a'], [warning])).toBe('\uFEFFa,row,field,value,code,message,remedy\r\n')
  })

  it('is a file that this room reads', async () => {
    const file = await readFile(readingCsv({ side_a_uohm: '0' }, { side_a_uohm: '=1', note: 'two\r\nlines' }), 'readings')
    const again = await open(await textOf(file.table.columns, rejectedOf(file)))
    expect(await rowsOf(again)).toHaveLength(2)
  })
})

describe('guarding cells', () => {
  it.each([
    ['=1', '\'=1'], ['@x', '\'@x'], ['+x', '\'+x'], ['-x', '\'-x'], ['\tx', '\'\tx'], ['-12.5', '-12.5'], ['+3', '+3'], ['-12,5', '-12,5'],
    ['12/3', '12/3'], ['', ''],
  ])(
    '%j is written %j', (text, guarded) => {
      expect(guardCell(text)).toBe(guarded)
    },
  )
})
