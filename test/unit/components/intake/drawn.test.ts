import { describe, expect, it } from 'vitest'
import { drawnOf } from '@/components/intake/drawn'
import type { PreviewRow } from '@/lib/contract/intake'

const row = (becomes: Partial<PreviewRow['becomes']>): PreviewRow => ({ row: 1, cells: {}, issues: [], becomes: { state: 'read', text: '', ...becomes } })

describe('what is drawn of a row', () => {
  it('is nothing where it has neither a position nor a line', () => {
    expect(drawnOf(row({}))).toBeNull()
    expect(drawnOf(row({ lon: null, lat: null, course: [] }))).toBeNull()
  })

  it('is its stretch of line, framed as a whole', () => {
    expect(drawnOf(row({ lon: null, lat: null, course: [[-114, 47], [-113.99, 47.01]] }))).toEqual({
      raw: null, course: [[-114, 47], [-113.99, 47.01]], bbox: [-114, 47, -113.99, 47.01],
    })
  })

  it('is its place with what stands around it', () => {
    const drawn = drawnOf(row({ lon: -114, lat: 47 }))
    expect(drawn?.raw).toEqual({ lon: -114, lat: 47 })
    expect(drawn?.bbox.map((edge) => Math.round(edge * 1000) / 1000)).toEqual([-114.004, 46.996, -113.996, 47.004])
  })
})
