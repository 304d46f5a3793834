import type { OtherPhasesJson } from '@/lib/contract/other-phases'
import { onCircuit, type Scope } from './scope'
import { otherPhasesQuestion } from './sql/other-phases'
import type { Db } from './transaction'

/** Each infrared reading of a splice beside the other phases of its span on the same flight; those without any are left out. */
export const otherPhasesOf = (scope: Scope, spliceId: number, db: Db): Promise<OtherPhasesJson[]> =>
  db.rows<OtherPhasesJson>(otherPhasesQuestion(spliceId, onCircuit(scope, 'mine.circuit_id')))
