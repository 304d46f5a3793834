import type { ReviewAct, ReviewActKind, ReviewActPreview, StayReason } from '@/lib/contract/review-acts'
import { count, many } from '../words'

/** Why a reading stays, after 'n stay in review: '. */
const STAYS: Readonly<Record<StayReason, string>> = {
  urgent: 'urgent or critical by their own numbers',
  'no-candidate': 'without a line in reach',
  'similar-circuits': 'about as likely on another circuit',
  'similar-places': 'about as likely at another place of the line',
  'several-splices': 'with several splices in reach',
  'place-not-known': 'without a place along the span',
  'beside-another': 'beside a splice, or another of these readings, that may be the same',
  'line-changed': 'on a line or splice that has changed since',
}

/** '12 stay in review: 8 about as likely on another circuit, 4 urgent or critical by their own numbers.' Empty where none stays. */
export function staysText({ stays }: Pick<ReviewActPreview, 'stays'>): string {
  const total = stays.reduce((sum, one) => sum + one.count, 0)
  if (total === 0) return ''
  return `${count(total)} ${total === 1 ? 'stays' : 'stay'} in review: ${stays.map((one) => `${count(one.count)} ${STAYS[one.why]}`).join(', ')}.`
}

export function doesText(action: ReviewActKind, { settles, new_splices: fresh }: Pick<ReviewActPreview, 'settles' | 'new_splices'>): string {
  if (settles === 0) return action === 'set-aside' ? 'None of these readings can be set aside at once.' : 'None of these readings has one best candidate.'
  if (action === 'set-aside') return `${many(settles, 'reading')} would be set aside.`
  return `${many(settles, 'reading')} would be placed on the best candidate of each${fresh > 0 ? `, ${count(fresh)} on a new splice each` : ''}:`
}

/** What an act did and how it stands. */
export function actText({ action, settled, done_at: doneAt, undone_at: undoneAt, undone_by: undoneBy, restored, failure, reason, left_waiting: left }: ReviewAct): string {
  if (failure !== null && doneAt === null) return `Nothing was changed: ${failure}`
  if (doneAt === null) return action === 'set-aside' ? 'Setting aside' : 'Placing'
  const did = action === 'set-aside' ? `${count(settled ?? 0)} set aside: ${reason ?? ''}` : `${count(settled ?? 0)} placed on the best candidate of each`
  const stayed = (left ?? 0) > 0 ? `; ${count(left ?? 0)} stayed` : ''
  return undoneAt === null ? did + stayed : `${did}${stayed}. Taken back by ${undoneBy}: ${count(restored ?? 0)} wait again`
}
