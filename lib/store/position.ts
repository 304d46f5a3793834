import { positionText, type LengthText } from '@/lib/geo'
import { alongMeasure, measureText, offsetMeasure, type UnitSystem } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'
import type { Scope } from './scope'
import { getSettings } from './settings'
import { database, type Db } from './transaction'

/** Where a splice or a reading is, as rows have it. */
export interface PositionRow {
  structure_back: string | null
  structure_ahead: string | null
  offset_m: number | null
  line_distance_m: number | null
  phase: string | null
  position: string | null
  circuit_side: string | null
  subconductor: string | null
}

/** How lengths along a line read in the user's units. */
export const lengthTextOf = (system: UnitSystem): LengthText => (lengthM) => measureText(offsetMeasure(lengthM, system))

/** How a position reads in the trade's words, in the user's units and phase letters. */
export async function positionTextOf(scope: Scope, db: Db = database()): Promise<(row: PositionRow) => string> {
  const { unit_system: system, phase_letters: letters } = await getSettings(scope, db)
  const phaseOf = (phase: string): string => (phase === 'A' || phase === 'B' || phase === 'C' ? letters[phase] : phase)
  return (row) => positionText({
    structureBack: row.structure_back ?? undefined, structureAhead: row.structure_ahead ?? undefined, offsetFromStructureM: row.offset_m ?? undefined,
    lineDistanceM: row.line_distance_m ?? undefined, phase: row.phase === null ? undefined : phaseOf(row.phase), position: row.position === null ? undefined : spell(row.position, system),
    circuitSide: row.circuit_side ?? undefined, subconductor: row.subconductor ?? undefined,
  }, (lengthM) => measureText(alongMeasure(lengthM, system)))
}
