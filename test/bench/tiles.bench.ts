import { existsSync } from 'node:fs'
import { loadavg } from 'node:os'
import { fromGeojsonVt } from '@maplibre/vt-pbf'
import Supercluster from 'supercluster'
import type { SpliceFilter } from '@/lib/contract/filter'
import { buildCircuitIndex, circuitTileBytes } from '@/lib/tiles/circuits/circuit-index'
import { worldX, worldY, WORLD } from '@/lib/tiles/splices/morton'
import { CLASS_COUNT, type SpliceColumns } from '@/lib/tiles/splices/splice-columns'
import { buildSpliceIndex } from '@/lib/tiles/splices/splice-index'
import { spliceTileBytes, type TileAddress } from '@/lib/tiles/splices/splice-tile'
import { firstPaint } from './tiles/first-paint'
import { inOneState, million } from './tiles/million'

const COUNT = 1_000_000
const TILES_PER_ZOOM = 200
const GOAL_MS = 10
const say = (line: string) => process.stdout.write(`${line}\n`)
const ms = (value: number) => value.toFixed(2).padStart(8)

function memoryMb(): number {
  globalThis.gc?.()
  const { heapUsed, arrayBuffers } = process.memoryUsage()
  return (heapUsed + arrayBuffers) / 1e6
}

/** Tiles that hold splices: each over a splice drawn at regular steps. */
function tilesAt(columns: SpliceColumns, z: number): TileAddress[] {
  return Array.from({ length: TILES_PER_ZOOM }, (_, k) => {
    const i = Math.floor((k * columns.id.length) / TILES_PER_ZOOM)
    const at = (world: number) => Math.floor(world / (WORLD / 2 ** z))
    return { z, x: at(worldX(columns.lonDeg[i] ?? 0)), y: at(worldY(columns.latDeg[i] ?? 0)) }
  })
}

interface Times {
  p50Ms: number
  p95Ms: number
  /** What this process really got of the processor: the machine is rarely its own, and the goal is about our work. */
  p95CpuMs: number
  largestBytes: number
}

function timed(tiles: TileAddress[], cut: (tile: TileAddress) => Uint8Array): Times {
  let largestBytes = 0
  const runs = tiles.map((tile) => {
    const startedCpu = process.cpuUsage()
    const startedMs = performance.now()
    largestBytes = Math.max(largestBytes, cut(tile).length)
    const clockMs = performance.now() - startedMs
    const { user, system } = process.cpuUsage(startedCpu)
    return { clockMs, cpuMs: (user + system) / 1000 }
  })
  const at = (values: number[], share: number) =>
    values.sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? 0
  const clock = runs.map((r) => r.clockMs)
  return {
    p50Ms: at(clock, 0.5),
    p95Ms: at(clock, 0.95),
    p95CpuMs: at(
      runs.map((r) => r.cpuMs),
      0.95,
    ),
    largestBytes,
  }
}

let missed = 0
function report(name: string, columns: SpliceColumns, zooms: number[], cut: (tile: TileAddress) => Uint8Array, goal = true): void {
  say(`\n${name}\n  zoom   p50 ms   p95 ms  p95 CPU ms   largest tile`)
  for (const z of zooms) {
    const { p50Ms, p95Ms, p95CpuMs, largestBytes } = timed(tilesAt(columns, z), cut)
    const held = !goal || z < 6 || p95CpuMs < GOAL_MS
    if (!held) missed++
    const note = held ? '' : `   over ${GOAL_MS} ms`
    say(`  ${String(z).padStart(4)} ${ms(p50Ms)} ${ms(p95Ms)}    ${ms(p95CpuMs)}   ${(largestBytes / 1024).toFixed(1)} KB${note}`)
  }
}

async function indexed(name: string, columns: SpliceColumns) {
  const before = memoryMb()
  const startedCpu = process.cpuUsage()
  const startedMs = performance.now()
  const index = await buildSpliceIndex(columns)
  const tookS = (performance.now() - startedMs) / 1000
  const { user, system } = process.cpuUsage(startedCpu)
  const cpuS = (user + system) / 1e6
  const size = COUNT.toLocaleString('en-US')
  say(`${name}: index of ${size} splices in ${tookS.toFixed(2)} s (${cpuS.toFixed(2)} CPU s), ${(memoryMb() - before).toFixed(0)} MB`)
  if (cpuS > 2) missed++
  return index
}

type Counts = Record<string, number>

/** The peer: clusters in memory for every zoom, with the same counts per class; it has no filter. */
function peer(columns: SpliceColumns): (tile: TileAddress) => Uint8Array {
  const before = memoryMb()
  const startedMs = performance.now()
  const points = Array.from(columns.id, (id, i) => ({
    type: 'Feature' as const,
    id,
    properties: { [`c${columns.classNo[i] ?? 0}`]: 1 } as Counts,
    geometry: { type: 'Point' as const, coordinates: [columns.lonDeg[i] ?? 0, columns.latDeg[i] ?? 0] },
  }))
  const add = (into: Counts, more: Counts) => {
    for (let c = 0; c < CLASS_COUNT; c++) into[`c${c}`] = (into[`c${c}`] ?? 0) + (more[`c${c}`] ?? 0)
  }
  const clusters = new Supercluster<Counts, Counts>({ radius: 64, extent: 512, maxZoom: 16, map: (p) => ({ ...p }), reduce: add }).load(
    points,
  )
  say(`supercluster: index in ${((performance.now() - startedMs) / 1000).toFixed(2)} s, ${(memoryMb() - before).toFixed(0)} MB`)
  type Layers = Parameters<typeof fromGeojsonVt>[0]
  return ({ z, x, y }) =>
    fromGeojsonVt({ clusters: clusters.getTile(z, x, y) ?? { features: [] } } as unknown as Layers, { version: 2, extent: 512 })
}

say(`load average before: ${loadavg()[0]?.toFixed(1) ?? '?'}`)
const world = million(COUNT)
const wide = await indexed('half a continent', world.columns)
const state = inOneState(world)
const dense = await indexed('one state', state)
const zooms = [3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18]
const filtered: SpliceFilter = { classes: ['urgent', 'critical'], voltagesKv: [230, 345], phases: ['A'] }

report('splice tiles, half a continent', world.columns, zooms, (t) => spliceTileBytes(wide, t, {}, 0))
report('splice tiles, half a continent, filtered by class, voltage and phase', world.columns, zooms, (t) =>
  spliceTileBytes(wide, t, filtered, 0),
)
report('splice tiles, all in one state', state, zooms, (t) => spliceTileBytes(dense, t, {}, 0))
const peerTile = peer(world.columns)
report(
  'supercluster tiles, half a continent, no filter',
  world.columns,
  zooms.filter((z) => z <= 16),
  peerTile,
  false,
)

const lines = buildCircuitIndex(world.network)
report(
  'circuit tiles, 2,000 circuits',
  world.columns,
  [4, 6, 8, 10, 12, 14],
  (t) => circuitTileBytes(lines, wide.worstOfCircuit, t, {}),
  false,
)

if (existsSync(process.env.CHROMIUM_PATH ?? '/usr/bin/chromium')) {
  const cut = (layer: 'splices' | 'circuits', t: TileAddress) =>
    layer === 'splices' ? spliceTileBytes(wide, t, {}, 0) : circuitTileBytes(lines, wide.worstOfCircuit, t, {})
  say('\nfirst paint in Chromium with software WebGL, 1280 x 800 (goal 1.5 s to marks on screen)')
  const [cold, ground, ...paints] = await firstPaint(cut, ['5/-100/40', '5/-100/40:ground', '5/-100/40', '8/-100/40', '11/-100/40'])
  const seconds = (value: number) => (value / 1000).toFixed(2)
  if (cold) say(`  ${cold.view.padEnd(12)} marks ${seconds(cold.marksMs)} s, everything ${seconds(cold.idleMs)} s, the browser just started`)
  if (ground) say(`  the library with the ground alone: everything ${seconds(ground.idleMs)} s`)
  for (const { view, marksMs, idleMs } of paints) {
    const late = marksMs > 1500
    if (late) missed++
    const beside = ground ? `, ${(marksMs / ground.idleMs).toFixed(2)} times the ground alone` : ''
    say(`  ${view.padEnd(12)} marks ${seconds(marksMs)} s, everything ${seconds(idleMs)} s${beside}${late ? '   over 1.5 s' : ''}`)
  }
} else say('\nfirst paint: no Chromium here, not measured')

say(missed === 0 ? '\nevery goal met' : `\n${missed} figures beyond their goal`)
process.exitCode = missed === 0 ? 0 : 1
