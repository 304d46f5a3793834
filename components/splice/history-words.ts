import type { HistoryEntry } from '@/lib/contract/history'
import { formatAllowed, formatRatio } from '@/lib/units/format'
import { formatTime } from '@/lib/units/time'
import { causeText } from './decision-words'
import type { Grouped } from './history-groups'

export const CAUSE: Record<string, string> = {
  import: 'an import', undo: 'an undone import', review: 'a reading placed by hand', policy: 'a change of policy', engineer: 'an engineer’s decision',
}

const LIMIT_STEPS: Record<Extract<HistoryEntry, { kind: 'limit' }>['step'], string> = {
  proposed: 'Limit proposed', agreed: 'Limit agreed by the rating engineer', accepted: 'Limit accepted by the operator, read back', lifted: 'Limit lifted',
  withdrawn: 'Proposed limit withdrawn',
}

export interface HistoryWords {
  what: string
  detail: string
}

const ratioWords = (ratio: number | null, infrared: number | null): string =>
  ratio !== null ? `ratio ${formatRatio(ratio)}` : infrared !== null ? `ratio ${formatRatio(infrared)} by infrared` : 'no ratio'
const basisWords = (basis: 'reading' | 'assessment' | 'row', count: number): string => {
  if (basis === 'row') return 'by a row that was not read at first'
  return basis === 'assessment' ? 'by the assessment' : count === 1 ? 'by its own numbers' : 'by their own numbers'
}
/** 'told Desk 2 at 03:10 MDT; ', and nothing where only the noting is known. */
const callWords = ({ told_to: whom, told_at: at }: Extract<HistoryEntry, { kind: 'told' }>, timeZone: string): string =>
  (whom === null || at === null ? '' : `told ${whom} at ${formatTime(Date.parse(at), timeZone)}; `)
const many = (count: number): string => (count === 1 ? '1 reading' : `${count} readings`)

/** 'ratio 4.90', or of several readings 'ratio 4.81 to 4.99'. */
function ratiosWords(ratios: readonly (number | null)[]): string {
  const known = ratios.filter((ratio) => ratio !== null)
  const [least, most] = [Math.min(...known), Math.max(...known)].map((ratio) => formatRatio(ratio))
  return known.length === 0 ? 'no ratio' : least === most ? `ratio ${least}` : `ratio ${least} to ${most}`
}

/** 'reading R1 of Spring walk', 'readings R1, R2 and R3 of Spring walk'. */
function readingsWords(group: Grouped): string {
  const told = group.filter((entry) => entry.kind === 'notice' || entry.kind === 'told')
  const keys = told.map((entry) => entry.reading_key)
  return `${keys.length < 2 ? 'reading' : 'readings'} ${listWords(keys)} of ${told[0]?.survey}`
}

const listWords = (words: readonly string[]): string => (words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`)

/** What happened to a splice, in words: one thing, or several notices or calls that differ by their reading alone. */
export function historyWords(group: Grouped, timeZone: string): HistoryWords {
  const [entry] = group
  switch (entry.kind) {
    case 'assessment': {
      const { held, measured_class: measured, ratio, infrared_ratio: infrared, cause, file_name: file, policy_version: policy } = entry
      const evidence = held ? `the evidence says ${measured}, ${ratioWords(ratio, infrared)}` : ratioWords(ratio, infrared)
      return { what: `${entry.class}${held ? ', held' : ''}`, detail: `${evidence}; after ${CAUSE[cause] ?? cause}${file ? ` (${file})` : ''}, policy ${policy}` }
    }
    case 'notice':
      return {
        what: 'Urgent notice',
        detail: `${entry.class}, ${ratiosWords(group.map((one) => (one.kind === 'notice' ? one.ratio : null)))}, ${basisWords(entry.basis, group.length)}; ${readingsWords(group)}`,
      }
    case 'told':
      return { what: 'Control room told', detail: `${entry.class}, ${readingsWords(group)}; ${callWords(entry, timeZone)}noted by ${entry.by}` }
    case 'decision':
      return { what: 'Engineer’s decision', detail: [
        `${entry.engineer}: ${entry.from} no longer stands, now ${entry.to}.`, causeText(entry) && `${causeText(entry)}.`, `“${entry.reason}” Noted by ${entry.by}`,
      ].filter(Boolean).join(' ') }
    case 'repair':
      return { what: 'Repaired before this', detail: `${many(entry.readings)} of ${entry.survey} marked after repair` }
    case 'limit':
      return { what: LIMIT_STEPS[entry.step], detail: `${formatAllowed(entry.line_a)} per phase, by ${entry.by}${entry.why === null ? '' : `: ${entry.why}`}` }
    case 'undo':
      return {
        what: 'Import undone',
        detail: `${entry.file_name}${entry.readings > 0 ? `, ${many(entry.readings)} of this splice withdrawn` : ''}${entry.by ? `; by ${entry.by}` : ''}`,
      }
  }
}
