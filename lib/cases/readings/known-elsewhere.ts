import { KNOWN_IN_OTHER_SURVEY } from '@/lib/intake'
import type { StoredReading } from '@/lib/store/same-readings'
import { formatNumber } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import type { Issue } from '../importing/issue-log'

/** The survey and import that hold a reading already, in words. */
export const heldBy = ({ survey, import_id: id, file_name: file, imported_at: at }: StoredReading, timeZone: string): string =>
  `survey ${survey}, imported on ${formatDate(at.getTime(), timeZone)} as import ${id} (${file})`

/** Readings of a file that another survey holds, counted by the import that brought them. */
export class KnownElsewhere {
  private readonly byImport = new Map<string, { reading: StoredReading; count: number; firstRow: number }>()

  add(reading: StoredReading, row: number): void {
    const key = `${reading.import_id} ${reading.survey_id}`
    const known = this.byImport.get(key)
    if (known) known.count++
    else this.byImport.set(key, { reading, count: 1, firstRow: row })
  }

  /** One remark on the file for each import that brought the same readings. */
  issues(timeZone: string): Issue[] {
    return [...this.byImport.values()].map(({ reading, count, firstRow }) => ({
      severity: 'warning', row: 0, field: 'survey', value: reading.survey, code: KNOWN_IN_OTHER_SURVEY,
      message: `File: ${count === 1 ? `the reading of row ${firstRow} is` : `${formatNumber(count, 0)} readings are`} stored already, value for value, under `
        + `${heldBy(reading, timeZone)}${count === 1 ? '' : `; the first is row ${firstRow}`}. ${count === 1 ? 'It is' : 'They are'} not stored again, for one measurement counts once `
        + 'whatever its survey is called.',
      remedy: 'Nothing needs to be done where it is the same survey. Other measurements tell themselves apart by their time: fill taken_at. '
        + 'Where the earlier import was wrong, undo it, then import this file again.',
    }))
  }
}
