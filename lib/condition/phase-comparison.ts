/** A splice on one phase as one flight saw it. `lineCurrentA` is that of its phase. */
export interface PhasePicture {
  phase: string
  spliceTempC: number
  lineCurrentA?: number
}

export interface PhaseComparison {
  /** Over the mean of the other phases, K. */
  overOthersK: number
  /** 'unequal': the phases carried different currents and their temperatures cannot be compared as they are. */
  currents: 'equal' | 'unequal' | 'not-known'
}

/** Currents that differ by no more than this are taken as balanced (our own choice, no source). */
const BALANCED_SHARE = 0.1

/**
 * The same fitting on another phase, in the same span and weather: supporting evidence beside the ratio, which makes no class by itself, and
 * only where the phases carry the same current (common practice, no source). Null without another phase.
 */
export function comparePhases(own: PhasePicture, others: readonly PhasePicture[]): PhaseComparison | null {
  if (others.length === 0) return null
  const meanC = others.reduce((sum, { spliceTempC }) => sum + spliceTempC, 0) / others.length
  return { overOthersK: own.spliceTempC - meanC, currents: balance([own, ...others]) }
}

function balance(pictures: readonly PhasePicture[]): PhaseComparison['currents'] {
  const currentsA: number[] = []
  for (const { lineCurrentA } of pictures) {
    if (lineCurrentA === undefined) return 'not-known'
    currentsA.push(lineCurrentA)
  }
  const least = Math.min(...currentsA)
  return Math.max(...currentsA) - least <= BALANCED_SHARE * least ? 'equal' : 'unequal'
}
