/** What a position is told from; what is not known is left out. */
export interface SplicePosition {
  section?: string
  structureBack?: string
  structureAhead?: string
  /** Ahead of the structure back, else of the section's start, metres. */
  offsetFromStructureM?: number
  /** Used where no structure is named, metres. */
  lineDistanceM?: number
  phase?: string
  position?: string
  circuitSide?: string
  subconductor?: string
}

/** Metres as the user reads lengths. */
export type LengthText = (lengthM: number) => string

const MAIN = 'main'

/** Nearer to a structure than this, 10 ft, a place is that of the structure: neither its own place nor a receiver in the field tells less. */
export const AT_STRUCTURE_M = 3.048

/**
 * A position in the trade's words: 'STR 45-46 + 123 m, phase A, left circuit'. Without a phase it says 'phase not
 * confirmed'; a structure that nobody named is never numbered.
 */
export function positionText(position: SplicePosition, length: LengthText): string {
  const { section, phase, subconductor, circuitSide } = position
  return [
    section !== undefined && section !== MAIN ? section : '',
    placeText(position, length),
    phase === undefined ? 'phase not confirmed' : `phase ${phase}`,
    position.position ?? '',
    subconductor === undefined ? '' : `subconductor ${subconductor}`,
    circuitSide === undefined ? '' : sideText(circuitSide),
  ].filter((part) => part !== '').join(', ')
}

function placeText({ structureBack, structureAhead, offsetFromStructureM, lineDistanceM }: SplicePosition, length: LengthText): string {
  const near = offsetFromStructureM !== undefined && Math.abs(offsetFromStructureM) < AT_STRUCTURE_M
  const ahead = offsetFromStructureM === undefined ? '' : near ? `, at STR ${structureBack}` : ` + ${length(offsetFromStructureM)}`
  if (structureBack !== undefined) return `STR ${structureBack}${structureAhead === undefined ? '' : `-${structureAhead}`}${ahead}`
  const along = lineDistanceM === undefined ? '' : `line distance ${length(lineDistanceM)}`
  if (structureAhead === undefined) return along
  return along === '' ? `before STR ${structureAhead}` : `before STR ${structureAhead}, ${along}`
}

const sideText = (side: string): string => (/circuit/i.test(side) ? side : `${side} circuit`)
