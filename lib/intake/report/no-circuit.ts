/** A reading whose circuit is not settled: what it names itself, and where its position is, if it has one. */
export interface Unsettled {
  says_circuit?: string | null
  lon: number | null
  circuits: readonly { circuit: string }[]
}

/**
 * Why no circuit is known: what it names, and whether it has a position to look from. Lower case, for the middle of a sentence.
 * @param strange whether what it names is on no file; where that is not known, it is not said
 */
export function noCircuitWords({ says_circuit: named, lon }: Omit<Unsettled, 'circuits'>, strange: boolean): string {
  const what = named ? `names circuit ${named}${strange ? ', not on file' : ''}` : 'names no circuit'
  return `${what}; ${lon === null ? 'no position' : 'nothing lies in reach of its position'}`
}

/** The circuit that it names, where it is none of its candidates; null where it names one of them or none. */
export const strangeCircuit = ({ says_circuit: named, circuits }: Omit<Unsettled, 'lon'>): string | null =>
  (named && circuits.length > 0 && !circuits.some(({ circuit }) => circuit.toLowerCase() === named.toLowerCase()) ? named : null)
