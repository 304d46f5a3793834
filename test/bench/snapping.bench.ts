/**
 * Snapping beside peers in one run: npx tsx test/bench/snapping.bench.ts
 * 200,000 readings against 20,000 spans. Goals: 500,000 searches/s, 80,000 snapped points/s on one core.
 */
import { buildSpliceTable, placeEach } from '@/lib/geo'
import { SpanSearch } from '@/lib/geo/network/search'
import { snapToSpan } from '@/lib/geo/network/snap'
import { referenceDistanceM, referenceFoot } from '../fixtures/geo/reference'
import { geos, postgis, turfAlone, turfOnCandidates, type PeerResult } from './snapping-peers'
import { makeWorld, type BenchWorld } from './snapping-world'
import { stopwatch } from './stopwatch'

const SPANS = 20_000
const READINGS = 200_000
const TURF_ALONE = 40
const ERROR_SAMPLE = 1_000

const print = (line: string): void => {
  process.stdout.write(`${line}\n`)
}
const whole = (value: number): string => Math.round(value).toLocaleString('en-US')
const rates = ({ rate: { perCpuS, perClockS } }: PeerResult): string =>
  `${whole(perCpuS).padStart(9)} per CPU second, ${whole(perClockS).padStart(9)} by the clock`

/** The best of three. */
function best(run: () => PeerResult): PeerResult {
  return [run(), run(), run()].reduce((a, b) => (a.rate.perCpuS >= b.rate.perCpuS ? a : b))
}

function searchAlone({ network, points }: BenchWorld): PeerResult {
  const search = new SpanSearch(network)
  const spans = new Int32Array(points.length)
  const stop = stopwatch()
  for (let i = 0; i < points.length; i++) {
    const count = search.search(points[i]!.lon!, points[i]!.lat!, 30)
    spans[i] = count === 0 ? -1 : network.pieces.span[search.piece[0]!]!
  }
  return { name: 'ours, search alone', rate: stop(points.length), spans }
}

function searchAndSnap({ network, points }: BenchWorld): PeerResult {
  const search = new SpanSearch(network)
  const spans = new Int32Array(points.length)
  const feet = new Float64Array(2 * points.length)
  const stop = stopwatch()
  for (let i = 0; i < points.length; i++) {
    const { lon, lat } = points[i] as { lon: number; lat: number }
    spans[i] = search.search(lon, lat, 30) === 0 ? -1 : network.pieces.span[search.piece[0]!]!
    if (spans[i]! < 0) continue
    const foot = snapToSpan(network, spans[i]!, lon, lat, search.piece[0]!)
    feet[2 * i] = foot.lon
    feet[2 * i + 1] = foot.lat
  }
  return { name: 'ours, search and turf on the chosen span', rate: stop(points.length), spans, feet }
}

/** Everything: candidates, tracks, snap, splice, outcomes with their reasons. */
function placeAll({ network, points, splices }: BenchWorld): PeerResult & { placed: number } {
  const table = buildSpliceTable(network, splices)
  const spans = new Int32Array(points.length).fill(-1)
  let placed = 0
  const stop = stopwatch()
  for (const { index, state, chosen } of placeEach(network, points, table, []).outcomes) {
    if (state !== 'placed') continue
    placed++
    spans[index] = network.spanIndexOfId.get(chosen!.spanId)!
  }
  return { name: 'ours, placing whole', rate: stop(points.length), spans, placed }
}

/** Distance of a peer's foot from the geodesic foot on the span it chose: median and largest, metres. */
function errorOf({ spans: lines, points }: BenchWorld, { spans, feet }: PeerResult): string {
  if (!feet) return ''
  const errors: number[] = []
  const step = Math.max(Math.floor(spans.length / ERROR_SAMPLE), 1)
  for (let i = 0; i < spans.length; i += step) {
    if (spans[i]! < 0) continue
    const ends = [...lines[spans[i]!]!] as [number, number, number, number]
    const foot = referenceFoot(ends, points[i]!.lon!, points[i]!.lat!)
    errors.push(referenceDistanceM(foot.lon, foot.lat, feet[2 * i]!, feet[2 * i + 1]!))
  }
  errors.sort((a, b) => a - b)
  const mm = (value: number): string => `${(value * 1000).toFixed(3)} mm`
  return `, foot off by ${mm(errors[errors.length >> 1]!)} (median), ${mm(errors.at(-1)!)} (largest of ${errors.length})`
}

function report(world: BenchWorld, ours: PeerResult, peer: PeerResult): void {
  let same = 0
  for (let i = 0; i < peer.spans.length; i++) if (peer.spans[i] === ours.spans[i]) same++
  const ratio = ours.rate.perCpuS / peer.rate.perCpuS
  const note = peer.note ? ` (${peer.note})` : ''
  print(`${rates(peer)}  ${peer.name}${note}`)
  const share = ((100 * same) / peer.spans.length).toFixed(2)
  print(`    ours snaps ${ratio.toFixed(ratio < 10 ? 2 : 0)} times as fast; same span for ${share} %${errorOf(world, peer)}`)
}

const world = makeWorld(SPANS, READINGS)
print(`${whole(READINGS)} readings, ${whole(SPANS)} spans, best of three`)
const ours = best(() => searchAndSnap(world))
const found = best(() => searchAlone(world))
print(`${rates(found)}  ${found.name} (goal 500,000)`)
print(`${rates(ours)}  ${ours.name} (goal 80,000)${errorOf(world, ours)}`)
const all = best(() => placeAll(world)) as ReturnType<typeof placeAll>
print(`${rates(all)}  ${all.name}, ${whole(all.placed)} placed, ${whole(world.splices.length)} known splices`)
report(world, ours, turfAlone(world, TURF_ALONE))
report(
  world,
  ours,
  best(() => turfOnCandidates(world)),
)
const byGeos = geos(world)
if (byGeos) report(world, ours, byGeos)
else print('GEOS: not installed (python3 with shapely)')
const byPostgis = await postgis(world, process.env.BENCH_POSTGIS_URL)
if (byPostgis) report(world, ours, byPostgis)
else print('PostGIS: not installed (BENCH_POSTGIS_URL may name a database that has it)')
