import { ownNumbersClass } from '@/lib/condition'
import { rebuildCoverage } from '@/lib/store/coverage'
import type { Subject } from '@/lib/store/evidence'
import { insertNotices, type NewNotice } from '@/lib/store/urgent'
import { type ImportContext, type Loader } from '../importing/context'
import { placeImport } from '../readings/place-import'
import { storeReadings, type StoredReadings } from '../readings/store-readings'
import { reassessSplices } from '../reassess-splices'

/** Readings are written as they are parsed, then placed, then what they say of their splices is worked out; urgent ones raise a notice. */
export const loadReadings: Loader<'readings'> = async (context, records) => {
  const { scope, tx, importId, policy, nowMs } = context
  const stored = await storeReadings(context, records)
  context.progress('placing', 0)
  const placed = await placeImport(context, stored)
  context.progress('assessing', 0)
  const notices = new NoticesByFacts(context, stored, placed.notices)
  await reassessSplices(scope, tx, [...placed.spliceIds], {
    policy, asOfMs: nowMs, cause: 'import', importId, onSubject: (subject) => notices.look(subject),
    onProgress: (done, total) => context.progress('assessing', Math.round((stored.points.count * done) / total)),
  })
  context.progress('storing')
  await insertNotices(scope, tx, notices.all)
  const covered = await rebuildCoverage(scope, [importId], tx)
  return {
    alreadyHeld: stored.alreadyHeld, placed: placed.placed, review: placed.review, newSplices: placed.newSplices, spliceIds: [],
    circuitIds: [...new Set([...placed.circuitIds, ...covered])],
  }
}

/**
 * Once a reading has its splice, the section's temperature and conductor are known too, and with them some readings are
 * urgent that were not by their bare numbers.
 */
class NoticesByFacts {
  readonly all: NewNotice[]
  private readonly noticed: Set<number>
  private readonly own: Set<number>

  constructor(private readonly context: ImportContext, stored: StoredReadings, notices: readonly NewNotice[]) {
    this.all = [...notices]
    this.noticed = new Set(notices.map((notice) => notice.readingId))
    this.own = new Set(stored.ids)
  }

  look({ facts, evidence, circuitId, circuit }: Subject): void {
    const hot = (facts.maxOperatingC ?? 75) > 75
    for (const one of evidence) {
      const id = Number(one.readingId)
      if (one.source !== 'resistance' || !(hot || one.conductorUohm === undefined) || this.noticed.has(id) || !this.own.has(id)) continue
      const { class: found, ratio } = ownNumbersClass(one, facts, this.context.policy)
      if (found !== 'urgent' && found !== 'critical') continue
      this.noticed.add(id)
      this.all.push({ readingId: id, class: found, ratio: ratio ?? null, circuits: [{ circuitId, circuit, probability: null }] })
    }
  }
}
