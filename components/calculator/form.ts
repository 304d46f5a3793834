import type { Inputs } from './address'
import type { NumberKey } from './numbers'
import type { FieldKey } from './spoil'

/** What every field of the calculator is given. */
export interface FormProps {
  inputs: Inputs
  put(part: Partial<Inputs>): void
  /** What is wrong with a field or spoils it, by field. */
  beside: ReadonlyMap<FieldKey, string>
  /** Why what stands in a number's field is no number yet; null once it is one, or nothing. */
  noteTyped(name: NumberKey, fault: string | null): void
}
