import { readFileSync } from 'node:fs'
import {
  assembleSections,
  attachStructures,
  buildSpans,
  type AssembledSection,
  type AttachedStructure,
  type BuiltSpan,
  type GeoIssue,
  type LineFeature,
  type StructurePoint,
} from '@/lib/geo'

import { groupBy } from './group-by'

interface Feature {
  properties: Record<string, unknown>
  geometry: { type: string; coordinates: number[] | number[][] }
}

export interface TrialLine {
  section: AssembledSection
  attached: AttachedStructure[]
  spans: BuiltSpan[]
}

export interface TrialNetwork {
  features: number
  structures: number
  lines: TrialLine[]
  issues: GeoIssue[]
}

const featuresOf = (path: string): Feature[] => (JSON.parse(readFileSync(path, 'utf8')) as { features: Feature[] }).features

const text = (value: unknown): string | undefined => (typeof value === 'string' && value !== '' ? value : undefined)

/** Lines without a circuit column: each feature is a circuit of its own, named by whatever id it carries. */
function lineFeature({ properties, geometry }: Feature, i: number): LineFeature {
  const circuit = text(properties.circuit) ?? text(properties.osm) ?? `line ${i + 1}`
  return {
    rowNo: i + 1,
    circuit,
    section: text(properties.section) ?? null,
    pieces: [Float64Array.from((geometry.coordinates as number[][]).flatMap((c) => c.slice(0, 2)))],
  }
}

function structurePoint({ properties, geometry }: Feature, i: number): StructurePoint {
  const [lon, lat] = geometry.coordinates as number[]
  const structure = text(properties.structure_id) ?? text(properties.osm)?.replace(/^node\//, '') ?? `${i + 1}`
  return {
    rowNo: i + 1,
    circuit: text(properties.circuit) ?? null,
    section: null,
    structure,
    lon: lon ?? null,
    lat: lat ?? null,
    lineDistanceM: null,
  }
}

/** Geometry through the product's own assembly, with every issue it names. */
export function readNetwork(linesPath: string, structuresPath: string): TrialNetwork {
  const lines = featuresOf(linesPath)
  const points = featuresOf(structuresPath).map(structurePoint)
  const { sections, issues } = assembleSections(lines.map(lineFeature))
  const { attached, issues: structureIssues } = attachStructures(sections, points)
  const bySection = groupBy(attached, (one) => one.section)
  const built = sections.map((section, index) => {
    const own = bySection.get(index) ?? []
    const { spans, issues: spanIssues } = buildSpans(section, own, section.features[0]?.rowNo)
    issues.push(...spanIssues)
    return { section, attached: own, spans }
  })
  return { features: lines.length, structures: points.length, lines: built, issues: [...issues, ...structureIssues] }
}
