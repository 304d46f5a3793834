import { ownNumbersClass, type OwnNumbers } from '@/lib/condition'
import type { ReadingRecord } from '@/lib/intake'
import type { UnderWay } from '@/lib/store/copy'
import { reserveIdsInARow } from '@/lib/store/ids'
import { ReadingRows } from '@/lib/store/reading-rows'
import { heldReadings } from '@/lib/store/reading-writes'
import { openSurvey } from '@/lib/store/surveys'
import type { Batches, ImportContext } from '../importing/context'
import { evidenceOf } from './evidence-of'
import { ReadingColumns } from './reading-columns'

/** So many rows are parsed and encoded while the database takes the rows before them: no more bytes than a connection swallows at once. */
const CHUNK = 600
/** Ids are taken in blocks of so many. */
const IDS = 6_000
/** Keys are looked up so many at a time. */
const LOOKED_UP = 2_000

export interface StoredReadings {
  /** What placing and assessing need of those that are new. */
  readings: ReadingColumns
  /** Readings that are urgent or critical by their own numbers, by index. */
  urgent: Map<number, OwnNumbers>
  alreadyHeld: number
}

interface Survey { id: number; name: string; isNew: boolean }

/** Writes readings as they are parsed; what the survey holds already is counted, or refused where its values differ. */
export async function storeReadings(context: ImportContext, batches: Batches<ReadingRecord>): Promise<StoredReadings> {
  const writer = new Writer(context)
  const surveys = new Map<string, Survey>()
  let doubtful: { record: ReadingRecord; survey: Survey }[] = []
  for await (const batch of batches) {
    for (const record of batch) {
      const name = record.survey ?? context.survey
      let survey = surveys.get(name)
      if (!survey) surveys.set(name, survey = { name, ...await openSurvey(context.scope, name, context.importId, context.tx) })
      if (!survey.isNew) doubtful.push({ record, survey })
      else if (!writer.write(record, survey)) await writer.makeRoomAndWrite(record, survey)
    }
    if (doubtful.length < LOOKED_UP) continue
    await writeNew(context, writer, doubtful)
    doubtful = []
  }
  await writeNew(context, writer, doubtful)
  await writer.end()
  return writer.stored
}

/** Of readings whose survey was there before, writes those that it does not hold. */
async function writeNew({ scope, tx, issues }: ImportContext, writer: Writer, doubtful: readonly { record: ReadingRecord; survey: Survey }[]): Promise<void> {
  const keys = new Map<Survey, string[]>()
  for (const { record, survey } of doubtful) {
    const own = keys.get(survey)
    if (own) own.push(record.readingKey)
    else keys.set(survey, [record.readingKey])
  }
  const held = new Map<Survey, Awaited<ReturnType<typeof heldReadings>>>()
  for (const [survey, own] of keys) held.set(survey, await heldReadings(scope, survey.id, own, tx))
  for (const { record, survey } of doubtful) {
    const same = held.get(survey)?.get(record.readingKey)
    if (!same) {
      if (!writer.write(record, survey)) await writer.makeRoomAndWrite(record, survey)
    } else if (same.contentHash === record.contentHash) writer.stored.alreadyHeld++
    else issues.add(otherValues(record, survey.name), record.rawRow)
  }
}

/** Two sets of rows take turns: one is filled while the database takes the other. */
class Writer {
  readonly stored: StoredReadings = { readings: new ReadingColumns(), urgent: new Map(), alreadyHeld: 0 }
  private rows: ReadingRows
  private sending: ReadingRows
  /** Ids that are reserved and not yet given. */
  private nextId = 0
  private endId = 0
  private underWay: UnderWay = { done: Promise.resolve() }

  constructor(private readonly context: ImportContext) {
    this.rows = new ReadingRows(context.scope, context.importId, context.tx)
    this.sending = new ReadingRows(context.scope, context.importId, context.tx)
  }

  /** False where there is no room: the rows before have to be sent first. */
  write(record: ReadingRecord, survey: Survey): boolean {
    const { rows, stored } = this
    if (this.nextId === this.endId || rows.count === CHUNK || rows.isTooNarrowFor(record)) return false
    const id = this.nextId++
    rows.add(id, survey.id, record)
    const index = stored.readings.add(record, id, survey)
    const evidence = evidenceOf(record, id)
    const own = evidence && ownNumbersClass(evidence, undefined, this.context.policy)
    if (own?.urgent) stored.urgent.set(index, own)
    return true
  }

  async makeRoomAndWrite(record: ReadingRecord, survey: Survey): Promise<void> {
    await this.send()
    if (this.rows.isTooNarrowFor(record)) await this.rows.widenFor(record)
    this.write(record, survey)
  }

  async end(): Promise<void> {
    await this.send()
    await this.underWay.done
  }

  /** Hands the rows over and takes ids for the next. */
  private async send(): Promise<void> {
    const { context, stored } = this
    await this.underWay.done
    this.sending.clear()
    if (this.nextId === this.endId) {
      this.nextId = await reserveIdsInARow(context.scope, context.tx, 'reading', IDS)
      this.endId = this.nextId + IDS
    }
    await context.issues.flush(context.tx)
    if (this.rows.count > 0) {
      this.underWay = await this.rows.send()
      this.underWay.done.catch(() => undefined) // awaited before the next and at the end
      const { rows } = this
      this.rows = this.sending
      this.sending = rows
    }
    context.progress('reading', stored.readings.count + stored.alreadyHeld)
  }
}

const otherValues = (record: ReadingRecord, survey: string) => ({
  severity: 'error' as const, row: record.rowNo, field: 'reading_id', value: record.readingKey, code: 'duplicate-id',
  message: `Reading ${record.readingKey} of survey ${survey} is stored already with other values.`,
  remedy: 'Give this reading another reading_id, or undo the earlier import first where it was wrong.',
})
