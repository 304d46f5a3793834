import { reasonText } from '@/lib/geo'
import { measureText, offsetMeasure } from '@/lib/units/format'
import type { ReasonSentence } from './reading-json'
import type { Scope } from './scope'
import { getSettings } from './settings'
import type { Db } from './transaction'

/** How placement reasons read in the user's units. */
export async function reasonSentenceOf(scope: Scope, db: Db): Promise<ReasonSentence> {
  const { unit_system: system } = await getSettings(scope, db)
  return (reason) => reasonText(reason, (lengthM) => measureText(offsetMeasure(lengthM, system)))
}
