import { classRank } from '@/lib/condition'
import type { Mapping, ReadingRecord } from '@/lib/intake'
import { readingsThatSay, type OtherReading, type StoredReading } from '@/lib/store/same-readings'
import type { Scope } from '@/lib/store/scope'
import { surveysNamed } from '@/lib/store/surveys'
import { database } from '@/lib/store/transaction'
import { formatNumber } from '@/lib/units/format'
import { heldBy, KnownElsewhere } from '../readings/known-elsewhere'
import { ReadOtherwise } from '../readings/read-otherwise'
import type { Becomes } from './describe'

interface File { name: string; mapping: Mapping; survey: string; timeZone: string }

export interface HeldAlready {
  /** Of those that are stored already, value for value. */
  becomes: Map<ReadingRecord, Becomes>
  /** Of those that are stored already in other values, and are not read for it. */
  otherwise: Map<ReadingRecord, OtherReading>
  notes: string[]
}

/** Which of these readings are stored already, and remarks on the imports and surveys that hold them. */
export async function heldAlready(scope: Scope, records: readonly ReadingRecord[], file: File): Promise<HeldAlready> {
  const { survey, timeZone } = file
  const said: Map<string, StoredReading[]> = records.length === 0 ? new Map() : await readingsThatSay(scope, records.map((record) => record.contentHash), database())
  const elsewhere = new KnownElsewhere()
  const becomes = new Map<ReadingRecord, Becomes>()
  for (const record of records) {
    const own = record.survey ?? survey
    const same = said.get(record.contentHash) ?? []
    const here = same.find((one) => one.survey === own && one.reading_key === record.readingKey)
    const one = here ?? same.find((other) => other.survey !== own)
    if (!one) continue
    if (!here) elsewhere.add(one, record.rowNo)
    becomes.set(record, { state: 'read', held: true, text: `Nothing new: it is stored already under ${heldBy(one, timeZone)}`, lon: record.lon, lat: record.lat })
  }
  const otherwise = await readOtherwise(scope, records.filter((record) => !said.has(record.contentHash)), file)
  return {
    becomes, otherwise,
    notes: [
      ...otherwiseNotes([...otherwise.values()]),
      ...elsewhere.issues(timeZone).map(({ message, remedy }) => `${message.replace(/^File: /, 'Of the first rows, ')} ${remedy}`),
    ],
  }
}

async function readOtherwise(scope: Scope, records: readonly ReadingRecord[], { name, mapping, survey }: File): Promise<Map<ReadingRecord, OtherReading>> {
  if (records.length === 0) return new Map()
  const surveys = await surveysNamed(scope, [...new Set(records.map((record) => record.survey ?? survey))], database())
  return new ReadOtherwise({ scope, tx: database(), importId: 0, file: { name, mapping } }).find(records.map((record) => {
    const id = surveys.get(record.survey ?? survey)
    return { record, survey: { id: id ?? 0, isNew: id === undefined } }
  }))
}

/** What a reading that is held in other values becomes. Operations has seen it where it was announced for the same class or a worse one. */
export function notReadAgain(record: ReadingRecord, { noticed }: OtherReading, text: string, own: Becomes | undefined): Becomes {
  const { own_class: now, own_provisional: provisional } = own ?? {}
  return {
    state: 'rejected', text, lon: record.lon, lat: record.lat,
    ...now && { own_class: now, ...provisional && { own_provisional: true }, ...noticed !== null && classRank(noticed) >= classRank(now) && { held: true as const } },
  }
}

function otherwiseNotes(found: readonly OtherReading[]): string[] {
  const byImport = new Map<number, OtherReading[]>()
  for (const one of found) byImport.set(one.import_id, [...byImport.get(one.import_id) ?? [], one])
  return [...byImport].map(([id, those]) => `Of the first rows, ${those.length === 1 ? '1 measurement is' : `${formatNumber(those.length, 0)} measurements are`} held already by import ${id} `
    + `(${those[0]?.file_name}), read with another mapping or other values, and would not be read again. Undo import ${id} first, then import this file.`)
}
