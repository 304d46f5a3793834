import type { Mapping, ReadingRecord } from '@/lib/intake'
import { READ_OTHERWISE } from '@/lib/intake/report/codes'
import { importsOfFile, readingsMeasuredSo, readingsOfRows, type Measurement, type OtherReading } from '@/lib/store/same-readings'
import type { Scope } from '@/lib/store/scope'
import type { Db } from '@/lib/store/transaction'
import { readsOtherwise } from '../import-identity'
import type { Issue } from '../importing/issue-log'

/** What is asked for: the import's own, or 0 of a file that is only looked at. */
interface Asked { scope: Scope; tx: Db; importId: number; file: { name: string; mapping: Mapping } }

export interface OfSurvey { record: ReadingRecord; survey: { id: number; isNew: boolean } }

/** Finds measurements that are stored already in other values: the file was read with another mapping, or is another export of the same survey. */
export class ReadOtherwise {
  private earlier: Promise<number[]> | null = null

  constructor(private readonly context: Asked) {}

  /** Of these readings, the stored ones of the same measurement. */
  async find(these: readonly OfSurvey[]): Promise<Map<ReadingRecord, OtherReading>> {
    const { scope, tx, importId } = this.context
    const found = new Map<ReadingRecord, OtherReading>()
    const imports = await (this.earlier ??= this.otherwiseRead())
    const ofRows = imports.length === 0 ? null : await readingsOfRows(scope, imports, these.map(({ record }) => record.rawRow), tx)
    const open: { record: ReadingRecord; measured: Measurement }[] = []
    for (const { record, survey } of these) {
      const one = ofRows?.get(record.rawRow)
      const measured = survey.isNew ? null : measurementOf(record, survey.id)
      if (one) found.set(record, one)
      else if (measured) open.push({ record, measured })
    }
    const measuredSo = await readingsMeasuredSo(scope, importId, open.map(({ measured }) => measured), tx)
    for (const [at, one] of measuredSo) found.set(open[at]!.record, one)
    return found
  }

  private async otherwiseRead(): Promise<number[]> {
    const { scope, tx, importId, file } = this.context
    const imports = await importsOfFile(scope, file.name, importId, tx)
    return imports.filter(({ mapping }) => mapping !== null && readsOtherwise(mapping, file.mapping)).map(({ id }) => id)
  }
}

/** A reading's id of its own says that it is another measurement; without a moment and a value nothing says that it is the same. */
function measurementOf(record: ReadingRecord, surveyId: number): Measurement | null {
  const { takenAt, sideAUohm, sideBUohm, spliceTempC } = record
  if (record.readingKey !== record.contentHash || takenAt === null || (sideAUohm ?? sideBUohm ?? spliceTempC) === null) return null
  return { ...record, surveyId, takenAt }
}

/** Why its row is not stored: one measurement is evidence once, and which of the two is right only a person can say. */
export const readOtherwiseIssue = ({ rowNo }: ReadingRecord, { import_id: id, file_name: file }: OtherReading): Issue => ({
  severity: 'error', row: rowNo, value: String(id), code: READ_OTHERWISE,
  message: `This measurement is already held, read with another mapping or other values, by import ${id} (${file}): one measurement is evidence once.`,
  remedy: `Undo import ${id} first, then import this file again. Where it is another measurement, give each row a reading_id of its own.`,
})
