import { ADVICE_CAUTION, CLASS_WORDS } from '@/lib/condition/words'
import type { SpliceDetail } from '@/lib/contract/contract'
import { CONTRADICTION_CAUSES, type ContradictionCause } from '@/lib/contract/decision'

/** What an engineer's decision does and what it does not, before it is recorded. */
export function decisionSentences({ class: shown, measured_class: measured }: Pick<SpliceDetail, 'class' | 'measured_class'>): string[] {
  const falls = `You say that the ${shown} finding no longer stands. The splice is then shown as the evidence has it: ${CLASS_WORDS[measured].toLowerCase()}.`
  return [
    measured === 'unknown' ? `${falls} Nothing usable is measured then; not known is not electrically sound.` : falls,
    'It speaks of findings measured before now. One that is measured later stands and calls the control room again.',
    'It lifts no limit, cancels no repair and tells nobody: tell operations what you decided.',
    `Your name, the cause and your reason stay in the history of the splice for good. ${ADVICE_CAUTION}`,
  ]
}

/** What may explain that a later reading contradicts the finding, as it is asked and as the history has it. */
export const CAUSE_WORDS: Record<ContradictionCause, string> = {
  'electrodes': 'The electrodes sat wrong or slipped',
  'wrong-splice': 'Another splice was read',
  'sides-exchanged': 'The sides were exchanged',
  'entered-wrongly': 'The reading was entered wrongly: unit, figure or splice',
  'repaired': 'The splice was repaired between the readings',
  'other': 'Something else',
}

export const CAUSES = CONTRADICTION_CAUSES.map((value) => ({ value, label: CAUSE_WORDS[value] }))

/** 'The electrodes sat wrong or slipped'; of another cause the engineer's own words. Empty for decisions from before it was asked for. */
export const causeText = ({ cause, cause_text: text }: { cause: ContradictionCause | null; cause_text: string | null }): string =>
  [cause === null || (cause === 'other' && text) ? '' : CAUSE_WORDS[cause], text ?? ''].filter(Boolean).join(': ')
