import { describe, expect, it } from 'vitest'
import { unpackSplices } from '@/lib/tiles/splices/splice-columns'

function bigEndian(values: number[], bytes: 4 | 8): Buffer {
  const buffer = Buffer.alloc(values.length * bytes)
  values.forEach((v, i) => (bytes === 4 ? buffer.writeInt32BE(v, 4 * i) : buffer.writeDoubleBE(v, 8 * i)))
  return buffer
}

const nothing = { phases: null, id: null, lon: null, lat: null, class_no: null, renew_by_day: null, circuit_id: null, phase_no: null, span_id: null, names: null }

describe('packed splices', () => {
  it('come out as the numbers that the server sent, grouped by circuit and phase', () => {
    const columns = unpackSplices({
      splices: {
        phases: ['', 'B'],
        id: bigEndian([7, 2_000_000_000, 9], 4),
        lon: bigEndian([-114.123456789, 179.9, 0], 8),
        lat: bigEndian([47.5, -85, 0], 8),
        class_no: Buffer.from([5, 0, 4]),
        renew_by_day: bigEndian([2_147_483_647, 20_400, 0], 4),
        circuit_id: bigEndian([4, 5, 4], 4),
        phase_no: bigEndian([1, 0, 1], 4),
        span_id: bigEndian([30, 31, 32], 4),
        names: Buffer.from('a\0b\0c'),
      },
      axes: { span_id: bigEndian([31, 30], 4), axis_deg: Buffer.from([179, 12]) },
      shared: [{ id: 31, circuitId: 5, lateralOffsetM: 6, lonLat: [-114, 47, -114, 47.01] }],
      circuits: [{ id: 4, name: 'four', voltageKv: 230 }],
    })
    expect([...columns.id]).toEqual([7, 2_000_000_000, 9])
    expect([...columns.lonDeg]).toEqual([-114.123456789, 179.9, 0])
    expect([...columns.latDeg]).toEqual([47.5, -85, 0])
    expect([...columns.classNo]).toEqual([5, 0, 4])
    expect([...columns.renewByDay]).toEqual([2_147_483_647, 20_400, 0])
    expect([...columns.axisDeg]).toEqual([12, 179, 0])
    expect([...columns.sideNo]).toEqual([0, 1, 0])
    expect([...columns.groupNo]).toEqual([0, 1, 0])
    expect(columns.groups).toEqual([
      { circuitId: 4, voltageKv: 230, phase: 'B' },
      { circuitId: 5, voltageKv: null, phase: null },
    ])
  })

  it('are empty where the store is', () => {
    const columns = unpackSplices({ splices: nothing, axes: { span_id: null, axis_deg: null }, shared: [], circuits: [] })
    expect([columns.id.length, columns.lonDeg.length, columns.groups.length]).toEqual([0, 0, 0])
  })
})
