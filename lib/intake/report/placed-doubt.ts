/** What a notice says of a place that was not told but worked out. */
interface Placed {
  /** Circuits that its own position leaves open beside the one its track put it on. */
  other_circuits?: string | null
  /** The phase is that of its splice alone. */
  phase_not_confirmed?: boolean | null
}

/** ', perhaps 2320 by its own position'; empty where its circuit is clear. */
export const perhapsAlso = ({ other_circuits: others }: Placed): string => (others ? `, perhaps ${others} by its own position` : '')

/** A settled position, and whether the phase in it was told. */
export const placedText = (position: string, { phase_not_confirmed: open }: Placed): string => (open ? `${position}, phase not confirmed` : position)
