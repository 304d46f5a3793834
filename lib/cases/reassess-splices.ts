import { setImmediate as breathe } from 'node:timers/promises'
import { assess, byTableIn, clocksAfter, doubtIn, showClass, withHeldDuties, type EngineerDecision, type Policy } from '@/lib/condition'
import { AssessmentRows, dropStatesOfRemoved, type AssessmentCause, type NewAssessment } from '@/lib/store/assessments'
import { loadSubjects, lockSplices, type EvidenceAtHand, type Subject } from '@/lib/store/evidence'
import { reserveIds } from '@/lib/store/ids'
import type { Scope } from '@/lib/store/scope'
import type { Tx } from '@/lib/store/transaction'
import { raiseFindings, type Finding } from '@/lib/store/urgent-findings'
import { advisedOf } from './advised-current'
import type { ClassChanges } from './class-changes'

/** So many splices' evidence is held at a time. */
const BATCH = 400
const BREATH = 10

export interface Reassessment {
  policy: Policy
  /** Readings age up to this moment, ms since 1970 UTC. */
  asOfMs: number
  cause: AssessmentCause
  importId: number | null
  onProgress?: (done: number, total: number) => void
  /** Readings of the import that is under way. */
  atHand?: EvidenceAtHand
  /** Sees every splice with its evidence on the way. */
  onSubject?: (subject: Subject) => void
  /** Counts whose class on show comes out another than before. */
  changes?: ClassChanges
}

/** A splice whose class on show is held above what its evidence says now. */
export interface HeldSplice { spliceId: number; class: string; measuredClass: string }

/** What the engine says of one splice now, and what is shown: never lower than urgent or critical without two good readings or a person. */
export function judge(subject: Subject, policy: Policy, asOfMs: number, decision: EngineerDecision | null = null): NewAssessment {
  const assessment = assess({ facts: subject.facts, evidence: subject.evidence, policy, asOfMs })
  const shown = showClass(subject.previous, assessment, policy, decision)
  const judged = withHeldDuties(assessment, shown, policy)
  return {
    spliceId: subject.spliceId, circuitId: subject.circuitId, assessment: judged, shown, clocks: clocksAfter(subject.previous, shown.class, asOfMs, assessment),
    advisedA: advisedOf(subject.facts, judged, shown, policy, asOfMs)?.lineA ?? null,
  }
}

/**
 * Assesses these splices anew from all their evidence, within the transaction of what changed it, and raises a notice for what came out
 * urgent or critical. Returns those that are held.
 */
export async function reassessSplices(scope: Scope, tx: Tx, spliceIds: readonly number[], options: Reassessment): Promise<HeldSplice[]> {
  const { held, findings } = await assessSplices(scope, tx, spliceIds, options)
  await raiseFindings(scope, options.cause === 'import' ? options.importId : null, findings, tx)
  return held
}

export interface Reassessed {
  /** Whose class is held above what the evidence says now. */
  held: HeldSplice[]
  /** What is urgent or critical on show rests on. */
  findings: Finding[]
}

/** As `reassessSplices`, raising nothing yet. While one batch is judged, the database takes the one before and looks up the one after. */
export async function assessSplices(scope: Scope, tx: Tx, spliceIds: readonly number[], options: Reassessment): Promise<Reassessed> {
  const held: HeldSplice[] = []
  const findings: Finding[] = []
  const ordered = [...spliceIds].sort((a, b) => a - b)
  const look = async (at: number): Promise<(() => Subject)[]> => {
    const batch = ordered.slice(at, at + BATCH)
    if (batch.length === 0) return []
    await lockSplices(scope, batch, tx)
    return loadSubjects(scope, batch, tx, options.atHand)
  }
  const ids = await reserveIds(tx, 'assessment', ordered.length)
  // Two sets of rows take turns: one is filled while the database takes the other.
  let [rows, sending] = [await AssessmentRows.of(scope, options, tx), await AssessmentRows.of(scope, options, tx)]
  let writing: Promise<void> = Promise.resolve()
  let next = look(0)
  for (let at = 0; at < ordered.length; at += BATCH) {
    const subjects = await next
    next = look(at + BATCH)
    next.catch(() => undefined) // awaited in the next round
    for (const [i, read] of subjects.entries()) {
      const subject = read()
      const judged = judge(subject, options.policy, options.asOfMs)
      rows.add(ids[at + i] ?? 0, judged)
      options.onSubject?.(subject)
      options.changes?.add(subject.spliceId, subject.previous?.class ?? 'unknown', judged.shown.class)
      if (judged.shown.held) held.push({ spliceId: subject.spliceId, class: judged.shown.class, measuredClass: judged.assessment.class })
      const finding = findingOf(judged)
      if (finding) findings.push(finding)
      // A server stays answerable, and what is on its way to the database keeps flowing.
      if (i % BREATH === BREATH - 1) await breathe()
    }
    await writing
    const batch = ordered.slice(at, at + BATCH)
    writing = rows.write(tx).then(() => (subjects.length < batch.length ? dropStatesOfRemoved(scope, batch, tx) : undefined))
    writing.catch(() => undefined) // awaited before the next batch is written and at the end
    ;[rows, sending] = [sending, rows]
    options.onProgress?.(Math.min(at + BATCH, ordered.length), ordered.length)
  }
  await writing
  return { held, findings }
}

function findingOf({ shown: { class: shown, held, foundRatio, foundReadingIds = [] }, assessment }: NewAssessment): Finding | null {
  if (shown !== 'urgent' && shown !== 'critical') return null
  const doubt = held ? undefined : doubtIn(assessment.reasons)
  const governing = held ? undefined : assessment.sides.find(({ side }) => side === assessment.governingSide)
  const byTable = governing?.reference === 'table' ? byTableIn(assessment.reasons) : undefined
  return { class: shown, ratio: foundRatio ?? null, doubt, byTable, readingIds: foundReadingIds.filter((id) => typeof id === 'number') }
}
