import type { IntakeRecord } from '@/lib/intake'
import { conductorPoint } from '../network/conductor'
import { standingOf, type StoredLine, type StoredLines } from '../network/stored-lines'

/** Longitude and latitude along a line, degrees. */
export type Course = [number, number][]

/** Enough to be drawn; a line of a whole region has more. */
const MOST_POINTS = 200

interface Named {
  circuit: string | null
  section: string | null
  from: string | null
  to: string | null
}

/** The stretch of line that a record is about, to be drawn where it has no position of its own; null where it names none that is known. */
export function courseOf(record: IntakeRecord, lines: StoredLines): Course | null {
  switch (record.recordType) {
    case 'line': {
      const [piece] = record.pieces
      return piece ? thinned(Array.from({ length: piece.length / 2 }, (_, i) => [piece[2 * i]!, piece[2 * i + 1]!])) : null
    }
    case 'reading':
      if (record.lon !== null) return null
      return stretch(lines, { circuit: record.circuitLabel, section: record.sectionLabel, from: record.structureBack, to: record.structureAhead }, true)
    case 'phasing':
    case 'extent': return stretch(lines, { circuit: record.circuit, section: null, from: record.structureFrom, to: record.structureTo }, false)
    case 'load': return stretch(lines, { circuit: record.circuit, section: record.section, from: null, to: null }, false)
    default: return null
  }
}

/** Between two structures in either order; `isSpan`: one structure means the span ahead of it or before it, and none means nothing. */
export function stretch(lines: StoredLines, { circuit, section, from, to }: Named, isSpan: boolean): Course | null {
  if (circuit === null || (isSpan && from === null && to === null)) return null
  const own = lines.find(circuit, section)
  const line = own.find((each) => [from, to].every((label) => label === null || standingOf(each, label)))
  if (!line) return null
  const [back, ahead] = [from, to].map((label) => (label === null ? undefined : standingOf(line, label)))
  let startM = back?.line_distance_m ?? 0
  let endM = ahead?.line_distance_m ?? line.lengthM
  if (isSpan && !ahead && back) endM = line.spans.find((span) => span.structure_back_id === back.structure_id)?.end_m ?? startM
  if (isSpan && !back && ahead) startM = line.spans.find((span) => span.structure_ahead_id === ahead.structure_id)?.start_m ?? endM
  return along(line, Math.min(startM, endM), Math.max(startM, endM))
}

function along(line: StoredLine, startM: number, endM: number): Course {
  const between = [...line.distancesM].filter((m) => m > startM && m < endM)
  return thinned([startM, ...between, endM].map((m) => {
    const { lon, lat } = conductorPoint(line, m)
    return [lon, lat]
  }))
}

function thinned(points: Course): Course {
  const step = Math.ceil(points.length / MOST_POINTS)
  return step <= 1 ? points : points.filter((_, i) => i % step === 0 || i === points.length - 1)
}
