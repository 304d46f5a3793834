import { offsetMeasure, lineDistanceMeasure, measureText } from '@/lib/units/format'
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

/** How a position reads in the trade's words, in the user's units and phase letters. */
export async function positionTextOf(scope: Scope, db: Db = database()): Promise<(row: PositionRow) => string> {
  const { unit_system: system, phase_letters: letters } = await getSettings(scope, db)
  return (row) => {
    const length = row.offset_m === null ? null : measureText(offsetMeasure(row.offset_m, system))
    const structures = row.structure_back ? `STR ${row.structure_back}${row.structure_ahead ? `-${row.structure_ahead}` : ''}${length ? ` + ${length}` : ''}` : null
    const distance = row.line_distance_m === null ? 'place not known' : `line distance ${measureText(lineDistanceMeasure(row.line_distance_m, system))}`
    const phase = row.phase ? `phase ${letters[row.phase as keyof typeof letters] ?? row.phase}` : [row.position, 'phase not confirmed'].filter(Boolean).join(', ')
    return [structures ?? distance, phase, row.circuit_side && `${row.circuit_side} circuit`, row.subconductor && `subconductor ${row.subconductor}`]
      .filter(Boolean).join(', ')
  }
}
