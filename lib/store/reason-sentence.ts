import type { PlacementReason } from '@/lib/geo'
import type { ReasonSentence } from './reading-json'
import type { Scope } from './scope'
import type { Db } from './transaction'

/** How placement reasons read in the user's units. */
export async function reasonSentenceOf(_scope: Scope, _db: Db): Promise<ReasonSentence> {
  return (reason: PlacementReason) => reason.code
}
