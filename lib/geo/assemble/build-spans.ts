import { sliceLine } from '../line/polyline'
import type { GeoIssue } from '../types'
import type { AttachedStructure, SectionLine, StructurePoint } from './attach-structures'
import { metresWords, sectionWords, warning } from './line-feature'

/** Between two neighbouring named structures, or from an end of the section where none stands. */
export interface BuiltSpan<S extends StructurePoint = StructurePoint> {
  ord: number
  structureBack?: AttachedStructure<S>
  structureAhead?: AttachedStructure<S>
  startM: number
  endM: number
  /** Flat lon,lat,… with the shape points. */
  lonLat: Float64Array
}

/** Longer spans exist, but a missing structure is likelier. */
export const LONG_SPAN_M = 1_500
/** A structure this close to the section's end stands at the end. */
const END_M = 1

/**
 * Spans of one section between the structures attached to it, ordered by line distance. Vertices without a name are
 * shape points. Spans over 1,500 m come with the issue 'structures-missing' on `row`, the section's first.
 */
export function buildSpans<S extends StructurePoint>(
  section: SectionLine, attached: readonly AttachedStructure<S>[], row = 0,
): { spans: BuiltSpan<S>[]; issues: GeoIssue[] } {
  const lengthM = section.distancesM.at(-1) ?? 0
  const ordered = [...attached].sort((a, b) => a.lineDistanceM - b.lineDistanceM)
  const marks: { atM: number; structure?: AttachedStructure<S> }[] =
    ordered.map((structure) => ({ atM: structure.lineDistanceM, structure }))
  const [first] = marks
  if (!first || first.atM > END_M) marks.unshift({ atM: 0 })
  else first.atM = 0
  const last = marks.at(-1)!
  if (lengthM - last.atM > END_M || marks.length === 1) marks.push({ atM: lengthM })
  else last.atM = lengthM
  const spans: BuiltSpan<S>[] = []
  for (let i = 1; i < marks.length; i++) {
    const back = marks[i - 1]!
    const ahead = marks[i]!
    spans.push({
      ord: i - 1,
      ...(back.structure && { structureBack: back.structure }),
      ...(ahead.structure && { structureAhead: ahead.structure }),
      startM: back.atM,
      endM: ahead.atM,
      lonLat: sliceLine(section.lonLat, back.atM, ahead.atM, section.distancesM),
    })
  }
  return { spans, issues: spans.filter((span) => span.endM - span.startM > LONG_SPAN_M).map((span) => longSpan(section, span, row)) }
}

function longSpan({ circuit, section }: SectionLine, span: BuiltSpan, row: number): GeoIssue {
  const from = span.structureBack ? `structure ${span.structureBack.structure.structure}` : 'the start'
  const to = span.structureAhead ? `structure ${span.structureAhead.structure.structure}` : 'the end'
  const lengthM = metresWords(span.endM - span.startM)
  return warning(row, 'structures-missing',
    `Structures missing? The span from ${from} to ${to} of ${sectionWords(circuit, section)} is ${lengthM} long.`,
    'Import the structures in between, or leave it where the span is that long.')
}
