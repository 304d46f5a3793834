/** A value as COPY's binary format takes it; which it must be, the column's type says. */
export type CopyValue = string | number | boolean | Date | null | undefined | readonly (string | number)[] | { json: unknown }

/** Types of this store's columns, as PostgreSQL names them. */
export const COPY_TYPES = ['int4', 'float8', 'text', 'bool', 'timestamptz', 'date', 'json', 'jsonb', 'text[]', 'float8[]'] as const
export type CopyType = (typeof COPY_TYPES)[number]

const EPOCH_2000_MS = Date.UTC(2000, 0, 1)
const DAY_MS = 86_400_000
const OID = { text: 25, float8: 701 } as const
const SHORT = 64
const JSONB_VERSION = 1
/** The longest value of a fixed length, with its own length before it. */
const FIXED = 12

/**
 * Rows in the binary format of COPY: numbers go as the bytes they are, so that neither side spells them out and reads them again.
 * One buffer, used over and over.
 */
export class BinaryRows {
  private bytes: Buffer
  private view: DataView
  length = 0
  /** Rows since the last clearing. */
  count = 0
  private at = 0

  /** `bytes`: room to begin with; it grows. */
  constructor(private readonly types: readonly CopyType[], bytes = 1 << 16) {
    this.bytes = Buffer.allocUnsafeSlow(bytes)
    this.view = viewOf(this.bytes)
  }

  add(values: readonly CopyValue[]): void {
    this.begin()
    for (let i = 0; i < this.types.length; i++) this.put(values[i])
  }

  /** Begins a row; its values are to be put in the order of the columns. */
  begin(): void {
    this.room(2)
    this.view.setInt16(this.length, this.types.length)
    this.length += 2
    this.at = 0
    this.count++
  }

  put(value: CopyValue): void {
    const type = this.types[this.at++]!
    if (value === null || value === undefined) this.four(-1)
    else this.field(type, value)
  }

  /** The rows so far, to be sent before the next is added. */
  taken(): Buffer {
    return this.bytes.subarray(0, this.length)
  }

  clear(): void {
    this.length = 0
    this.count = 0
  }

  private field(type: CopyType, value: NonNullable<CopyValue>): void {
    switch (type) {
      case 'int4': return this.int4(value as number)
      case 'float8': return this.float8(value as number)
      case 'text': return this.text(value as string)
      case 'bool': return this.bool(value as boolean)
      case 'timestamptz': return this.timestamp(value as Date)
      case 'date': return this.int4(Math.round((Date.parse(`${value as string}T00:00:00Z`) - EPOCH_2000_MS) / DAY_MS))
      case 'json': return this.text(JSON.stringify((value as { json: unknown }).json))
      case 'jsonb': return this.text(JSON.stringify((value as { json: unknown }).json), JSONB_VERSION)
      case 'text[]': return this.array(value as readonly string[], OID.text, (v) => this.text(v))
      case 'float8[]': return this.array(value as readonly number[], OID.float8, (v) => {
        this.room(12)
        this.float8(v)
      })
    }
  }

  /** Four bytes, the highest first. Through the view: this is called for every value of every row. */
  private four(value: number): void {
    this.view.setInt32(this.length, value)
    this.length += 4
  }

  private int4(value: number): void {
    this.four(4)
    this.four(value)
  }

  private float8(value: number): void {
    this.four(8)
    this.view.setFloat64(this.length, value)
    this.length += 8
  }

  private bool(value: boolean): void {
    this.four(1)
    this.bytes[this.length++] = value ? 1 : 0
  }

  /** Microseconds since 2000, as eight bytes. */
  private timestamp(value: Date): void {
    const us = (value.getTime() - EPOCH_2000_MS) * 1000
    const high = Math.floor(us / 2 ** 32)
    this.four(8)
    this.four(high)
    this.four(us - high * 2 ** 32)
  }

  /** `version` is the byte that jsonb begins with. */
  private text(value: string, version?: number): void {
    this.room(5 + value.length * 3)
    const start = this.length
    let at = start + 4
    if (version !== undefined) at = this.bytes.writeUInt8(version, at)
    at = value.length <= SHORT ? this.short(value, at) : this.long(value, at)
    this.view.setInt32(start, at - start - 4)
    this.length = at
  }

  // A call into the runtime for each short word costs more than the word.
  private short(value: string, from: number): number {
    const { bytes } = this
    for (let i = 0; i < value.length; i++) {
      const code = value.charCodeAt(i)
      if (code > 127 || code === 0) return this.long(value, from)
      bytes[from + i] = code
    }
    return from + value.length
  }

  /** PostgreSQL text cannot hold NUL, so it is left out. */
  private long(value: string, from: number): number {
    return from + this.bytes.write(value.includes('\0') ? value.replaceAll('\0', '') : value, from, 'utf8')
  }

  private array<T>(values: readonly T[], oid: number, write: (value: T) => void): void {
    this.room(24)
    const start = this.length
    const { bytes } = this
    let at = bytes.writeInt32BE(values.length > 0 ? 1 : 0, start + 4)
    at = bytes.writeInt32BE(0, at)
    at = bytes.writeInt32BE(oid, at)
    if (values.length > 0) {
      at = bytes.writeInt32BE(values.length, at)
      at = bytes.writeInt32BE(1, at)
    }
    this.length = at
    for (const value of values) write(value)
    this.view.setInt32(start, this.length - start - 4)
  }

  /** Room for so many bytes and, behind them, for a row of values that are no texts or lists. */
  private room(bytes: number): void {
    const end = this.length + bytes + this.types.length * FIXED
    if (end <= this.bytes.length) return
    const wider = Buffer.allocUnsafeSlow(Math.max(this.bytes.length * 2, end))
    this.bytes.copy(wider, 0, 0, this.length)
    this.bytes = wider
    this.view = viewOf(wider)
  }
}

const viewOf = ({ buffer, byteOffset, byteLength }: Buffer): DataView => new DataView(buffer, byteOffset, byteLength)
