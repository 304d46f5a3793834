import { describe, expect, it } from 'vitest'
import { FileRefusal, openFile, type RawRow, type RowIssue } from '@/lib/intake/index'
import { csvRecords } from '@/lib/intake/text/csv-records'
import { bytesOf, isIssue, open, readFile, readingCsv, recordsOf, rowsOf } from '@/test/fixtures/intake/read-file'

const refusalOf = async (promise: Promise<unknown>): Promise<FileRefusal> => {
  const error = await promise.then(() => null, (reason: unknown) => reason)
  expect(error).toBeInstanceOf(FileRefusal)
  return error as FileRefusal
}

const cellsOf = async (content: string | Uint8Array, pieceBytes?: number): Promise<Record<string, string>[]> =>
  (await rowsOf(await open(content, 'file.csv', pieceBytes))).map((row) => ({ ...(row as RawRow).cells }))

const utf16 = (text: string, bigEndian: boolean, mark: boolean): Uint8Array => {
  const bytes = Buffer.from((mark ? '\uFEFF' : '') + text, 'utf16le')
  return bigEndian ? bytes.swap16() : bytes
}

describe('encodings', () => {
  const text = 'circuit,Ambient (°F),R side A (µohm)\r\nÅs-1,72,9.6\r\nKF-2,70,9.8\r\n'
  const rows = [
    { circuit: 'Ås-1', 'Ambient (°F)': '72', 'R side A (µohm)': '9.6' },
    { circuit: 'KF-2', 'Ambient (°F)': '70', 'R side A (µohm)': '9.8' },
  ]

  it.each([
    ['UTF-8', new TextEncoder().encode(text), []],
    ['UTF-8 with its mark', new TextEncoder().encode(`\uFEFF${text}`), []],
    ['UTF-16 little endian', utf16(text, false, true), ['Read as UTF-16, little endian.']],
    ['UTF-16 big endian', utf16(text, true, true), ['Read as UTF-16, big endian.']],
    [
      'UTF-16 little endian without its mark', utf16(text, false, false),
      ['Read as UTF-16, little endian, although it has no byte order mark.'],
    ],
    ['UTF-16 big endian without its mark', utf16(text, true, false), ['Read as UTF-16, big endian, although it has no byte order mark.']],
    ['Windows-1252', Uint8Array.from(Buffer.from(text, 'latin1')), [
      'Read as Windows-1252, because the bytes are not valid UTF-8: check names with accents and the signs µ and °.',
    ]],
  ])('%s is understood, in pieces of any size', async (_name, bytes, notes) => {
    for (const piece of [1, 2, 3, 7, 1000]) {
      const table = await open(bytes, 'file.csv', piece)
      expect((await rowsOf(table)).map((row) => ({ ...(row as RawRow).cells }))).toEqual(rows)
      expect(table.notes).toEqual(notes)
    }
  })

  it('turns to Windows-1252 when the first foreign byte comes late', async () => {
    const late = `circuit,note\r\n${'KF-1,plain\r\n'.repeat(20_000)}KF-2,\u00b5\r\n`
    const table = await open(Uint8Array.from(Buffer.from(late, 'latin1')))
    const read = await rowsOf(table)
    expect({ ...(read.at(-1) as RawRow).cells }).toEqual({ circuit: 'KF-2', note: 'µ' })
    expect(table.notes.join()).toContain('Windows-1252')
  })

  it('keeps UTF-8 where only one letter is damaged, and the row says so', async () => {
    const damaged = Buffer.concat([Buffer.from(`${readingCsv({ note: 'Ås Ås Ås' }, { note: 'x' })}`), Buffer.from([0xc3])])
    const file = await readFile(Uint8Array.from(damaged), 'readings')
    expect(file.notes.join()).toContain('damaged characters')
    expect(file.read).toBe(2)
    expect(file.issues.map((issue) => [issue.row, issue.code])).toEqual([[2, 'damaged-text']])
  })
})

describe('files that are no text', () => {
  it.each([
    ['an empty file', new Uint8Array(0), 'empty'], ['blank lines', new TextEncoder().encode('\r\n \r\n'), 'empty'],
    ['a workbook', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 6, 0), 'not-text'], ['a PDF', new TextEncoder().encode('%PDF-1.7 x'), 'not-text'],
    ['a picture', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10), 'not-text'], ['zero bytes', new Uint8Array(64), 'not-text'],
    ['UTF-32', Uint8Array.of(0xff, 0xfe, 0, 0, 65, 0, 0, 0), 'not-text'],
    ['a web page', new TextEncoder().encode('<html></html>'), 'unknown-format'],
  ])('%s is refused by name with a remedy', async (_name, bytes, code) => {
    const refusal = await refusalOf(open(bytes))
    expect(refusal.code).toBe(code)
    expect(refusal.message).toMatch(/\.$/)
    expect(refusal.remedy).toMatch(/\.$/)
  })

  it('names a workbook and says what to do', async () => {
    const refusal = await refusalOf(open(Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0)))
    expect(refusal.message).toBe('The file is a workbook or a zip archive, not a text file.')
    expect(refusal.remedy).toBe('Save the sheet as CSV UTF-8, or unpack the archive, and drop that file.')
  })
})

describe('delimiters', () => {
  it.each([
    ['commas', 'a,b,c\n1,2,3', []], ['semicolons', 'a;b;c\n1;2;3', ['Cells are parted by semicolons.']],
    ['tabs', 'a\tb\tc\n1\t2\t3', ['Cells are parted by tabs.']],
    ['a declaration', 'sep=;\r\na;b;c\r\n1;2;3', []],
  ])('%s are found', async (_name, text, notes) => {
    const table = await open(text)
    expect(table.columns).toEqual(['a', 'b', 'c'])
    expect(table.notes).toEqual(notes)
    expect({ ...((await rowsOf(table))[0] as RawRow).cells }).toEqual({ a: '1', b: '2', c: '3' })
  })

  it('are semicolons where the commas are decimal', async () => {
    const file = await readFile('id;side_a_uohm;conductor_uohm;lat;lon\r\n1;9,6;21,3;47,518;-112,04\r\n', 'readings')
    expect(file.mapping.decimalComma).toBe(true)
    expect(recordsOf(file)[0]).toMatchObject({ sideAUohm: 9.6, conductorUohm: 21.3, lat: 47.518, lon: -112.04 })
  })

  it('may be missing: one column is a file too', async () => {
    expect(await cellsOf('structure\n045\n046\n')).toEqual([{ structure: '045' }, { structure: '046' }])
  })
})

describe('headers', () => {
  it('that repeat are counted, blank ones numbered', async () => {
    const table = await open('R,R,,R\n1,2,3,4\n')
    expect(table.columns).toEqual(['R', 'R (2)', 'column 3', 'R (3)'])
    expect(table.notes).toEqual(['Columns of the same name are counted: R.'])
  })

  it('may be followed by units, which join the names', async () => {
    const file = await readFile('id,Side A,Side B,Conductor,Ambient\n,µΩ,µΩ,mΩ,°F\n1,9.6,10.4,0.0213,68\n', 'readings')
    expect(file.table.columns).toEqual(['id', 'Side A (µΩ)', 'Side B (µΩ)', 'Conductor (mΩ)', 'Ambient (°F)'])
    expect(file.notes).toContain('The line under the header holds units.')
    expect(recordsOf(file)).toHaveLength(1)
    expect(recordsOf(file)[0]).toMatchObject({ sideAUohm: 9.6, ambientC: 20 })
    expect(recordsOf(file)[0]!.conductorUohm).toBeCloseTo(21.3, 9)
  })

  it('are not followed by units where phases or inch marks stand', async () => {
    for (const row of ['A,C', 'a,', ',x', 'm,m', 'mm,x']) expect((await rowsOf(await open(`p,q\n${row}\n1,2\n`))).length, row).toBe(2)
    for (const row of ['µΩ,', 'mm,m', '(ft),mi']) expect((await rowsOf(await open(`p,q\n${row}\n1,2\n`))).length, row).toBe(1)
  })

  it('are wanted: numbers in the first line are refused', async () => {
    expect((await refusalOf(open('1,2,3\n4,5,6\n'))).code).toBe('no-header')
  })

  it('of 10,000 columns are refused by name before a row is read', async () => {
    const refusal = await refusalOf(open(`${Array.from({ length: 10_000 }, (_, at) => `c${at}`).join(',')}\n`))
    expect(refusal.code).toBe('too-many-columns')
    expect(refusal.message).toBe('The file has 10,000 columns, more than the limit of 500.')
  })

  it('that are names of an object\'s own machinery are columns like others', async () => {
    const [row] = await cellsOf('__proto__,constructor,x\n1,2,3\n')
    expect(Object.entries(row!)).toEqual([['__proto__', '1'], ['constructor', '2'], ['x', '3']])
  })
})

describe('rows', () => {
  it('keep their text as it stood, quotes included', async () => {
    const rows = await rowsOf(await open('a,b\r\n"1,""x""\r\ny",2\r\n3 ,4\n'))
    expect(rows.map((row) => row.raw)).toEqual(['"1,""x""\r\ny",2', '3 ,4'])
    expect((rows[0] as RawRow).cells.a).toBe('1,"x"\r\ny')
  })

  it('are numbered without the blank lines between them', async () => {
    const table = await open('a,b\n\n1,2\n\n,,\n3,4\n\n')
    expect((await rowsOf(table)).map((row) => [row.row, row.raw])).toEqual([[1, '1,2'], [2, '3,4']])
    expect(table.notes).toEqual(['3 blank lines were skipped.'])
  })

  it('know the line they begin on, whatever breaks stand in quotes before them', async () => {
    const lines = async (text: string) => (await rowsOf(await open(text))).map((row) => [row.row, row.line])
    expect(await lines('a,b\n1,"x\ny\nz"\n3,4\n\n5,6\n')).toEqual([[1, 2], [2, 5], [3, 7]])
    expect(await lines('a,b\r\n"1\r\n1",2\r\n3,4\r\n')).toEqual([[1, 2], [2, 4]])
    expect(await lines('sep=;\na;b\n1;2\n')).toEqual([[1, 3]])
    expect(await lines('Side A,Side B\n(µΩ),(µΩ)\n9,10\n')).toEqual([[1, 3]])
    expect(await lines('a,b\n1,2\n3,"cut\n5,6\n')).toEqual([[1, 2], [2, 3], [3, 4]])
  })

  it('with too few or too many cells are errors with their text', async () => {
    const rows = await rowsOf(await open('a,b,c\n1,2\n1,2,3\n1,2,3,4\n1,2,3,,\n'))
    expect(rows.map((row) => (isIssue(row) ? row.code : 'read'))).toEqual(['too-few-cells', 'read', 'too-many-cells', 'read'])
    expect(rows[0]).toMatchObject({ row: 1, severity: 'error', raw: '1,2', message: 'Row 1, line 2: it has 2 cells where the header has 3.' })
    expect(rows[2]).toMatchObject({ row: 3, remedy: 'Put quotes around cells that hold a comma, decimal commas included.' })
  })

  it('that end in an open quote are one error, and the rows after it are read', async () => {
    const rows = await rowsOf(await open('a,b\n1,2\n3,"cut\n5,6\n7,8\n'))
    expect(rows.map((row) => (isIssue(row) ? row.code : row.raw))).toEqual(['1,2', 'unterminated-quote', '5,6', '7,8'])
    expect(rows[1]).toMatchObject({
      row: 2, raw: '3,"cut', message: 'Row 2, line 3: a quote is opened and never closed before the file ends.',
      remedy: 'Close the quote, or export the file again; it may have been cut off.',
    })
  })

  it('that a quote runs through are one error that says from where to where, with the lines as rows', async () => {
    const line = (n: number, note: string) => `${n},A,12,${note}`
    // Cells too few, too many, and just as many as there should be.
    for (const [first, last] of [['"x', 'y"'], ['"x', 'y",z'], ['"x', '"y"']] as const) {
      const text = ['id,phase,side_a_uohm,notes', line(1, first), line(2, 'b'), line(3, last), line(4, 'd')].join('\n')
      const rows = await rowsOf(await open(text))
      expect(rows.map((row) => (isIssue(row) ? row.code : row.raw))).toEqual(['quote-over-lines', '4,A,12,d'])
      const [refused] = rows as RowIssue[]
      expect(refused).toMatchObject({
        row: 1, message: 'Row 1, line 2: a quote opened in line 2 closes in line 4: 3 lines became one row.',
        remedy: 'Close or remove the quote in line 2 of the file, and import the whole file again; what is stored already counts once.',
      })
      expect(refused!.lines!.map(({ cells: { id, side_a_uohm: a }, line: at }) => [id, a, at]).slice(0, 2)).toEqual([['1', '12', 2], ['2', '12', 3]])
    }
  })

  it('with a cell of several lines are read as they stand', async () => {
    for (const text of ['1,A,12,"x\ny, z\nw"', '"1\n2",A,12,x', '1,"A\nB",12,"x\ny"', '"1\n2","A,B",12,"x\ny"']) {
      expect((await rowsOf(await open(`id,phase,side_a_uohm,notes\n${text}\n`))).map(isIssue)).toEqual([false])
    }
  })

  it('that were cut off in the middle are errors', async () => {
    const csv = readingCsv({}, {}, {})
    const file = await readFile(csv.slice(0, -15), 'readings')
    expect(file).toMatchObject({ read: 2, rejected: 1 })
    expect(file.issues[0]).toMatchObject({ row: 3, code: 'too-few-cells' })
  })

  it('with a zero character are errors, because no store holds one', async () => {
    const rows = await rowsOf(await open(`a,b\n${'1,2\n'.repeat(20_000)}1\0,2\n`))
    expect(rows).toHaveLength(20_001)
    expect(rows.at(-1)).toMatchObject({ code: 'zero-character', raw: '1\u2400,2' })
  })

  it('come one by one from Macintosh line breaks', async () => {
    expect(await cellsOf('a,b\r1,2\r3,4\r')).toEqual([{ a: '1', b: '2' }, { a: '3', b: '4' }])
  })

  it('are the same in pieces of any size', async () => {
    const csv = '\uFEFFa,b,c\r\n"x\r\ny",2,"q""q"\r\n,,\r\nä,5,6\r\n"7" ,"8","9"\r\n'
    const whole = await cellsOf(csv, 1e6)
    expect(whole).toEqual([{ a: 'x\r\ny', b: '2', c: 'q"q' }, { a: 'ä', b: '5', c: '6' }, { a: '7', b: '8', c: '9' }])
    for (let piece = 1; piece < 40; piece++) expect(await cellsOf(csv, piece), `pieces of ${piece}`).toEqual(whole)
  })

  it('with a quote that nothing closes stay cheap, however many there are', async () => {
    const notes: string[] = []
    let count = 0
    for await (const batch of csvRecords((async function* () { yield '"a b\n'.repeat(20_000) })(), ',', notes)) count += batch.length
    expect(count).toBe(20_000)
    expect(notes.join()).toContain('quotes are read as plain characters')
  })
})

describe('a header without rows', () => {
  it('is a file of no rows', async () => {
    const table = await open('a,b,c\r\n')
    expect(await rowsOf(table)).toEqual([])
    expect(table.columns).toEqual(['a', 'b', 'c'])
  })
})

describe('size', () => {
  it('of 11 MB is read to the last row', async () => {
    const header = 'reading_id,kind,side_a_uohm,conductor_uohm,note\n'
    const rows = Array.from({ length: 112_000 }, (_, at) => `R-${at},resistance,9.6,21.3,${'x'.repeat(70)}\n`).join('')
    const table = await open(header + rows)
    let count = 0
    for await (const row of table.rows) if (!isIssue(row)) count++
    expect(header.length + rows.length).toBeGreaterThan(11e6)
    expect(count).toBe(112_000)
  })
})

describe('a stream', () => {
  const watched = (content: string): { bytes: AsyncIterable<Uint8Array>; closed: () => boolean } => {
    let closed = false
    async function* bytes(): AsyncGenerator<Uint8Array> {
      try {
        yield* bytesOf(content)
      } finally {
        closed = true
      }
    }
    return { bytes: bytes(), closed: () => closed }
  }
  const csv = `a,b\n${'1,2\n'.repeat(200_000)}`
  const json = `{"type":"FeatureCollection","features":[${'{"type":"Feature","properties":{"a":1},"geometry":null},'.repeat(200_000)}null]}`

  it.each([['CSV', csv], ['GeoJSON', json]])('of %s is closed when the rows are left early', async (_name, content) => {
    const { bytes, closed } = watched(content)
    const table = await openFile(bytes, 'x')
    expect(closed()).toBe(false)
    for await (const row of table.rows) if (row.row === 50) break
    expect(closed()).toBe(true)
  })

  it('is closed when the file is refused', async () => {
    const { bytes, closed } = watched(`1,2\n${'1,2\n'.repeat(200_000)}`)
    expect((await refusalOf(openFile(bytes, 'x'))).code).toBe('no-header')
    expect(closed()).toBe(true)
  })
})

describe('a stream that breaks', () => {
  it('breaks the reading with its own error', async () => {
    async function* broken(): AsyncGenerator<Uint8Array> {
      yield* bytesOf('a,b\n1,2\n'.repeat(20_000))
      throw new Error('connection lost')
    }
    await expect(openFile(broken(), 'x.csv').then(rowsOf)).rejects.toThrow('connection lost')
  })
})
