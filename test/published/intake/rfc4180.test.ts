import { describe, expect, it } from 'vitest'
import { isIssue, open, rowsOf } from '@/test/fixtures/intake/read-file'

/**
 * RFC 4180 (Y. Shafranovich, October 2005), section 2, rules 1 to 7, with the RFC's own examples.
 * Re-keyed from the text of the RFC. Status: verified.
 */
const cells = async (content: string): Promise<string[][]> =>
  (await rowsOf(await open(content))).map((row) => {
    if (isIssue(row)) throw new Error(row.message)
    return [...row.values!]
  })

const HEADER = 'field_name,field_name,field_name\r\n'

describe('RFC 4180 section 2', () => {
  it('rule 1: each record on a line of its own, ended by CRLF', async () => {
    expect(await cells(`${HEADER}aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n`)).toEqual([['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']])
  })

  it('rule 2: the last record may lack its line break', async () => {
    expect(await cells(`${HEADER}aaa,bbb,ccc\r\nzzz,yyy,xxx`)).toEqual([['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']])
  })

  it('rule 3: a header line names as many fields as the records have', async () => {
    const table = await open(`${HEADER}aaa,bbb,ccc\r\n`)
    expect(table.columns).toEqual(['field_name', 'field_name (2)', 'field_name (3)'])
  })

  it('rule 4: spaces are part of a field, every line has the same number of fields, the last is followed by no comma', async () => {
    expect(await cells('a,b,c\r\naaa, bbb ,ccc\r\n')).toEqual([['aaa', ' bbb ', 'ccc']])
    const rows = await rowsOf(await open('a,b,c\r\naaa,bbb,ccc,\r\nx,y\r\n'))
    expect(rows.map(isIssue)).toEqual([false, true])
  })

  it('rule 5: a field may be quoted or not', async () => {
    expect(await cells(`${HEADER}"aaa","bbb","ccc"\r\nzzz,yyy,xxx`)).toEqual([['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']])
    expect(await cells('a,b\r\n5" bolt,x\r\n')).toEqual([['5" bolt', 'x']])
  })

  it('rule 6: line breaks, double quotes and commas stand in quoted fields', async () => {
    expect(await cells(`${HEADER}"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx`)).toEqual([['aaa', 'b\r\nbb', 'ccc'], ['zzz', 'yyy', 'xxx']])
    expect(await cells('a,b\r\n"x,y",1\r\n')).toEqual([['x,y', '1']])
  })

  it('rule 7: a double quote inside a field is doubled', async () => {
    expect(await cells(`${HEADER}"aaa","b""bb","ccc"`)).toEqual([['aaa', 'b"bb', 'ccc']])
    expect(await cells('a,b\r\n"""",""\r\nx,y\r\n')).toEqual([['"', ''], ['x', 'y']])
  })
})
