import type { IfItTrips, IfItTripsBody } from '@/lib/contract/if-it-trips'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import { dropIfItTrips, ifItTripsOf, putIfItTrips } from '@/lib/store/if-it-trips'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { noSuch, type CaseError } from './problem'

/** A named person notes who loses supply, what isolates the circuit and who is called; the trail keeps what stood there before. */
export async function noteIfItTrips(scope: Scope, circuitId: number, said: IfItTripsBody, actor: string): Promise<Result<IfItTrips, CaseError>> {
  return inTransaction(async (tx): Promise<Result<IfItTrips, CaseError>> => {
    const before = await ifItTripsOf(scope, circuitId, tx)
    if (!before) return noSuch('circuit')
    const { noted_by: by, ...facts } = said
    await (Object.values(facts).every((fact) => fact === null) ? dropIfItTrips(scope, circuitId, tx) : putIfItTrips(scope, circuitId, said, tx))
    await writeAudit(scope, { actor, action: 'trip.noted', subject: { kind: 'circuit', id: circuitId }, detail: { by, from: before, to: facts } }, tx)
    await raiseDataVersion(scope, tx)
    return ok(await ifItTripsOf(scope, circuitId, tx) ?? before)
  })
}
