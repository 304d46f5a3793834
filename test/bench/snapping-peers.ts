import { spawnSync } from 'node:child_process'
import { nearestPointOnLine } from '@turf/nearest-point-on-line'
import Flatbush from 'flatbush'
import type { LineString } from 'geojson'
import pg from 'pg'
import type { BenchWorld } from './snapping-world'
import { stopwatch, type Rate } from './stopwatch'

export interface PeerResult {
  name: string
  rate: Rate
  /** Chosen span of each point it was asked for, as an index. */
  spans: Int32Array
  /** Foot of each point where the peer gives one in degrees. */
  feet?: Float64Array
  note?: string
}

const lineOf = (lonLat: Float64Array): LineString => ({
  type: 'LineString',
  coordinates: [
    [lonLat[0]!, lonLat[1]!],
    [lonLat[2]!, lonLat[3]!],
  ],
})

function timed(name: string, count: number, place: (i: number, feet: Float64Array) => number, note?: string): PeerResult {
  const spans = new Int32Array(count)
  const feet = new Float64Array(2 * count)
  const stop = stopwatch()
  for (let i = 0; i < count; i++) spans[i] = place(i, feet)
  return { name, rate: stop(count), spans, feet, ...(note !== undefined && { note }) }
}

function nearestOf(lines: readonly LineString[], spans: Iterable<number>, lon: number, lat: number, feet: Float64Array, i: number): number {
  let [nearest, nearestKm] = [-1, Infinity]
  for (const span of spans) {
    const found = nearestPointOnLine(lines[span]!, [lon, lat])
    if (found.properties.pointDistance >= nearestKm) continue
    nearest = span
    nearestKm = found.properties.pointDistance
    feet[2 * i] = found.geometry.coordinates[0]!
    feet[2 * i + 1] = found.geometry.coordinates[1]!
  }
  return nearest
}

/** Turf on every span, for a few points only: its speed does not depend on how many. */
export function turfAlone({ spans, points }: BenchWorld, count: number): PeerResult {
  const lines = spans.map(lineOf)
  const all = [...spans.keys()]
  return timed(
    'turf on every span',
    count,
    (i, feet) => nearestOf(lines, all, points[i]!.lon!, points[i]!.lat!, feet, i),
    `${count} points only`,
  )
}

/** A box search of 30 m, then turf on everything in it. */
export function turfOnCandidates({ spans, points }: BenchWorld): PeerResult {
  const lines = spans.map(lineOf)
  const index = new Flatbush(spans.length)
  for (const [a, b, c, d] of spans as unknown as Iterable<[number, number, number, number]>) {
    index.add(Math.min(a, c), Math.min(b, d), Math.max(a, c), Math.max(b, d))
  }
  index.finish()
  return timed('flatbush, turf on every candidate', points.length, (i, feet) => {
    const { lon, lat } = points[i] as { lon: number; lat: number }
    const latDeg = 30 / 111_200
    const lonDeg = latDeg / Math.cos((lat * Math.PI) / 180)
    return nearestOf(lines, index.search(lon - lonDeg, lat - latDeg, lon + lonDeg, lat + latDeg), lon, lat, feet, i)
  })
}

/** Plane metres about the middle of the world, for peers that know no ellipsoid. */
export function planar({ spans, points }: BenchWorld): { spans: number[][]; points: number[][] } {
  const lat0 = spans.reduce((sum, span) => sum + span[1]!, 0) / spans.length
  const xM = 111_320 * Math.cos((lat0 * Math.PI) / 180)
  const at = (lon: number, lat: number): [number, number] => [(lon + 111) * xM, (lat - lat0) * 111_200]
  return { spans: spans.map((s) => [...at(s[0]!, s[1]!), ...at(s[2]!, s[3]!)]), points: points.map(({ lon, lat }) => at(lon!, lat!)) }
}

const GEOS = `
import json, sys, time
try:
    from shapely.geometry import LineString, Point
    from shapely.strtree import STRtree
except ImportError:
    print('null'); sys.exit()
world = json.load(sys.stdin)
lines = [LineString([s[:2], s[2:]]) for s in world['spans']]
number = {id(line): i for i, line in enumerate(lines)}
tree = STRtree(lines)
tree.nearest(Point(0, 0))
start, cpu = time.perf_counter(), time.process_time()
chosen = []
for x, y in world['points']:
    point = Point(x, y)
    found = tree.nearest(point)
    i = number[id(found)] if hasattr(found, 'project') else int(found)
    lines[i].interpolate(lines[i].project(point))
    chosen.append(i)
print(json.dumps({'seconds': time.perf_counter() - start, 'cpu': time.process_time() - cpu, 'spans': chosen}))
`

/** GEOS through Python's shapely, where it is installed. */
export function geos(world: BenchWorld): PeerResult | undefined {
  const flat = planar(world)
  const run = spawnSync('python3', ['-c', GEOS], { input: JSON.stringify(flat), encoding: 'utf8', maxBuffer: 1 << 28 })
  const answer = run.status === 0 ? (JSON.parse(run.stdout) as { seconds: number; cpu: number; spans: number[] } | null) : null
  if (!answer) return undefined
  const rate = { perClockS: flat.points.length / answer.seconds, perCpuS: flat.points.length / answer.cpu }
  return { name: 'GEOS STRtree through shapely', rate, spans: Int32Array.from(answer.spans), note: 'plane metres' }
}

const SEGMENTS = `insert into seg select i, ST_MakeLine(ST_MakePoint(a, b), ST_MakePoint(c, d))
  from unnest($1::int[], $2::float8[], $3::float8[], $4::float8[], $5::float8[]) as t(i, a, b, c, d)`
const POINTS = 'insert into pt select i, ST_MakePoint(a, b) from unnest($1::int[], $2::float8[], $3::float8[]) as t(i, a, b)'
const NEAREST = `select s.id as span, ST_ClosestPoint(s.geom, pt.geom) from pt
  cross join lateral (select id, geom from seg order by seg.geom <-> pt.geom limit 1) s order by pt.id`

/** PostGIS by its nearest-neighbour index, where BENCH_POSTGIS_URL names a database that has it. */
export async function postgis(world: BenchWorld, url: string | undefined): Promise<PeerResult | undefined> {
  if (!url) return undefined
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    const flat = planar(world)
    await client.query('create temp table seg (id int primary key, geom geometry)')
    await client.query('create temp table pt (id int primary key, geom geometry)')
    await client.query(SEGMENTS, [[...flat.spans.keys()], ...[0, 1, 2, 3].map((k) => flat.spans.map((s) => s[k]))])
    await client.query(POINTS, [[...flat.points.keys()], ...[0, 1].map((k) => flat.points.map((p) => p[k]))])
    await client.query('create index on seg using gist (geom)')
    await client.query('analyze seg')
    const stop = stopwatch()
    const { rows } = await client.query<{ span: number }>(NEAREST)
    // The work is the server's: only the clock counts.
    const { perClockS } = stop(rows.length)
    const spans = Int32Array.from(rows, ({ span }) => span)
    return { name: 'PostGIS nearest neighbour', rate: { perClockS, perCpuS: perClockS }, spans, note: 'plane metres, by the clock' }
  } finally {
    await client.end()
  }
}
