import type { Inputs } from './address'
import { NUMBERS, type NumberKey } from './numbers'
import type { FieldKey } from './spoil'

const OTHER_LABELS: Partial<Record<FieldKey, string>> = { conductor: 'Conductor, code word', on: 'Read on' }

const labelOf = (key: FieldKey): string => (key in NUMBERS ? NUMBERS[key as NumberKey].label : OTHER_LABELS[key] ?? key)

/**
 * What was written and is not used, one sentence each, as 'Side A: ...'.
 * @param faults of what stands in the address
 * @param typed of what stands in a field and is no number; a field cleared or filled from elsewhere since has a value or none there
 */
export function refusedOf(faults: ReadonlyMap<FieldKey, string>, typed: ReadonlyMap<NumberKey, string>, inputs: Inputs): string[] {
  const noNumbers = [...typed].filter(([key]) => inputs[key] === null && !faults.has(key))
  return [...faults, ...noNumbers].map(([key, fault]) => `${labelOf(key)}: ${fault}`)
}
