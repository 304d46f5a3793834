import type { ReadingRecord } from '@/lib/intake'
import { readingsThatSay } from '@/lib/store/same-readings'
import type { Scope } from '@/lib/store/scope'
import { database } from '@/lib/store/transaction'
import { heldBy, KnownElsewhere } from '../readings/known-elsewhere'
import type { Becomes } from './describe'

/** Which of these readings are stored already, value for value, and remarks on those that another survey holds. */
export async function heldAlready(
  scope: Scope, records: readonly ReadingRecord[], { survey, timeZone }: { survey: string; timeZone: string },
): Promise<{ becomes: Map<ReadingRecord, Becomes>; notes: string[] }> {
  const said = records.length === 0 ? new Map<string, never>() : await readingsThatSay(scope, records.map((record) => record.contentHash), database())
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
  return { becomes, notes: elsewhere.issues(timeZone).map(({ message, remedy }) => `${message.replace(/^File: /, 'Of the first rows, ')} ${remedy}`) }
}
