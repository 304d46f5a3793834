import { ownNumbersClass } from '@/lib/condition'
import { insertCoverage } from '@/lib/store/coverage'
import type { EvidenceAtHand, Subject } from '@/lib/store/evidence'
import { insertNotices, type NewNotice } from '@/lib/store/urgent'
import { raiseFindings } from '@/lib/store/urgent-findings'
import type { ImportContext, Loader } from '../importing/context'
import { placeImport, type PlacedImport } from '../readings/place-import'
import { storeReadings, type StoredReadings } from '../readings/store-readings'
import { assessSplices } from '../reassess-splices'

/** Readings are written as they are parsed, then placed, then what they say of their splices is worked out; urgent ones raise a notice. */
export const loadReadings: Loader<'readings'> = async (context, records) => {
  const { scope, tx, importId, policy, nowMs } = context
  const stored = await storeReadings(context, records)
  context.progress('placing', 0)
  const placed = await placeImport(context, stored)
  context.progress('assessing', 0)
  const notices = new NoticesByFacts(context, stored, placed.notices)
  const { findings } = await assessSplices(scope, tx, [...placed.onSplice.keys()], {
    policy, asOfMs: nowMs, cause: 'import', importId, atHand: evidenceAtHand(importId, stored, placed), onSubject: (subject) => notices.look(subject),
    onProgress: (done, total) => context.progress('assessing', Math.round((stored.readings.count * done) / total)),
  })
  context.progress('storing')
  await insertNotices(scope, importId, tx, notices.all)
  await raiseFindings(scope, importId, findings, tx)
  await insertCoverage(scope, importId, placed.seen, tx)
  return {
    alreadyHeld: stored.alreadyHeld, placed: placed.placed, review: placed.review, newSplices: placed.newSplices, spliceIds: [],
    circuitIds: [...placed.circuitIds],
  }
}

/** The import's own readings need not be read back from the database to be judged. */
const evidenceAtHand = (importId: number, { readings }: StoredReadings, { onSplice }: PlacedImport): EvidenceAtHand => ({
  importId, rowsOf: (spliceId) => (onSplice.get(spliceId) ?? []).map((index) => readings.evidence(index)),
})

/**
 * Once a reading has its splice, the section's temperature and conductor are known too, and with them some readings are
 * urgent that were not by their bare numbers.
 */
class NoticesByFacts {
  readonly all: NewNotice[]
  private readonly noticed: Set<number>
  /** Imports write one after the other: whatever has a number from here on is of this one. */
  private readonly firstId: number

  constructor(private readonly context: ImportContext, { readings }: StoredReadings, notices: readonly NewNotice[]) {
    this.all = [...notices]
    this.noticed = new Set(notices.map((notice) => notice.readingId))
    this.firstId = readings.id(0)
  }

  look({ facts, evidence, circuitId, circuit }: Subject): void {
    const hot = (facts.maxOperatingC ?? 75) > 75
    for (const one of evidence) {
      const id = Number(one.readingId)
      if (one.source !== 'resistance' || !(hot || one.conductorUohm === undefined) || id < this.firstId || this.noticed.has(id)) continue
      const { class: found, ratio } = ownNumbersClass(one, facts, this.context.policy)
      if (found !== 'urgent' && found !== 'critical') continue
      this.noticed.add(id)
      this.all.push({ readingId: id, class: found, ratio: ratio ?? null, circuits: [{ circuitId, circuit, probability: null }] })
    }
  }
}
