import { FileRefusal, type Mapping, type RawRow, type RowAlarm } from '@/lib/intake'

interface Found {
  columns: string[]
  mapping: Mapping
  /** The first rows, as they stand in the file. */
  sample: readonly RawRow[]
  /** Of them, those whose numbers cannot wait, whatever the file is. */
  alarms: readonly RowAlarm[]
}

/** The file can be read, and its columns cannot be used as they are mapped: a person can say what they hold. */
export class MappingRefusal extends FileRefusal {
  /** @param words what is wrong with the columns, without the call that `message` begins with where something cannot wait */
  constructor(code: string, readonly words: string, remedy: string, readonly found: Found) {
    super(code, [...callOf(found.alarms), words].join(' '), remedy)
  }
}

/** What cannot wait comes before what is wrong with the columns. */
function callOf(alarms: readonly RowAlarm[]): string[] {
  if (alarms.length === 0) return []
  const worst = alarms.toSorted((a, b) => (b.ratio ?? 0) - (a.ratio ?? 0))[0]!
  const which = alarms.length === 1 ? `row ${worst.row} is urgent or critical` : `${alarms.length} rows are urgent or critical, row ${worst.row} most`
  const by = worst.ratio === null ? '' : `, by a ratio of ${worst.ratio.toFixed(2)}`
  return [`Call the control room now: by numbers that were not understood ${which}${by} (${worst.restsOn}). Nothing was stored, so operations does not see it.`]
}
