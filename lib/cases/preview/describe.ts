import type { LengthText } from '@/lib/geo'
import type { IntakeRecord } from '@/lib/intake'
import type { PreviewRow } from '@/lib/contract/intake'
import { conductorPoint } from '../network/conductor'
import { placeDeclared } from '../network/place-declared'
import type { StoredLines } from '../network/stored-lines'
import type { PositionRow } from '@/lib/store/position'

export type Becomes = PreviewRow['becomes']

/** Places and lengths in the user's units. */
interface Words { position: (row: PositionRow) => string; length: LengthText }

/** What a record that is no reading becomes, in a sentence. */
export function describe(record: Exclude<IntakeRecord, { recordType: 'reading' }>, lines: StoredLines, { position, length }: Words): Becomes {
  switch (record.recordType) {
    case 'line': {
      const points = record.pieces.reduce((sum, piece) => sum + piece.length / 2, 0)
      const [lon, lat] = record.pieces[0] ?? []
      const name = record.section && record.section !== 'main' ? `${record.circuit}, section ${record.section}` : record.circuit
      return read(`Line of circuit ${name}, ${points} points${lines.find(record.circuit, record.section ?? 'main').length > 0 ? ', which is stored already' : ''}`, lon, lat)
    }
    case 'structure':
      return read(`Structure ${record.structure}${record.circuit === null ? ' on the lines that pass it' : ` of circuit ${record.circuit}`}`, record.lon, record.lat)
    case 'splice': {
      const place = placeDeclared(lines, record, length)
      if ('code' in place) return { state: 'rejected', text: place.message }
      const span = place.line.spans[place.span]
      const text = position({
        structure_back: labelOf(place.line, span?.structure_back_id), structure_ahead: labelOf(place.line, span?.structure_ahead_id), offset_m: place.offsetM,
        line_distance_m: place.lineDistanceM, phase: record.phase, position: record.position, circuit_side: record.circuitSide, subconductor: record.subconductor,
      })
      return read(`${record.kind === 'other' ? 'Splice' : sentence(record.kind)} ${record.spliceId ?? 'without a name'} of circuit ${record.circuit}, ${text}`, place.lon, place.lat)
    }
    case 'phasing':
      return read(`Phase ${record.phase} hangs ${record.position} from structure ${record.structureFrom} to ${record.structureTo} of circuit ${record.circuit}`)
    case 'crossing': {
      const line = lines.find(record.circuit, null)[0]
      const at = line && record.lineDistanceM <= line.lengthM ? conductorPoint(line, record.lineDistanceM) : undefined
      return read(`${sentence(record.kind)} ${record.name ?? ''} crosses circuit ${record.circuit} at line distance ${length(record.lineDistanceM)}`.replace('  ', ' '), at?.lon, at?.lat)
    }
    case 'extent': {
      const range = record.structureFrom === null && record.structureTo === null ? 'all of it' : `${record.structureFrom ?? 'its end'} to ${record.structureTo ?? 'its end'}`
      return read(`Patrol of circuit ${record.circuit}, ${range}, on ${record.surveyedOn}: ${record.result ?? 'no exception'}`)
    }
    case 'load':
      return read(`${record.currentA} A on ${record.section === null ? '' : `section ${record.section} of `}circuit ${record.circuit} at ${record.takenAt.toISOString()}${record.quality === null ? '' : `, ${record.quality}`}`)
  }
}

const read = (text: string, lon: number | null = null, lat: number | null = null): Becomes => ({ state: 'read', text, lon, lat })
const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

function labelOf(line: { standings: readonly { structure_id: number; label: string }[] }, id: number | null | undefined): string | null {
  return line.standings.find((s) => s.structure_id === id)?.label ?? null
}
