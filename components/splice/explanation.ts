import { ENGINE_VERSION, explain, type Assessment } from '@/lib/condition'
import { ADVICE_CAUTION } from '@/lib/condition/words'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { UnitSystem } from '@/lib/units/format'

export interface SheetWords {
  headline: string
  reasons: string[]
  nextActions: string[]
  flags: { code: string; text: string }[]
  caution: string
}

/**
 * The assessment in the reader's own units. One that another version of the engine wrote keeps the words it was sent with, in the
 * utility's units: this page may not know its codes.
 */
export function sheetWords(detail: SpliceDetail, system: UnitSystem, timeZone: string): SheetWords | null {
  const text = detail.assessment_text
  if (!text) return null
  if (detail.assessment?.engineVersion !== ENGINE_VERSION) {
    return { headline: text.headline, reasons: text.reasons, nextActions: text.next_actions, flags: text.flags, caution: ADVICE_CAUTION }
  }
  return explain(detail.assessment as unknown as Assessment, {
    unitSystem: system, timeZone, shown: {
      class: detail.class, held: detail.held, foundAtMs: detail.found_at === null ? undefined : Date.parse(detail.found_at),
      foundRatio: detail.held ? (detail.ratio ?? undefined) : undefined,
    },
  })
}
