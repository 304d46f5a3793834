import { murmur128 } from '../hash'

const encoder = new TextEncoder()

/** Shorter texts are encoded by hand: a call into the runtime costs more than they do. */
const SHORT_CHARS = 64

/** A number that stands for a name, the same for ever. */
export function tagOf(name: string): number {
  const bytes = encoder.encode(name)
  return murmur128(bytes, bytes.length)[0]
}

/** Tagged numbers and texts one after the other, in a form that only the same values give: to be hashed. */
export class ContentBytes {
  private room = new Uint8Array(4096)
  private view = new DataView(this.room.buffer)
  private length = 0

  clear(): void {
    this.length = 0
  }

  /** They stand until something is added. */
  bytes(): Uint8Array {
    return this.room.subarray(0, this.length)
  }

  number(tag: number, value: number): void {
    this.reserve(12)
    this.view.setUint32(this.length, tag)
    this.view.setFloat64(this.length + 4, value + 0) // so that −0 is 0
    this.length += 12
  }

  text(tag: number, value: string): void {
    this.reserve(8 + value.length * 3)
    const start = this.length + 8
    const end = value.length <= SHORT_CHARS ? this.short(value, start) : this.long(value, start)
    this.view.setUint32(this.length, tag)
    this.view.setUint32(this.length + 4, end - start)
    this.length = end
  }

  private short(value: string, start: number): number {
    const { room } = this
    for (let at = 0; at < value.length; at++) {
      const code = value.charCodeAt(at)
      if (code > 127) return this.long(value, start)
      room[start + at] = code
    }
    return start + value.length
  }

  private long(value: string, start: number): number {
    return start + encoder.encodeInto(value, this.room.subarray(start)).written
  }

  private reserve(bytes: number): void {
    if (this.length + bytes <= this.room.length) return
    const wider = new Uint8Array(Math.max(this.room.length * 2, this.length + bytes))
    wider.set(this.room)
    this.room = wider
    this.view = new DataView(wider.buffer)
  }
}
