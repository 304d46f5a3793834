import { describe, expect, it } from 'vitest'
import { rejectedCsv, type RowIssue } from '@/lib/intake/index'
import { guardCell } from '@/lib/intake/report/guard-cell'
import { open, readFile, readingCsv, recordsOf, rejectedOf, rowsOf } from '@/test/fixtures/intake/read-file'

const textOf = async (columns: string[], issues: RowIssue[], delimiter?: string): Promise<string> => {
  let text = ''
  for await (const line of rejectedCsv(columns, issues, { importId: 7, delimiter })) text += line
  return text
}

describe('the CSV of rejected rows', () => {
  it('holds each row once, as it stood, with everything that was wrong', async () => {
    const file = await readFile(readingCsv({}, { side_a_uohm: '0', conductor_uohm: 'x', note: 'a, "b"' }, {}), 'readings')
    const text = await textOf(file.table.columns, rejectedOf(file))
    expect(text.split('\r\n')).toEqual([
      '\uFEFFimport,row,line,field,value,code,message,remedy,reading_id,taken_at,lon,lat,kind,side_a_uohm,side_b_uohm,conductor_uohm,note',
      '7,2,3,side_a_uohm | conductor_uohm,0 | x,'
        + 'not-positive | not-a-number,"Row 2, line 3, side_a_uohm: \'0\' is not above zero, so it was not measured. | '
        + 'Row 2, line 3, conductor_uohm: \'x\' is no number.","Measure again, or leave the cell empty where nothing was measured. | '
        + 'Write a number, or leave the cell empty; words belong in note.",'
        + 'R-2,2026-05-04T09:26:00-06:00,-112.041733,47.518204,resistance,0,10.4,x,"a, ""b"""',
      '',
    ])
  })

  it('can be corrected and dropped again', async () => {
    const file = await readFile(readingCsv({ side_a_uohm: '0' }), 'readings')
    const text = await textOf(file.table.columns, rejectedOf(file))
    const again = await readFile(text.replace(',0,10.4', ',9.6,10.4'), 'readings')
    expect(again).toMatchObject({ read: 1, rejected: 0, table: { columns: file.table.columns, rejectedFrom: 7 } })
    expect(recordsOf(again)[0]).toMatchObject({
      readingKey: 'R-1', sideAUohm: 9.6, rawRow: 'R-1,2026-05-04T09:26:00-06:00,-112.041733,47.518204,resistance,9.6,10.4,21.3',
    })
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
    ).toContain(',a,b,geometry (GeoJSON)\r\n7,3,,a,x,c,m,r,"1;x",2,\r\n')
    expect(await textOf(['a', 'b'], [issue('1,5;2')], ';')).toContain(',r,"1,5",2\r\n')
    expect(await textOf(['a', 'b'], [issue('1\t2')])).toContain(',r,1,2\r\n')
    expect(await textOf(['a', 'b'], [issue('{"b":2,"a":[1,"x"]}')])).toContain('remedy,a,b\r\n7,3,,a,x,c,m,r,"1;x",2\r\n')
  })

  it('keeps cells too few and too many as they were, so that they can be moved to where they belong', async () => {
    const file = await readFile('reading_id,kind,side_a_uohm\nR-1,resistance\nR-2,resistance,9,6\n', 'readings')
    const text = await textOf(file.table.columns, rejectedOf(file))
    expect(text).toMatch(/,R-1,resistance\r\n/)
    expect(text).toMatch(/,R-2,resistance,9,6\r\n/)
    const corrected = await readFile(text.replace('R-1,resistance', 'R-1,resistance,9.5').replace('resistance,9,6', 'resistance,9.6'), 'readings')
    expect(recordsOf(corrected).map((record) => [record.readingKey, record.sideAUohm])).toEqual([['R-1', 9.5], ['R-2', 9.6]])
  })

  it('gives a row with an open quote back whole, and takes it when the quote is closed', async () => {
    const file = await readFile('reading_id,kind,side_a_uohm\nR-1,resistance,9.6\nR-2,"resistance,9.6\n', 'readings')
    const text = await textOf(file.table.columns, rejectedOf(file))
    expect(text).toContain(',"R-2,""resistance,9.6"\r\n')
    const closed = await readFile(text.replace('""resistance,', '""resistance"",'), 'readings')
    expect(recordsOf(closed).map((record) => record.readingKey)).toEqual(['R-2'])
    expect((await readFile(text, 'readings')).issues).toMatchObject([{ code: 'unterminated-quote', raw: 'R-2,"resistance,9.6' }])
  })

  it('hands a feature back with its place, and takes it with both when corrected, in any number of rounds', async () => {
    const feature = (properties: object) => ({ type: 'Feature', properties, geometry: { type: 'Point', coordinates: [-112.04, 47.51] } })
    const file = await readFile(JSON.stringify({
      type: 'FeatureCollection', features: [feature({ reading_id: '045', kind: 'resistance', side_a_uohm: 0 })],
    }), 'readings', { fileName: 'x.geojson' })
    const first = await textOf(file.table.columns, rejectedOf(file))
    const again = await readFile(first, 'readings')
    expect(again.issues.map((issue) => [issue.code, issue.field, issue.value])).toEqual([['not-positive', 'side_a_uohm', '0']])
    expect(again.table.columns).toEqual(['reading_id', 'kind', 'side_a_uohm'])
    const second = await textOf(again.table.columns, rejectedOf(again))
    expect(second.split('remedy')[1]!.split(',045')[1]).toEqual(first.split('remedy')[1]!.split(',045')[1])
    const corrected = await readFile(second.replace('resistance,0,', 'resistance,9.6,'), 'readings')
    expect(recordsOf(corrected)).toMatchObject([{ readingKey: '045', lon: -112.04, lat: 47.51, sideAUohm: 9.6 }])
  })

  it('hands a feature that cannot be read back whole, says again what is wrong with it, and takes it once it is mended', async () => {
    const sound = '{"type":"Feature","properties":{"reading_id":"1","kind":"resistance","side_a_uohm":9.6},"geometry":null}'
    const broken = '{"type":"Feature","properties":{"reading_id":"2","kind":"resistance","side_a_uohm":NaN},"geometry":{"type":"Point","coordinates":[-112.04,47.51]}}'
    const untyped = '{"type":"feature","properties":{"reading_id":"3","kind":"resistance","side_a_uohm":9.6},"geometry":null}'
    const file = await readFile(`{"type":"FeatureCollection","features":[${sound},${broken},${untyped}]}`, 'readings', { fileName: 'x.geojson' })
    expect(file.issues.map((issue) => [issue.row, issue.code])).toEqual([[2, 'bad-json'], [3, 'not-a-feature']])
    const text = await textOf(file.table.columns, rejectedOf(file))
    const again = await readFile(text, 'readings')
    expect(again.issues.map((issue) => [issue.row, issue.code])).toEqual([[1, 'bad-json'], [2, 'not-a-feature']])
    expect(again.issues[0]?.message).toMatch(/the feature in the first of its own cells is wrong: it is not valid JSON/)
    expect(again.issues[1]).toMatchObject({ message: expect.stringContaining('its type is \'feature\', neither Feature nor geometry.'), remedy: 'Set "type": "Feature" (RFC 7946 section 3.2).' })
    expect(again.issues.map((issue) => issue.raw)).toEqual([broken, untyped])
    expect(await textOf(again.table.columns, rejectedOf(again))).toContain(broken.replaceAll('"', '""'))
    const mended = await readFile(text.replace('side_a_uohm"":NaN', 'side_a_uohm"":9.7').replace('""feature""', '""Feature""'), 'readings')
    expect(mended.issues).toEqual([])
    expect(recordsOf(mended)).toMatchObject([{ readingKey: '2', sideAUohm: 9.7, lon: -112.04, lat: 47.51 }, { readingKey: '3', sideAUohm: 9.6 }])
  })

  it('leaves warnings out, for their rows were read', async () => {
    const warning: RowIssue = { severity: 'warning', row: 1, code: 'c', message: 'm', remedy: 'r' }
    expect(await textOf(['a'], [warning])).toBe('\uFEFFimport,row,line,field,value,code,message,remedy,a\r\n')
  })

  it('is a file that this room reads', async () => {
    const file = await readFile(readingCsv({ side_a_uohm: '0' }, { side_a_uohm: '=1', note: 'two\r\nlines' }), 'readings')
    const again = await open(await textOf(file.table.columns, rejectedOf(file)))
    expect(await rowsOf(again)).toHaveLength(2)
  })
})

describe('a rejected row that cannot wait', () => {
  it('names its cell and value alone, and that it is urgent among the codes', async () => {
    const issues: RowIssue[] = [
      { severity: 'error', row: 3, line: 4, field: 'side_a_uohm', value: '-4', code: 'not-positive', message: 'm', remedy: 'r', raw: '7300,-4' },
      { severity: 'error', row: 3, line: 4, value: 'critical', code: 'rejected-but-urgent', message: 'u', remedy: 'c' },
    ]
    const lines: string[] = []
    for await (const line of rejectedCsv(['circuit', 'side_a_uohm'], issues, { importId: 7 })) lines.push(line)
    expect(lines[1]).toBe('7,3,4,side_a_uohm,-4,not-positive | rejected-but-urgent,m | u,r | c,7300,-4\r\n')
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
