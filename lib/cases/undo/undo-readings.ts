import { rebuildCoverage } from '@/lib/store/coverage'
import { endPlacements } from '@/lib/store/placements'
import { withdrawReadings } from '@/lib/store/reading-writes'
import type { Scope } from '@/lib/store/scope'
import { removeUnsupportedSplices } from '@/lib/store/splice-writes'
import { circuitsOfSplices } from '@/lib/store/splices'
import type { Tx } from '@/lib/store/transaction'
import { keepNoticePlaces } from '@/lib/store/urgent'
import type { Undone } from './undone'

/** Readings are withdrawn with their placements and coverage, and with the splices that only they supported. Their alarms stay. */
export async function undoReadings(scope: Scope, tx: Tx, importId: number): Promise<Undone> {
  await keepNoticePlaces(scope, importId, tx)
  const splices = await endPlacements(scope, importId, tx)
  const circuitIds = await circuitsOfSplices(scope, splices, tx)
  const readings = await withdrawReadings(scope, importId, tx)
  const covered = await rebuildCoverage(scope, [importId], tx)
  const removed = await removeUnsupportedSplices(scope, splices, tx)
  const gone = new Set(removed.map((splice) => splice.id))
  return {
    readings, removedSplices: removed, spliceIds: splices.filter((id) => !gone.has(id)), circuitIds: [...new Set([...circuitIds, ...covered])],
  }
}
