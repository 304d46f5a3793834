import type { UnitSystem } from '@/lib/units/format'
import { localText } from '@/lib/units/local-text'
import { spell } from '@/lib/units/spelling'

/** A sentence of the working in the reader's spelling; its quantities stay in SI, as the figures beside it are. */
export const siText = (text: string, system: UnitSystem): string => spell(localText(text, 'metric'), system)

/** As many digits as it takes to follow a step by hand. */
const DIGITS = 5
const SUPERSCRIPT: Record<string, string> = {
  '-': '⁻', 0: '⁰', 1: '¹', 2: '²', 3: '³', 4: '⁴', 5: '⁵', 6: '⁶', 7: '⁷', 8: '⁸', 9: '⁹',
}

/** A number of the working with its unit: '53.000 µΩ' as 53, small ones by powers of ten: '7.2830 × 10⁻⁵ Ω/m'. */
export function valueText({ value, unit }: { value: number; unit: string }): string {
  return [numberText(value), unit].filter((part) => part !== '').join(' ')
}

function numberText(value: number): string {
  const size = Math.abs(value)
  if (size !== 0 && (size < 1e-3 || size >= 1e7)) {
    const [digits = '', power = ''] = value.toExponential(DIGITS - 1).split('e')
    return `${minus(digits)} × 10${power.replace('+', '').split('').map((c) => SUPERSCRIPT[c] ?? c).join('')}`
  }
  return minus(String(Number(value.toPrecision(DIGITS))))
}

const minus = (text: string): string => text.replace('-', '−')
