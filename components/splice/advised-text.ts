import { mvaOf } from '@/lib/condition/current-limit'
import { formatAllowed, formatAllowedMva } from '@/lib/units/format'

/**
 * '686 A (273 MVA)': what may be carried per phase, with the power at the circuit's voltage where that is known, both never rounded up.
 * @param lineA per phase
 * @param voltageKv between phases
 */
export const advisedText = (lineA: number, voltageKv: number | null): string =>
  (voltageKv === null ? formatAllowed(lineA) : `${formatAllowed(lineA)} (${formatAllowedMva(mvaOf(lineA, voltageKv))} MVA)`)
