import { unitLabel } from '@/lib/units/convert'
import type { Field } from '../kinds/field'
import type { CellReport } from './cell-report'

/** What instruments show, and people write, where a value was more than could be measured. */
const OVER_RANGE = /^(?:o\.?l\.?|o\/l|ovld?|over[\s-]?(?:range|load|flow)?|[>≥]\s*\d.*)$/i

export const isOverRange = (text: string): boolean => text.length <= 24 && OVER_RANGE.test(text)

/**
 * A splice over range may be open, or a lead was off: which of them nobody can tell from the file, so it counts as the most that is read,
 * far beyond every edge, and its class stands provisionally until it is measured again. What stands behind '>' is the instrument's range and
 * not the splice, so it makes no difference.
 */
export function overRange(field: Field, text: string, report: CellReport): number | undefined {
  if (field.unit === 'uohm' && field.ifOutOfBounds === 'leave-out') {
    return report.refuseBounds('over-range', text, 'is over range, and no conductor is.', 'Check the contacts, and measure the conductor again.')
  }
  if (field.unit === 'uohm' && field.max !== undefined) {
    report.warn(
      'over-range', text, `is over range: the joint may be open, or a lead was off. It counts as ${field.max.toLocaleString('en-US')} ${unitLabel(field.unit)}, the most that is read, until it is measured again.`,
      'Call the control room about this splice, then measure it again with every contact checked. '
        + 'Where a lead was off, an engineer clears the class by name and with the reason on the splice\'s sheet, or independent good readings do: undoing this import takes the reading back and clears no class.',
    )
    return field.max
  }
  return report.refuse(
    'over-range', text, 'is over range: it was more than the instrument could show.',
    'Measure again in a wider range. Where it is a splice, call the control room now: it may be failing.',
  )
}
