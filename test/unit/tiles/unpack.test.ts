import { describe, expect, it } from 'vitest'
import { unpackSplices } from '@/lib/tiles/splices/splice-columns'

function bigEndian(values: number[], bytes: 4 | 8): Buffer {
  const buffer = Buffer.alloc(values.length * bytes)
  values.forEach((v, i) => (bytes === 4 ? buffer.writeInt32BE(v, 4 * i) : buffer.writeDoubleBE(v, 8 * i)))
  return buffer
}

describe('packed splices', () => {
  it('come out as the numbers that the server sent', () => {
    const columns = unpackSplices({
      groups: [{ circuitId: 4, voltageKv: null, phase: null }],
      id: bigEndian([7, 2_000_000_000], 4),
      lon: bigEndian([-114.123456789, 179.9], 8),
      lat: bigEndian([47.5, -85], 8),
      class_no: Buffer.from([5, 0]),
      axis_deg: Buffer.from([179, 0]),
      group_no: bigEndian([0, 0], 4),
      names: Buffer.from('a\0b'),
    })
    expect([...columns.id]).toEqual([7, 2_000_000_000])
    expect([...columns.lonDeg]).toEqual([-114.123456789, 179.9])
    expect([...columns.latDeg]).toEqual([47.5, -85])
    expect([[...columns.classNo], [...columns.axisDeg]]).toEqual([
      [5, 0],
      [179, 0],
    ])
  })

  it('are empty where the store is', () => {
    const columns = unpackSplices({
      groups: [],
      id: null,
      lon: null,
      lat: null,
      class_no: null,
      axis_deg: null,
      group_no: null,
      names: null,
    })
    expect([columns.id.length, columns.lonDeg.length, columns.classNo.length]).toEqual([0, 0, 0])
  })
})
