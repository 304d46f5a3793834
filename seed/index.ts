import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import Papa from 'papaparse'
import type { ImportKind } from '@/lib/intake/types'
import { loadRows, plannedRows } from './loads'
import { buildCrossings, buildNetwork, type BuiltSection } from './network'
import { buildSplices, configuration, phaseOf, TRANSPOSITION, type TrueSplice } from './splices'
import { FLIGHTS, flightRows } from './surveys/infrared-flight'
import { campaignRows } from './surveys/resistance-campaign'
import { besideSplice, conflict, doubtful, findingToProof, slips, watchedYears } from './surveys/stories'

export { UTILITY_NAME } from './landscape'
export { TRIPS } from './trips'

/** The control room was called about every urgent reading taken before this moment; later ones still wait. */
export const CALLED_IN_BEFORE = '2026-10-21T00:00:00Z'

export interface DemoFile { path: string; kind: ImportKind }

const csv = (rows: object[]): string => `${Papa.unparse(rows, { newline: '\r\n', columns: [...new Set(rows.flatMap((r) => Object.keys(r)))] })}\r\n`

/** Lines with the points of their structures after each: a line without them would be one long span. */
function linesGeoJson(sections: BuiltSection[]): string {
  const line = (s: BuiltSection) => ({
    type: 'Feature',
    properties: {
      circuit: s.plan.circuit, section: s.section, line_name: s.plan.lineName, from: s.from, to: s.to, voltage_kv: s.plan.voltageKv,
      conductor: s.conductor, subconductors: s.plan.subconductors, rating_a: s.ratingA, rating_emergency_a: s.ratingEmergencyA,
      max_operating_c: s.plan.maxOperatingC, region: s.plan.region, radial: s.plan.radial, mw: s.plan.mw,
      ...(s.plan.lateralOffsetM === undefined ? {} : { lateral_offset_m: s.plan.lateralOffsetM }),
    },
    geometry: { type: 'LineString', coordinates: s.structures.map((t) => [t.lon, t.lat]) },
  })
  const points = (s: BuiltSection) => s.structures.map((t) => ({
    type: 'Feature',
    properties: { circuit: s.plan.circuit, section: s.section, structure: t.label, structure_type: t.structureType },
    geometry: { type: 'Point', coordinates: [t.lon, t.lat] },
  }))
  return JSON.stringify({ type: 'FeatureCollection', features: sections.flatMap((s) => [line(s), ...points(s)]) })
}

function phasingRows(sections: BuiltSection[]) {
  return sections.filter((s) => s.section === 'main').flatMap((s) => {
    const last = s.structures.length - 1
    const lengthM = s.structures[last]?.stationM ?? 0
    const rolls = s.plan.circuit === TRANSPOSITION.circuit ? s.structures.findIndex((t) => t.stationM / lengthM > TRANSPOSITION.atShare) : -1
    const ranges = rolls < 0 ? [[0, last]] : [[0, rolls], [rolls, last]]
    const positions = configuration(s) === 'vertical' ? ['top', 'middle', 'bottom'] : ['left', 'centre', 'right']
    return ranges.flatMap(([from = 0, to = 0]) => positions.map((position, i) => ({
      circuit: s.plan.circuit, structure_from: s.structures[from]?.label ?? '', structure_to: s.structures[to]?.label ?? '', position,
      phase: phaseOf(s, ((s.structures[from]?.stationM ?? 0) + (s.structures[to]?.stationM ?? 0)) / 2, i),
    })))
  })
}

const spliceRows = (splices: TrueSplice[]) => splices.filter((s) => !s.unlisted).map((s) => ({
  splice_id: s.label, circuit: s.section.plan.circuit, section: s.section.section, structure_back: s.back.label, structure_ahead: s.ahead.label,
  line_distance_m: s.stationM.toFixed(1), phase: s.phase, position: s.position, circuit_side: s.circuitSide, subconductor: s.subconductor, kind: s.kind,
  fitting_type: s.fittingType, barrel_od_mm: s.barrelOdMm.toFixed(1), barrel_length_mm: s.barrelLengthMm,
  installed_on: `${s.installedYear}-07-01`, batch: s.batch, removed_on: '', successor_of: '',
}))

/** Writes the demo utility's files, as a utility would hand them over, and names them in the order to load them. */
export async function writeDemoFiles(dir: string): Promise<DemoFile[]> {
  await mkdir(dir, { recursive: true })
  const sections = buildNetwork()
  const splices = buildSplices(sections)
  const flights = FLIGHTS.map((f) => flightRows(f, sections, splices))
  const proven = findingToProof(splices)
  const disputed = conflict(splices)
  const told = new Set([proven.splice.label, disputed.splice.label])
  const campaign = campaignRows(splices.filter((s) => !told.has(s.label)))
  const listed = [...splices, besideSplice(splices).sleeve]
  const files: [name: string, kind: ImportKind, text: string][] = [
    ['lines.geojson', 'lines', linesGeoJson(sections)],
    ['phasing.csv', 'phasing', csv(phasingRows(sections))],
    ['crossings.csv', 'crossings', csv(buildCrossings(sections).map((c) => ({ circuit: c.circuit, line_distance_m: c.lineDistanceM, kind: c.kind, name: c.name })))],
    ['splices.csv', 'splices', csv(spliceRows(listed))],
    ...flights.flatMap((f, i): [string, ImportKind, string][] => [
      [`infrared-flight-${FLIGHTS[i]?.startsOn.slice(0, 4)}.csv`, 'readings', csv(f.readings)],
      [`infrared-flight-${FLIGHTS[i]?.startsOn.slice(0, 4)}-extents.csv`, 'extents', csv(f.extents)],
    ]),
    ['watched-splices-2021-2024.csv', 'readings', csv(watchedYears(splices.filter((s) => !told.has(s.label))))],
    ['resistance-campaign-2026.csv', 'readings', csv([...campaign, ...proven.finding, ...disputed.rows, ...slips(splices), ...doubtful(splices)])],
    ['repair-proof-2026.csv', 'readings', csv(proven.proof)],
    ['loads-2026-10.csv', 'loads', csv(loadRows(sections))],
    ['planned-flows-winter-2026-27.csv', 'loads', csv(plannedRows(sections))],
  ]
  const out: DemoFile[] = []
  for (const [name, kind, text] of files) {
    const path = join(dir, name)
    await writeFile(path, text)
    out.push({ path, kind })
  }
  return out
}
