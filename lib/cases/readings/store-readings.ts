import { classRank, ownNumbersClass, type ConditionClass, type OwnNumbers } from '@/lib/condition'
import { alarmIssue, alarmOf, type ReadingRecord } from '@/lib/intake'
import { OTHER_VALUES } from '@/lib/intake/report/codes'
import { ReadingRows } from '@/lib/store/reading-rows'
import { heldReadings } from '@/lib/store/reading-writes'
import { holdsReadings, readingsThatSay, type StoredReading } from '@/lib/store/same-readings'
import { loadSectionFacts, type SectionFacts } from '@/lib/store/section-facts'
import { openSurvey } from '@/lib/store/surveys'
import type { Batches, ImportContext } from '../importing/context'
import type { Issue } from '../importing/issue-log'
import { evidenceOf } from './evidence-of'
import { KnownElsewhere } from './known-elsewhere'
import { ReadOtherwise, readOtherwiseIssue } from './read-otherwise'
import { ReadingColumns } from './reading-columns'

/** Keys and contents are looked up so many at a time. */
const LOOKED_UP = 5_000

export interface StoredReadings {
  /** What placing and assessing need of those that are new. */
  readings: ReadingColumns
  /** Readings that are urgent or critical by their own numbers, by index. */
  urgent: Map<number, OwnNumbers>
  alreadyHeld: number
  /** Readings stored before that rows of this file say again. */
  met: number[]
  /** Of those that are the same as another one of this file, under another survey's name. */
  repeated: number
}

interface Survey { id: number; name: string; isNew: boolean }

/**
 * Writes readings as they are parsed. What the survey holds already is counted, or refused where its values differ; what another survey holds
 * already, value for value, is counted and named: under whatever name it comes, a measurement is evidence once.
 */
export async function storeReadings(context: ImportContext, batches: Batches<ReadingRecord>): Promise<StoredReadings> {
  const writer = new Writer(context)
  try {
    await storeAll(context, batches, writer)
    await writer.rows.flush()
    for (const issue of writer.elsewhere.issues(context.settings.time_zone)) context.issues.add(issue)
  } catch (e) {
    await writer.rows.breakOff()
    throw e
  }
  return writer.stored
}

async function storeAll(context: ImportContext, batches: Batches<ReadingRecord>, writer: Writer): Promise<void> {
  const surveys = new Map<string, Survey>()
  const isFirst = !await holdsReadings(context.scope, context.tx)
  let doubtful: { record: ReadingRecord; survey: Survey }[] = []
  for await (const batch of batches) {
    for (const record of batch) {
      const survey = surveys.get(record.survey ?? context.survey) ?? await open(context, record.survey ?? context.survey, surveys, writer)
      if (!isFirst || surveys.size > 1) doubtful.push({ record, survey })
      else if (!writer.write(record, survey)) await writer.makeRoomAndWrite(record, survey)
    }
    context.progress('reading', writer.stored.readings.count + writer.stored.alreadyHeld)
    if (context.issues.isDue) {
      await writer.rows.flush()
      await context.issues.flush(context.tx)
    }
    if (doubtful.length < LOOKED_UP) continue
    await writeNew(context, writer, doubtful)
    doubtful = []
  }
  await writeNew(context, writer, doubtful)
}

async function open({ scope, importId, tx }: ImportContext, name: string, surveys: Map<string, Survey>, writer: Writer): Promise<Survey> {
  await writer.rows.flush()
  const survey = { name, ...await openSurvey(scope, name, importId, tx) }
  surveys.set(name, survey)
  return survey
}

interface Doubtful { record: ReadingRecord; survey: Survey }

/** Writes those that neither their own survey nor another one holds. */
async function writeNew(context: ImportContext, writer: Writer, doubtful: readonly Doubtful[]): Promise<void> {
  if (doubtful.length === 0) return
  const { scope, importId, tx } = context
  await writer.rows.flush()
  const keys = new Map<Survey, string[]>()
  for (const { record, survey } of doubtful) {
    if (survey.isNew) continue
    const own = keys.get(survey)
    if (own) own.push(record.readingKey)
    else keys.set(survey, [record.readingKey])
  }
  const held = new Map<Survey, Awaited<ReturnType<typeof heldReadings>>>()
  for (const [survey, own] of keys) held.set(survey, await heldReadings(scope, survey.id, own, tx))
  const said = await readingsThatSay(scope, doubtful.map(({ record }) => record.contentHash), tx)
  const otherwise = await writer.otherwise.find(doubtful.filter(({ record, survey }) => held.get(survey)?.get(record.readingKey)?.contentHash !== record.contentHash
    && !said.has(record.contentHash)))
  for (const { record, survey } of doubtful) {
    const same = held.get(survey)?.get(record.readingKey)
    const elsewhere = said.get(record.contentHash)?.find((one) => one.survey_id !== survey.id)
    const other = otherwise.get(record)
    if (other) {
      writer.stored.met.push(other.id)
      await refuse(context, writer, record, readOtherwiseIssue(record, other), other.noticed)
    } else if (same && same.contentHash !== record.contentHash) await refuse(context, writer, record, otherValues(record, survey.name))
    else if (same) writer.holds(same.id)
    else if (elsewhere) {
      if (elsewhere.import_id === importId) writer.stored.repeated++
      else writer.holds(elsewhere.id)
      writer.elsewhere.add(elsewhere, record.rowNo)
    } else {
      if (!writer.write(record, survey)) await writer.makeRoomAndWrite(record, survey)
      if (record.takenAt !== null && record.lon !== null) remember(said, record, { survey, importId })
    }
  }
}

/** A reading of a moment and a place written just now is found by the next one that says the same under another survey's name. */
function remember(said: Map<string, StoredReading[]>, record: ReadingRecord, { survey, importId }: { survey: Survey; importId: number }): void {
  const one: StoredReading = {
    id: null, content_hash: record.contentHash, reading_key: record.readingKey, survey_id: survey.id, survey: survey.name, import_id: importId,
    file_name: 'this file', imported_at: new Date(),
  }
  said.set(record.contentHash, [...said.get(record.contentHash) ?? [], one])
}

class Writer {
  readonly stored: StoredReadings = { readings: new ReadingColumns(), urgent: new Map(), alreadyHeld: 0, met: [], repeated: 0 }
  readonly elsewhere = new KnownElsewhere()
  readonly rows: ReadingRows
  readonly otherwise: ReadOtherwise

  private facts: Promise<SectionFacts> | null = null

  constructor(private readonly context: ImportContext) {
    this.rows = new ReadingRows(context.scope, context.importId, context.tx)
    this.otherwise = new ReadOtherwise(context)
  }

  /** Beside the transaction, whose connection may be busy with rows. */
  sectionFacts(): Promise<SectionFacts> {
    return this.facts ??= loadSectionFacts(this.context.scope)
  }

  /** False where there is no room yet. */
  write(record: ReadingRecord, survey: Survey): boolean {
    const { stored } = this
    const id = this.rows.add(survey.id, record)
    if (id === null) return false
    const index = stored.readings.add(record, id, survey)
    const evidence = evidenceOf(record, id)
    const own = evidence && ownNumbersClass(evidence, undefined, this.context.policy)
    if (own?.urgent) stored.urgent.set(index, own)
    return true
  }

  /** A row says again what is stored. */
  holds(readingId: number | null): void {
    this.stored.alreadyHeld++
    if (readingId !== null) this.stored.met.push(readingId)
  }

  async makeRoomAndWrite(record: ReadingRecord, survey: Survey): Promise<void> {
    await this.rows.makeRoom(record)
    if (!this.write(record, survey)) throw new Error(`No room was made for row ${record.rowNo}.`)
  }
}

/**
 * Whatever is stored of it, numbers that cannot wait do not.
 * @param noticed class for which the same measurement was announced already, as it is stored
 */
async function refuse({ issues, policy, unread }: ImportContext, writer: Writer, record: ReadingRecord, refused: Issue, noticed: ConditionClass | null = null): Promise<void> {
  issues.add(refused, record.rawRow)
  const alarm = alarmOf(record, [refused.message], policy, (await writer.sectionFacts()).named)
  if (!alarm || (noticed !== null && classRank(noticed) >= classRank(alarm.class))) return
  issues.add(alarmIssue(alarm), record.rawRow)
  unread.alarms.push(alarm)
}

const otherValues = (record: ReadingRecord, survey: string): Issue => ({
  severity: 'error', row: record.rowNo, field: 'reading_id', value: record.readingKey, code: OTHER_VALUES,
  message: `Reading ${record.readingKey} of survey ${survey} is stored already with other values.`,
  remedy: 'Give this reading another reading_id, or undo the earlier import first where it was wrong.',
})
