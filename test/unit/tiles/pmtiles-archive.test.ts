import { PMTiles, TileType, type Source } from 'pmtiles'
import { describe, expect, it } from 'vitest'
import { pmtilesArchive, type ArchiveTile } from '@/lib/tiles/basemap/pmtiles-archive'
import { seeded } from './world'

/** The archive read as a server would hand it out, by ranges of bytes. */
function sourceOf(archive: Buffer): Source {
  const bytes = Uint8Array.from(archive)
  return { getKey: () => 'test', getBytes: (offset, length) => Promise.resolve({ data: bytes.buffer.slice(offset, offset + length) }) }
}

const facts = {
  minZoom: 0,
  maxZoom: 7,
  bounds: [-180, -85, 180, 85] as [number, number, number, number],
  centre: { lon: -98, lat: 40, zoom: 3 },
  metadata: { attribution: 'test data', vector_layers: [{ id: 'land', fields: {} }] },
}

/** Some tiles alike, the others of lengths that no packing of the directory can foresee. */
function content(z: number, x: number, y: number): Buffer {
  if (x % 5 === 0) return Buffer.from('open sea')
  const random = seeded(z * 1e6 + x * 1000 + y)
  return Buffer.from([z, x, y, ...Array.from({ length: Math.floor(random() * 150) }, () => Math.floor(random() * 256))])
}

function everyTile(maxZoom: number): ArchiveTile[] {
  const tiles: ArchiveTile[] = []
  for (let z = 0; z <= maxZoom; z++)
    for (let x = 0; x < 2 ** z; x++) for (let y = 0; y < 2 ** z; y++) tiles.push({ z, x, y, bytes: content(z, x, y) })
  return tiles
}

describe('a PMTiles archive', () => {
  it('is read back whole by the reference reader, past the first directory', async () => {
    const archive = pmtilesArchive(everyTile(7), facts)
    const reader = new PMTiles(sourceOf(archive))
    const header = await reader.getHeader()
    expect(header).toMatchObject({
      specVersion: 3,
      minZoom: 0,
      maxZoom: 7,
      tileType: TileType.Mvt,
      clustered: true,
      numAddressedTiles: 21_845,
    })
    expect(header.leafDirectoryLength).toBeGreaterThan(0)
    expect(await reader.getMetadata()).toEqual(facts.metadata)
    for (const [z, x, y] of [
      [0, 0, 0],
      [3, 5, 2],
      [6, 63, 63],
      [7, 0, 127],
      [7, 100, 31],
      [7, 127, 0],
    ] as const) {
      const tile = await reader.getZxy(z, x, y)
      expect([...new Uint8Array(tile?.data ?? new ArrayBuffer(0))]).toEqual([...content(z, x, y)])
    }
  })

  it('stores equal tiles once', async () => {
    const header = await new PMTiles(sourceOf(pmtilesArchive(everyTile(5), facts))).getHeader()
    expect(header.numTileContents).toBeLessThan(header.numAddressedTiles)
    expect(header.numTileEntries).toBeLessThanOrEqual(header.numAddressedTiles)
  })

  it('answers nothing for a tile it does not hold', async () => {
    const reader = new PMTiles(sourceOf(pmtilesArchive(everyTile(2), { ...facts, maxZoom: 2 })))
    expect(await reader.getZxy(5, 1, 1)).toBeUndefined()
  })

  it('is the same for the same tiles in any order', () => {
    const tiles = everyTile(4)
    expect(pmtilesArchive([...tiles].reverse(), facts).equals(pmtilesArchive(tiles, facts))).toBe(true)
  })
})
