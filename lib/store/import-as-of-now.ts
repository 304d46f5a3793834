import type { ImportStatus } from '@/lib/contract/contract'
import { getImport } from './imports'
import type { Scope } from './scope'
import { database } from './transaction'
import { readingsOn, undoBlockers } from './undo-blockers'
import { listUrgent } from './urgent'

/** An import with its report: the counts stand as they were; who was told and where a reading lies may have changed since. */
export async function importAsOfNow(scope: Scope, id: number): Promise<ImportStatus | undefined> {
  const found = await getImport(scope, id)
  if (!found?.report || found.dry_run) return found
  const resting = found.state === 'done' && found.kind !== 'readings' && !scope.circuitIds
    ? { readings: await readingsOn(scope, id), blockers: await undoBlockers(scope, id, database()) } : undefined
  return { ...found, report: { ...found.report, urgent: await listUrgent(scope, { importId: id, met: found.report.met_notices }) }, ...(resting && { resting }) }
}
