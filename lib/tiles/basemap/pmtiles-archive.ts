import { createHash } from 'node:crypto'
import { gzipSync } from 'node:zlib'
import { zxyToTileId } from 'pmtiles'

/** PMTiles version 3 (open specification, github.com/protomaps/PMTiles spec/v3). */
const HEADER_BYTES = 127
/** A reader fetches the first 16 KiB in one go: header and root directory must fit (specification, section 3). */
const FIRST_FETCH_BYTES = 16_384
const GZIP = 2
const MVT = 1

export interface ArchiveTile { z: number; x: number; y: number; bytes: Uint8Array }

export interface ArchiveFacts {
  minZoom: number
  maxZoom: number
  /** Degrees: west, south, east, north. */
  bounds: [number, number, number, number]
  centre: { lon: number; lat: number; zoom: number }
  /** Must hold vector_layers and attribution, as readers expect. */
  metadata: Record<string, unknown>
}

/** runLength 0 points to a leaf directory. */
interface Entry { tileId: number; runLength: number; offset: number; length: number }

/** Base-128 varint of a whole number below 2^53. */
function pushVarint(out: number[], value: number): void {
  let rest = value
  while (rest >= 0x80) {
    out.push((rest % 0x80) | 0x80)
    rest = Math.floor(rest / 0x80)
  }
  out.push(rest)
}

function directory(entries: Entry[]): Buffer {
  const out: number[] = []
  pushVarint(out, entries.length)
  let lastId = 0
  for (const e of entries) {
    pushVarint(out, e.tileId - lastId)
    lastId = e.tileId
  }
  for (const e of entries) pushVarint(out, e.runLength)
  for (const e of entries) pushVarint(out, e.length)
  let endOfLast = -1
  for (const e of entries) {
    // 0 says 'right after the entry before'; everything else is shifted by one to leave 0 free.
    pushVarint(out, e.offset === endOfLast ? 0 : e.offset + 1)
    endOfLast = e.offset + e.length
  }
  return gzipSync(Buffer.from(out), { level: 9 })
}

/** Root and leaf directories; leaves only where the root would not fit the first fetch. */
function directories(entries: Entry[]): { root: Buffer; leaves: Buffer } {
  const room = FIRST_FETCH_BYTES - HEADER_BYTES
  const single = directory(entries)
  if (single.length <= room) return { root: single, leaves: Buffer.alloc(0) }
  for (let perLeaf = 4096; ; perLeaf *= 2) {
    const leaves: Buffer[] = []
    const rootEntries: Entry[] = []
    let offset = 0
    for (let from = 0; from < entries.length; from += perLeaf) {
      const part = entries.slice(from, from + perLeaf)
      const leaf = directory(part)
      rootEntries.push({ tileId: part[0]?.tileId ?? 0, runLength: 0, offset, length: leaf.length })
      offset += leaf.length
      leaves.push(leaf)
    }
    const root = directory(rootEntries)
    if (root.length <= room) return { root, leaves: Buffer.concat(leaves) }
  }
}

/** Equal tiles (open sea, plain land) are stored once; neighbours in Hilbert order with equal content share an entry. */
function storeTiles(tiles: ArchiveTile[]): { entries: Entry[]; chunks: Buffer[]; bytes: number } {
  const sorted = tiles.map((t) => ({ tileId: zxyToTileId(t.z, t.x, t.y), bytes: t.bytes })).sort((a, b) => a.tileId - b.tileId)
  const stored = new Map<string, { offset: number; length: number }>()
  const entries: Entry[] = []
  const chunks: Buffer[] = []
  let bytes = 0
  for (const tile of sorted) {
    const key = createHash('sha256').update(tile.bytes).digest('base64')
    let place = stored.get(key)
    if (!place) {
      const packed = gzipSync(tile.bytes, { level: 9 })
      place = { offset: bytes, length: packed.length }
      bytes += packed.length
      chunks.push(packed)
      stored.set(key, place)
    }
    const last = entries.at(-1)
    if (last && last.offset === place.offset && last.tileId + last.runLength === tile.tileId) last.runLength++
    else entries.push({ tileId: tile.tileId, runLength: 1, ...place })
  }
  return { entries, chunks, bytes }
}

/** One PMTiles v3 archive of gzipped vector tiles, clustered in Hilbert order. The same tiles give the same bytes. */
export function pmtilesArchive(tiles: ArchiveTile[], facts: ArchiveFacts): Buffer {
  const { entries, chunks, bytes } = storeTiles(tiles)
  const { root, leaves } = directories(entries)
  const metadata = gzipSync(Buffer.from(JSON.stringify(facts.metadata)), { level: 9 })
  const header = Buffer.alloc(HEADER_BYTES)
  header.write('PMTiles', 0, 'ascii')
  header.writeUInt8(3, 7)
  const rootAt = HEADER_BYTES
  const metadataAt = rootAt + root.length
  const leavesAt = metadataAt + metadata.length
  const tilesAt = leavesAt + leaves.length
  const places = [rootAt, root.length, metadataAt, metadata.length, leavesAt, leaves.length, tilesAt, bytes]
  const counts = [tiles.length, entries.length, chunks.length]
  ;[...places, ...counts].forEach((value, i) => header.writeBigUInt64LE(BigInt(value), 8 + 8 * i))
  const oneByteFields = [1, GZIP, GZIP, MVT, facts.minZoom, facts.maxZoom]
  oneByteFields.forEach((value, i) => header.writeUInt8(value, 96 + i))
  facts.bounds.forEach((deg, i) => header.writeInt32LE(Math.round(deg * 1e7), 102 + 4 * i))
  header.writeUInt8(facts.centre.zoom, 118)
  header.writeInt32LE(Math.round(facts.centre.lon * 1e7), 119)
  header.writeInt32LE(Math.round(facts.centre.lat * 1e7), 123)
  return Buffer.concat([header, root, metadata, leaves, ...chunks])
}
