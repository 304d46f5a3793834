import type { HistoryEntry } from '@/lib/contract/contract'
import { formatRatio } from '@/lib/units/format'

const CAUSE: Record<string, string> = {
  import: 'an import', undo: 'an undone import', review: 'a reading placed by hand', policy: 'a change of policy', engineer: 'an engineer’s decision',
}

export interface HistoryWords {
  what: string
  detail: string
}

const ratioWords = (ratio: number | null): string => (ratio === null ? 'no ratio' : `ratio ${formatRatio(ratio)}`)
const many = (count: number): string => (count === 1 ? '1 reading' : `${count} readings`)

/** One thing that happened to a splice, in words. */
export function historyWords(entry: HistoryEntry): HistoryWords {
  switch (entry.kind) {
    case 'assessment': {
      const { held, measured_class: measured, ratio, cause, file_name: file, policy_version: policy } = entry
      const evidence = held ? `the evidence says ${measured}, ${ratioWords(ratio)}` : ratioWords(ratio)
      return { what: `${entry.class}${held ? ', held' : ''}`, detail: `${evidence}; after ${CAUSE[cause] ?? cause}${file ? ` (${file})` : ''}, policy ${policy}` }
    }
    case 'notice':
      return {
        what: 'Urgent notice',
        detail: `${entry.class}, ${ratioWords(entry.ratio)}, ${entry.basis === 'reading' ? 'by its own numbers' : 'by the assessment'}; reading ${entry.reading_key} of ${entry.survey}`,
      }
    case 'told':
      return { what: 'Control room told', detail: `${entry.class}, reading ${entry.reading_key} of ${entry.survey}; noted by ${entry.by}` }
    case 'decision':
      return { what: 'Engineer’s decision', detail: `${entry.engineer}: ${entry.from} no longer stands, now ${entry.to}. “${entry.reason}” Noted by ${entry.by}` }
    case 'repair':
      return { what: 'Repaired before this', detail: `${many(entry.readings)} of ${entry.survey} marked after repair` }
    case 'undo':
      return {
        what: 'Import undone',
        detail: `${entry.file_name}${entry.readings > 0 ? `, ${many(entry.readings)} of this splice withdrawn` : ''}${entry.by ? `; by ${entry.by}` : ''}`,
      }
  }
}
