import { comparePhases, type PhaseComparison } from '@/lib/condition/phase-comparison'
import type { OtherPhasesJson } from '@/lib/contract/other-phases'
import { formatTemperature, formatTemperatureDifference, type UnitSystem } from '@/lib/units/format'
import type { PhaseLetters } from './position'

const CURRENTS: Record<PhaseComparison['currents'], string> = {
  'equal': 'The phases carried about the same current.',
  'unequal': 'The phases carried different currents, so this cannot be compared as it is.',
  'not-known': 'Their currents were not all noted; balanced phases are assumed.',
}

/** What one picture is beside the other phases of its span: supporting evidence, which makes no class by itself. */
export function otherPhasesText({ splice_temp_c: ownC, line_current_a: ownA, others }: OtherPhasesJson, system: UnitSystem, letters: PhaseLetters = {}): string {
  const compared = comparePhases({ phase: '', spliceTempC: ownC, lineCurrentA: ownA ?? undefined }, others.map((other) => ({
    phase: other.phase, spliceTempC: other.splice_temp_c, lineCurrentA: other.line_current_a ?? undefined,
  })))
  if (!compared) return ''
  const listed = others.map((other) => `phase ${letters[other.phase] ?? other.phase} ${formatTemperature(other.splice_temp_c, system)}`).join(', ')
  const size = formatTemperatureDifference(Math.abs(compared.overOthersK), system)
  const beside = /^0\.0 /.test(size) ? 'as warm as' : `${size} ${compared.overOthersK > 0 ? 'hotter than' : 'cooler than'}`
  return `In this span on the same flight: ${listed}; this one is ${beside} ${others.length === 1 ? 'that one' : 'their mean'}. `
    + `${CURRENTS[compared.currents]} Supporting evidence only.`
}
