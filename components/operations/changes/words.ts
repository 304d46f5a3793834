import { CAUSE } from '@/components/splice/history-words'
import type { ChangeKind, ChangePart, ItemOf, PartOf } from '@/lib/contract/changes'
import { formatNumber } from '@/lib/units/format'

const many = (count: number, one: string, several = `${one}s`): string => `${formatNumber(count, 0)} ${count === 1 ? one : several}`

/** What a kind of change is called over its list, and beside its number. */
export const KIND_WORDS: Record<ChangeKind, { title: string; noun(count: number): string }> = {
  class: { title: 'Classes that changed', noun: (n) => (n === 1 ? 'class changed' : 'classes changed') },
  notice: { title: 'Urgent notices, raised or told', noun: (n) => (n === 1 ? 'urgent notice' : 'urgent notices') },
  conflict: { title: 'Readings that contradict each other', noun: (n) => (n === 1 ? 'conflict' : 'conflicts') },
  advised: { title: 'Advised currents that changed', noun: (n) => (n === 1 ? 'advised current changed' : 'advised currents changed') },
  limit: { title: 'Current limits proposed, agreed, accepted, lifted', noun: (n) => (n === 1 ? 'step of a limit' : 'steps of limits') },
  cleared: { title: 'Held classes that an engineer cleared', noun: (n) => (n === 1 ? 'class cleared' : 'classes cleared') },
  repair: { title: 'Readings after repair', noun: (n) => (n === 1 ? 'splice read after repair' : 'splices read after repair') },
  reading: { title: 'Readings that came in', noun: (n) => (n === 1 ? 'reading' : 'readings') },
  waiting: { title: 'Placements waiting now', noun: (n) => (n === 1 ? 'placement waits now' : 'placements wait now') },
}

type Directions = PartOf<'class'>['directions']

/** '3 worse, 1 not known any more, 2 better, 40 first known'; what there is none of is left out. */
export const directionsText = ({ rise, lost, fall, new: fresh }: Directions): string => [
  rise > 0 && `${formatNumber(rise, 0)} worse`, lost > 0 && `${formatNumber(lost, 0)} not known any more`, fall > 0 && `${formatNumber(fall, 0)} better`,
  fresh > 0 && `${formatNumber(fresh, 0)} first known, electrically sound`,
].filter(Boolean).join(', ')

/** Whether anything changed; what waits now is no change. */
export const hasChanges = (parts: readonly ChangePart[]): boolean => parts.some(({ kind, count }) => kind !== 'waiting' && count > 0)

/** '3 classes (2 worse), 210 readings', '2 classes worse', or that there is nothing of either. First looks that found a splice sound are among the readings. */
export function gistText(classes: PartOf<'class'> | undefined, readings: PartOf<'reading'> | undefined): string {
  const { rise = 0, lost = 0, fall = 0 } = classes?.directions ?? {}
  const changed = rise + lost + fall
  const parts = [
    changed > 0 && `${many(changed, 'class', 'classes')}${rise === 0 ? '' : rise === changed ? ' worse' : ` (${formatNumber(rise, 0)} worse)`}`,
    readings && readings.count > 0 && many(readings.count, 'reading'),
  ].filter(Boolean)
  return parts.length > 0 ? parts.join(', ') : 'no class, no readings'
}

/** 'after an import (spring.csv)', 'after an engineer’s decision'. */
export const causeWords = ({ cause, file_name: file }: Pick<ItemOf<'class'>, 'cause' | 'file_name'>): string =>
  `After ${CAUSE[cause] ?? cause}${file === null ? '' : `: ${file}`}`

/** 'After a policy: version 3, set by R. Castellan: “…”'. */
export function advisedCause({ policy, ...of }: Pick<ItemOf<'advised'>, 'cause' | 'file_name' | 'policy'>): string {
  if (!policy) return causeWords(of)
  return `${causeWords(of)}: version ${policy.version}, ${policy.set_by === null ? 'set by nobody named' : `set by ${policy.set_by}`}${policy.note === null ? '' : `: “${policy.note}”`}`
}

const STEPS: Record<ItemOf<'limit'>['step'], string> = { proposed: 'Proposed', agreed: 'Agreed', accepted: 'Accepted with read back', lifted: 'Lifted' }
export const stepWords = (step: ItemOf<'limit'>['step']): string => STEPS[step]

/** '1,240 placed, 3 wait for review, 1 set aside'; of an undone import that they count for nothing. */
export function readingsText({ undone, placed, review, set_aside: aside }: ItemOf<'reading'>): string {
  if (undone) return 'import undone, they count for nothing'
  return [placed > 0 && `${formatNumber(placed, 0)} placed`, review > 0 && `${formatNumber(review, 0)} for review`, aside > 0 && `${formatNumber(aside, 0)} set aside`].filter(Boolean).join(', ')
}
