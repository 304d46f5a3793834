import { setImmediate as breathe } from 'node:timers/promises'
import { assess, showClass, type Policy } from '@/lib/condition'
import { dropStatesOfRemoved, writeAssessments, type AssessmentCause, type NewAssessment } from '@/lib/store/assessments'
import { loadSubjects, lockSplices, type Subject } from '@/lib/store/evidence'
import type { Scope } from '@/lib/store/scope'
import type { Tx } from '@/lib/store/transaction'

/** So many splices' evidence is held at a time. */
const BATCH = 400

export interface Reassessment {
  policy: Policy
  /** Readings age up to this moment, ms since 1970 UTC. */
  asOfMs: number
  cause: AssessmentCause
  importId: number | null
  onProgress?: (done: number, total: number) => void
  /** Sees every splice with its evidence on the way. */
  onSubject?: (subject: Subject) => void
}

/** A splice whose class on show is held above what its evidence says now. */
export interface HeldSplice { spliceId: number; class: string; measuredClass: string }

/** What the engine says of one splice now, and what is shown: never lower than urgent or critical without two good readings or a person. */
export function judge(subject: Subject, policy: Policy, asOfMs: number): NewAssessment {
  const assessment = assess({ facts: subject.facts, evidence: subject.evidence, policy, asOfMs })
  return { spliceId: subject.spliceId, circuitId: subject.circuitId, assessment, shown: showClass(subject.previous, assessment, policy) }
}

/** Assesses these splices anew from all their evidence, within the transaction of what changed it. Returns those that are held. */
export async function reassessSplices(scope: Scope, tx: Tx, spliceIds: readonly number[], options: Reassessment): Promise<HeldSplice[]> {
  const held: HeldSplice[] = []
  const ordered = [...spliceIds].sort((a, b) => a - b)
  for (let at = 0; at < ordered.length; at += BATCH) {
    const batch = ordered.slice(at, at + BATCH)
    await lockSplices(scope, batch, tx)
    const subjects = await loadSubjects(scope, batch, tx)
    const judged = subjects.map((subject) => judge(subject, options.policy, options.asOfMs))
    if (options.onSubject) subjects.forEach(options.onSubject)
    await writeAssessments(scope, judged, options, tx)
    await dropStatesOfRemoved(scope, batch, tx)
    for (const { spliceId, assessment, shown } of judged) {
      if (shown.held) held.push({ spliceId, class: shown.class, measuredClass: assessment.class })
    }
    options.onProgress?.(Math.min(at + BATCH, ordered.length), ordered.length)
    await breathe()
  }
  return held
}
