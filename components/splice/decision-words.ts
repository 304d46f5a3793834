import { ADVICE_CAUTION, CLASS_WORDS } from '@/lib/condition/words'
import type { SpliceDetail } from '@/lib/contract/contract'

/** What an engineer's decision does and what it does not, before it is recorded. */
export function decisionSentences({ class: shown, measured_class: measured }: Pick<SpliceDetail, 'class' | 'measured_class'>): string[] {
  const falls = `You say that the ${shown} finding no longer stands. The splice is then shown as the evidence has it: ${CLASS_WORDS[measured].toLowerCase()}.`
  return [
    measured === 'unknown' ? `${falls} Nothing usable is measured then; not known is not electrically sound.` : falls,
    'It speaks of findings measured before now. One that is measured later stands and calls the control room again.',
    'It lifts no limit, cancels no repair and tells nobody: tell operations what you decided.',
    `Your name and reason stay in the history of the splice for good. ${ADVICE_CAUTION}`,
  ]
}
