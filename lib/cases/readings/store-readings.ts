import { ownNumbersClass, type OwnNumbers } from '@/lib/condition'
import type { ReadingRecord } from '@/lib/intake'
import { reserveIds } from '@/lib/store/ids'
import { copyReadings, heldReadings, type NewReading } from '@/lib/store/reading-writes'
import { openSurvey } from '@/lib/store/surveys'
import type { ImportContext } from '../importing/context'
import { evidenceOf } from './evidence-of'
import { ReadingColumns } from './reading-columns'

/** So many rows are parsed while the database takes the rows before them. */
const CHUNK = 2_000

export interface StoredReadings {
  /** What placing and assessing need of those that are new. */
  readings: ReadingColumns
  /** Readings that are urgent or critical by their own numbers, by index. */
  urgent: Map<number, OwnNumbers>
  alreadyHeld: number
}

interface Survey { id: number; name: string; isNew: boolean }

/** Writes readings as they are parsed; what the survey holds already is counted, or refused where its values differ. */
export async function storeReadings(context: ImportContext, records: AsyncIterable<ReadingRecord>): Promise<StoredReadings> {
  const stored: StoredReadings = { readings: new ReadingColumns(), urgent: new Map(), alreadyHeld: 0 }
  const surveys = new Map<string, Survey>()
  let chunk: ReadingRecord[] = []
  let writing: Promise<void> = Promise.resolve()
  const write = async (taken: ReadingRecord[]): Promise<void> => {
    await writing
    writing = storeChunk(context, taken, surveys, stored)
    writing.catch(() => undefined) // awaited before the next chunk and at the end
  }
  for await (const record of records) {
    chunk.push(record)
    if (chunk.length < CHUNK) continue
    await write(chunk)
    chunk = []
  }
  await write(chunk)
  await writing
  return stored
}

async function storeChunk(
  context: ImportContext, records: readonly ReadingRecord[], surveys: Map<string, Survey>, stored: StoredReadings,
): Promise<void> {
  const { scope, tx, importId } = context
  const fresh: { record: ReadingRecord; survey: Survey }[] = []
  for (const [survey, own] of await bySurvey(context, records, surveys)) {
    const held = survey.isNew ? new Map() : await heldReadings(scope, survey.id, own.map((record) => record.readingKey), tx)
    for (const record of own) {
      const same = held.get(record.readingKey)
      if (!same) fresh.push({ record, survey })
      else if (same.contentHash === record.contentHash) stored.alreadyHeld++
      else context.issues.add(otherValues(record, survey.name), record.rawRow)
    }
  }
  const ids = await reserveIds(tx, 'reading', fresh.length)
  const rows = fresh.map(({ record, survey }, i): NewReading => ({ id: ids[i] ?? 0, surveyId: survey.id, record }))
  await Promise.all([copyReadings(scope, importId, rows, tx), keep(context, fresh, ids, stored)])
  await context.issues.flush(tx)
  context.progress('reading', stored.readings.count + stored.alreadyHeld)
}

async function bySurvey(context: ImportContext, records: readonly ReadingRecord[], surveys: Map<string, Survey>): Promise<Map<Survey, ReadingRecord[]>> {
  const groups = new Map<Survey, ReadingRecord[]>()
  for (const record of records) {
    const name = record.survey ?? context.survey
    let survey = surveys.get(name)
    if (!survey) surveys.set(name, survey = { name, ...await openSurvey(context.scope, name, context.importId, context.tx) })
    const group = groups.get(survey)
    if (group) group.push(record)
    else groups.set(survey, [record])
  }
  return groups
}

// Runs while the database takes the same rows.
async function keep(
  { policy }: ImportContext, fresh: readonly { record: ReadingRecord; survey: Survey }[], ids: readonly number[], stored: StoredReadings,
): Promise<void> {
  fresh.forEach(({ record, survey }, i) => {
    const index = stored.readings.add(record, ids[i] ?? 0, survey.name)
    const evidence = evidenceOf(record, ids[i] ?? 0)
    const own = evidence && ownNumbersClass(evidence, undefined, policy)
    if (own?.urgent) stored.urgent.set(index, own)
  })
}

const otherValues = (record: ReadingRecord, survey: string) => ({
  severity: 'error' as const, row: record.rowNo, field: 'reading_id', value: record.readingKey, code: 'duplicate-id',
  message: `Reading ${record.readingKey} of survey ${survey} is stored already with other values.`,
  remedy: 'Give this reading another reading_id, or undo the earlier import first where it was wrong.',
})
