import type { Geometry } from 'geojson'

export const IMPORT_KINDS = ['lines', 'structures', 'splices', 'readings', 'phasing', 'crossings', 'extents', 'loads'] as const
export type ImportKind = (typeof IMPORT_KINDS)[number]

/** One record of a file before anybody has interpreted it. */
export interface RawRow {
  /** 1 = first data row or first feature. */
  row: number
  /** Line of the file on which the row begins, from 1; absent where the format has no lines. */
  line?: number
  cells: Record<string, string>
  geometry?: Geometry
  /** The record as it stood in the file. */
  raw: string
  /** The cells in the order of the table's columns, where the format has them so: saves a look-up per cell. */
  values?: readonly string[]
  /** In a CSV of rejected rows that we wrote: the import and row that it was. */
  origin?: { importId: number; row: number }
}

/** Rows one after the other. */
export interface RowIterator extends AsyncIterator<RawRow | RowIssue> {
  /** A row that nobody has to wait for; undefined: ask `next`. Waiting for each of many rows costs more than reading it. */
  atHand?(): RawRow | RowIssue | undefined
}

/** What a format found: columns first, then rows; a row that cannot be read is an issue, never a throw. */
export interface Table {
  columns: string[]
  rows: { [Symbol.asyncIterator](): RowIterator }
  /** How the bytes were understood: encoding, delimiter, decimal mark. */
  notes: string[]
  /** What parts the cells of a record, where the format has such a thing: to read raw records again. */
  delimiter?: string
  /** The import whose rejected rows these are, where the file is a CSV of rejected rows that we wrote. */
  rejectedFrom?: number
}

/** A format is an object that others can join: add one file and list it in formats/index.ts. */
export interface Format {
  id: string
  label: string
  extensions: string[]
  mediaTypes: string[]
  /** True when these first bytes (up to 64 KiB) look like it. */
  sniff(head: Uint8Array, fileName: string): boolean
  /** Loads its parser only when used. Throws FileRefusal where nothing of the file can be read. */
  open(bytes: AsyncIterable<Uint8Array>): Promise<Table>
}

/** error: the row is rejected; warning: the row is read, and somebody should look. */
export interface RowIssue {
  severity: 'error' | 'warning'
  /** 0 = the whole file. */
  row: number
  /** Line of the file on which the row begins, from 1. */
  line?: number
  field?: string
  value?: string
  code: string
  /** What is wrong, in a sentence with the value. */
  message: string
  /** What to do about it, in a sentence. */
  remedy: string
  raw?: string
  /** Of a record that is no row: its lines as the rows they may have been meant for, to be searched for numbers that cannot wait. */
  lines?: RawRow[]
}

/** The whole file is refused, by name: too-large, empty, not-text, truncated, too-many-columns, unknown-format… */
export class FileRefusal extends Error {
  constructor(readonly code: string, message: string, readonly remedy: string) {
    super(message)
    this.name = 'FileRefusal'
  }
}

/** month first or day first. */
export type DateOrder = 'mdy' | 'dmy'

/** Column → field, with the unit its header or cells speak in. Fields are the snake_case names of the templates. */
export interface ColumnMapping {
  column: string
  field: string | null
  /** Unit key of lib/units, where the field has one. */
  unit?: string
  /** Why this was guessed: 'template', 'synonym', 'remembered', 'none'. */
  basis?: 'template' | 'synonym' | 'remembered' | 'user' | 'none'
  /** How its first cells write decimals, where the file as a whole does not tell. Rows that are sent again alone are read by it. */
  decimalComma?: boolean
}

export interface Mapping {
  kind: ImportKind
  columns: ColumnMapping[]
  /** IANA zone for times without an offset; absent: the utility's zone from settings. */
  timeZone?: string
  decimalComma?: boolean
  /** How 03/04/2026 reads; absent: nothing in the file told. */
  dateOrder?: DateOrder
  /** Survey for rows that name none. */
  survey?: string
  /** Field → what is read as its cell in rows that say nothing of it, as a person said of the whole file. */
  values?: Readonly<Record<string, string>>
}
