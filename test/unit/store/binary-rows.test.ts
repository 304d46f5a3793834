import { describe, expect, it } from 'vitest'
import { BinaryRows, type CopyType, type CopyValue } from '@/lib/store/binary-rows'

/** Fields of rows in COPY's binary format (PostgreSQL documentation, COPY, Binary Format), as bytes; null where there is no value. */
function fieldsOf(bytes: Buffer): (Buffer | null)[][] {
  const rows: (Buffer | null)[][] = []
  for (let at = 0; at < bytes.length;) {
    const count = bytes.readInt16BE(at)
    at += 2
    rows.push(Array.from({ length: count }, () => {
      const length = bytes.readInt32BE(at)
      const value = length === -1 ? null : bytes.subarray(at + 4, at + 4 + length)
      at += 4 + Math.max(length, 0)
      return value
    }))
  }
  return rows
}

describe('rows as the bytes COPY takes', () => {
  it('come back whole from a buffer that had to grow at any of their fields', () => {
    const types: CopyType[] = ['int4', 'text', 'float8', 'bool', 'timestamptz', 'json', 'text[]', 'float8[]', 'text', 'float8', 'int4']
    const texts = ['', 'R1', 'électrodes', 'x'.repeat(63), 'x'.repeat(64), 'x'.repeat(65), 'µ'.repeat(700), 'a\0b', `${'long '.repeat(40)}\0`]
    for (const room of [1, 16, 64, 200, 1000]) {
      const rows = new BinaryRows(types, room)
      const values = texts.map((text, i): CopyValue[] => [
        7 - i, text, 0.1 + i, i % 2 === 0, new Date(Date.UTC(2024, 1, i + 1)), { json: { text } }, texts.slice(0, i), Array.from({ length: i * 30 }, (_, n) => n / 3),
        i === 3 ? null : text, -1e-300, 2_147_483_647,
      ])
      for (const row of values) rows.add(row)
      const read = fieldsOf(rows.taken())
      expect(rows.count).toBe(texts.length)
      expect(read).toHaveLength(texts.length)
      read.forEach((fields, i) => {
        const clean = texts[i]!.replaceAll('\0', '')
        expect(fields[0]!.readInt32BE()).toBe(7 - i)
        expect(fields[1]!.toString('utf8')).toBe(clean)
        expect(fields[2]!.readDoubleBE()).toBe(0.1 + i)
        expect(fields[3]![0]).toBe(i % 2 === 0 ? 1 : 0)
        expect(fields[4]!.readBigInt64BE()).toBe(BigInt(Date.UTC(2024, 1, i + 1) - Date.UTC(2000, 0, 1)) * 1000n)
        expect(JSON.parse(fields[5]!.toString('utf8'))).toEqual({ text: texts[i] })
        expect(fields[6]!.length).toBe(i === 0 ? 12 : 20 + texts.slice(0, i).reduce((sum, t) => sum + 4 + Buffer.byteLength(t.replaceAll('\0', '')), 0))
        expect(fields[7]!.length).toBe(i === 0 ? 12 : 20 + i * 30 * 12)
        if (i === 3) expect(fields[8]).toBeNull()
        else expect(fields[8]!.toString('utf8')).toBe(clean)
        expect(fields[9]!.readDoubleBE()).toBe(-1e-300)
        expect(fields[10]!.readInt32BE()).toBe(2_147_483_647)
      })
    }
  })
})
