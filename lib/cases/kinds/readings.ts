import { classRank, conductorDoubt, ownNumbersClass } from '@/lib/condition'
import { conductorIssue } from '@/lib/intake/report/conductor-doubt'
import { insertCoverage } from '@/lib/store/coverage'
import type { EvidenceAtHand, Subject } from '@/lib/store/evidence'
import { insertNotices, type NewNotice } from '@/lib/store/urgent'
import { raiseFindings } from '@/lib/store/urgent-findings'
import type { ImportContext, Loader } from '../importing/context'
import { placeImport, type PlacedImport } from '../readings/place-import'
import { storeReadings, type StoredReadings } from '../readings/store-readings'
import { noticeUnreadRows } from '../readings/unread-rows'
import { assessSplices } from '../reassess-splices'

/** Readings are written as they are parsed, then placed, then what they say of their splices is worked out; urgent ones raise a notice. */
export const loadReadings: Loader<'readings'> = async (context, records) => {
  const { scope, tx, importId, policy, nowMs } = context
  const stored = await storeReadings(context, records)
  context.progress('placing', 0)
  const placed = await placeImport(context, stored)
  context.progress('assessing', 0, placed.onSplice.size)
  const notices = new NoticesByFacts(context, stored, placed)
  const { findings } = await assessSplices(scope, tx, [...placed.onSplice.keys()], {
    policy, asOfMs: nowMs, cause: 'import', importId, atHand: evidenceAtHand(importId, stored, placed), onSubject: (subject) => notices.look(subject),
    changes: context.classChanges,
    onProgress: (done, total) => context.progress('assessing', done, total),
  })
  context.progress('storing')
  await insertNotices(scope, importId, tx, notices.all)
  await noticeUnreadRows(context)
  await raiseFindings(scope, importId, findings, tx)
  await insertCoverage(scope, importId, placed.seen, tx)
  return {
    alreadyHeld: stored.alreadyHeld, met: stored.met, repeated: stored.repeated, placed: placed.placed, review: placed.review,
    waiting: await placed.waiting.json(scope, tx, context.issues.lineOf), newSplices: placed.newSplices, spliceIds: [],
    circuitIds: [...placed.circuitIds],
  }
}

/** The import's own readings need not be read back from the database to be judged. */
const evidenceAtHand = (importId: number, { readings }: StoredReadings, { onSplice }: PlacedImport): EvidenceAtHand => ({
  importId, rowsOf: (spliceId) => (onSplice.get(spliceId) ?? []).map((index) => readings.evidence(index)),
})

/**
 * Once a reading has its splice, the section's temperature and conductor are known too. With them some readings are urgent that were not by
 * their bare numbers, and a conductor reading that cannot be right is seen as such.
 */
class NoticesByFacts {
  readonly all: NewNotice[]
  private readonly noticed = new Map<number, NewNotice>()
  /** Imports write one after the other: whatever has a number from here on is of this one. */
  private readonly firstId: number

  constructor(
    private readonly context: ImportContext, private readonly stored: StoredReadings, private readonly placed: PlacedImport,
  ) {
    this.all = [...placed.notices]
    for (const notice of this.all) this.noticed.set(notice.readingId, notice)
    this.firstId = stored.readings.id(0)
  }

  look({ spliceId, facts, evidence, circuitId, circuit }: Subject): void {
    const { policy, issues } = this.context
    const hot = (facts.maxOperatingC ?? 75) > 75
    for (const one of evidence) {
      const id = Number(one.readingId)
      if (one.source !== 'resistance' || id < this.firstId) continue
      const doubt = conductorDoubt(one, facts, policy)
      if (doubt) issues.add(conductorIssue(doubt, this.rowOf(spliceId, id), this.context.conductorUnit))
      const before = this.noticed.get(id)
      if (before ? !doubt : !(doubt || hot || one.conductorUohm === undefined)) continue
      const { class: found, ratio = null, byTable } = ownNumbersClass(one, facts, policy)
      if (found !== 'urgent' && found !== 'critical') continue
      if (before) Object.assign(before, { doubt, ...(classRank(found) >= classRank(before.class) && { class: found, ratio, byTable }) })
      else this.add({ readingId: id, class: found, ratio, doubt, byTable, circuits: [{ circuitId, circuit, probability: null }] })
    }
  }

  private add(notice: NewNotice): void {
    this.noticed.set(notice.readingId, notice)
    this.all.push(notice)
  }

  private rowOf(spliceId: number, readingId: number): number {
    const { readings } = this.stored
    const index = this.placed.onSplice.get(spliceId)?.find((at) => readings.id(at) === readingId)
    return index === undefined ? 0 : readings.rowNo(index)
  }
}
