import { writeAudit } from '@/lib/store/audit'
import { listCircuits } from '@/lib/store/circuits'
import { rollUpCircuits } from '@/lib/store/health'
import { holdImportLock } from '@/lib/store/import-lock'
import { currentPolicy } from '@/lib/store/policies'
import type { Scope } from '@/lib/store/scope'
import { splicesInService } from '@/lib/store/splices'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { reassessSplices } from './reassess-splices'

/** Often enough to look alive. */
const EVERY_MS = 400

/** Assesses every splice in service by the policy in force, as one act. Urgent and critical stay on show until readings or a person clear them. */
export async function reassessNetwork(scope: Scope, onProgress: (done: number, total: number) => Promise<void>): Promise<void> {
  await inTransaction(async (tx) => {
    await holdImportLock(scope, tx)
    const policy = await currentPolicy(scope, tx)
    const splices = await splicesInService(scope, tx)
    let toldMs = 0
    let telling: Promise<void> = Promise.resolve()
    const tell = (done: number, total: number): void => {
      if (Date.now() - toldMs < EVERY_MS) return
      toldMs = Date.now()
      telling = onProgress(done, total).catch(() => undefined) // nobody's class depends on it
    }
    const held = await reassessSplices(scope, tx, splices.map((s) => s.id), { policy, asOfMs: Date.now(), cause: 'policy', importId: null, onProgress: tell })
    await rollUpCircuits(scope, (await listCircuits(scope, tx)).map((circuit) => circuit.id), policy, tx) // patrols of circuits without splices too
    await raiseDataVersion(scope, tx)
    await writeAudit(scope, {
      actor: 'system', action: 'splices.reassessed', subject: { kind: 'policy', id: policy.version }, detail: { splices: splices.length, held: held.length },
    }, tx)
    await telling
  })
}
