import { nameKey } from '@/lib/geo'
import { writeAudit } from '@/lib/store/audit'
import { recoverSpans } from '@/lib/store/coverage'
import { rollUpCircuits } from '@/lib/store/health'
import { holdImportLock } from '@/lib/store/import-lock'
import { spliceLabels } from '@/lib/store/network'
import { currentPolicy } from '@/lib/store/policies'
import {
  countChosen, eachChosen, endReviewAct, lockReviewAct, markActUndone, restoreMany, supersedeMany, type ChosenRow, type SettledRow, type StoredAct,
} from '@/lib/store/review-acts'
import type { Scope } from '@/lib/store/scope'
import { insertSplices, removeUnsupportedSplices, type NewSplice } from '@/lib/store/splice-writes'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction, type Tx } from '@/lib/store/transaction'
import { reassessSplices } from '../reassess-splices'
import { BestPlaces, type Accepted } from './best-places'

export type Progress = (done: number, total: number) => Promise<void>

interface Touched { spliceIds: Set<number>; circuitIds: Set<number>; splicesOfImport: Map<number, Set<number>> }

/** Does what a person said of many waiting readings, as one transaction: all of it stands or nothing. An act that was done before is left alone. */
export async function runReviewAct(scope: Scope, actId: number, onProgress: Progress): Promise<void> {
  await inTransaction(async (tx) => {
    await holdImportLock(scope, tx)
    const act = await lockReviewAct(scope, actId, tx)
    if (!act || act.done_at !== null) return
    const run = new ActRun(scope, tx, act)
    const { chosen } = await countChosen(scope, act.choice, tx)
    let seen = 0
    for await (const rows of eachChosen(scope, act.choice, { upTo: act.up_to, hold: true }, tx)) {
      await run.settle(rows)
      seen += rows.length
      await onProgress(seen, Math.max(seen, chosen)).catch(() => undefined) // nobody's reading depends on it
    }
    await follow(scope, tx, run.touched)
    await endReviewAct(scope, actId, { settled: run.settled, leftWaiting: run.left }, tx)
    await writeAudit(scope, {
      actor: act.actor, action: 'review-act.made', subject: { kind: 'review-act', id: actId },
      detail: { action: act.action, reason: act.reason, choice: act.choice, settled: run.settled, left_waiting: run.left, splices: run.touched.spliceIds.size },
    }, tx)
  })
}

/** Takes such an act back as one: what somebody decided otherwise since stays so. */
export async function runReviewActUndo(scope: Scope, actId: number, by: string, onProgress: Progress): Promise<void> {
  await inTransaction(async (tx) => {
    await holdImportLock(scope, tx)
    const act = await lockReviewAct(scope, actId, tx)
    if (!act || act.done_at === null || act.undone_at !== null) return
    const { readings, left } = await restoreMany(scope, { id: actId, actor: by }, tx)
    await onProgress(readings, readings).catch(() => undefined)
    const touched: Touched = { spliceIds: new Set(), circuitIds: new Set(), splicesOfImport: new Map() }
    for (const one of left) touch(touched, one.import_id, one.splice_id, one.circuit_id)
    await follow(scope, tx, touched)
    await markActUndone(scope, actId, by, readings, tx)
    await writeAudit(scope, { actor: by, action: 'review-act.undone', subject: { kind: 'review-act', id: actId }, detail: { restored: readings } }, tx)
  })
}

function touch({ spliceIds, circuitIds, splicesOfImport }: Touched, importId: number, spliceId: number, circuitId: number): void {
  spliceIds.add(spliceId)
  circuitIds.add(circuitId)
  const ofImport = splicesOfImport.get(importId) ?? new Set<number>()
  splicesOfImport.set(importId, ofImport.add(spliceId))
}

/** What follows from many new places: coverage, splices that nothing supports any more, one reassessment, the roll-up. */
async function follow(scope: Scope, tx: Tx, { spliceIds, circuitIds, splicesOfImport }: Touched): Promise<void> {
  for (const [importId, ids] of splicesOfImport) await recoverSpans(scope, importId, [...ids], tx)
  const removed = await removeUnsupportedSplices(scope, [...spliceIds], tx)
  for (const gone of removed) spliceIds.delete(gone.id)
  const policy = await currentPolicy(scope, tx)
  await reassessSplices(scope, tx, [...spliceIds], { policy, asOfMs: Date.now(), cause: 'review', importId: null })
  await rollUpCircuits(scope, [...circuitIds].sort((a, b) => a - b), policy, tx)
  await raiseDataVersion(scope, tx)
}

/** One act under way: settles batch after batch and remembers what it touched. */
class ActRun {
  settled = 0
  left = 0
  readonly touched: Touched = { spliceIds: new Set(), circuitIds: new Set(), splicesOfImport: new Map() }
  private readonly places: BestPlaces
  private labels = new Map<number, Set<string>>()

  constructor(private readonly scope: Scope, private readonly tx: Tx, private readonly act: StoredAct) {
    this.places = new BestPlaces(scope, tx)
  }

  async settle(rows: readonly ChosenRow[]): Promise<void> {
    const settled = this.act.action === 'set-aside' ? rows.filter((row) => !row.urgent).map((row) => ({ placementId: row.placement_id, place: null })) : await this.accept(rows)
    const reasons = this.act.action === 'set-aside' ? [{ code: 'person-rejected', values: { reason: this.act.reason } }] : [{ code: 'person-accepted' }]
    await supersedeMany(this.scope, { id: this.act.id, actor: this.act.actor, reasons }, settled, this.tx)
    this.settled += settled.length
    this.left += rows.length - settled.length
  }

  private async accept(rows: readonly ChosenRow[]): Promise<SettledRow[]> {
    const { accepted } = await this.places.of(rows)
    const fresh = accepted.filter(({ spliceId }) => spliceId === null)
    const ids = await insertSplices(this.scope, null, await this.newSplices(fresh), this.tx)
    const made = new Map(fresh.map((one, n) => [one.row.placement_id, ids[n] ?? 0]))
    return accepted.map(({ row, at, span, spliceId: known }) => {
      const spliceId = known ?? made.get(row.placement_id) ?? 0
      touch(this.touched, row.import_id, spliceId, at.circuitId)
      return { placementId: row.placement_id, place: {
        circuitId: at.circuitId, sectionId: at.sectionId, spanId: span.span_id, lineDistanceM: at.lineDistanceM, lon: at.lon, lat: at.lat, offsetM: at.offsetM, spliceId,
        probability: at.probability,
      } }
    })
  }

  private async newSplices(fresh: readonly Accepted[]): Promise<NewSplice[]> {
    const splices: NewSplice[] = []
    for (const one of fresh) splices.push(await this.newSplice(one))
    return splices
  }

  private async newSplice({ row, at, span }: Accepted): Promise<NewSplice> {
    const names = this.labels.get(at.circuitId) ?? await spliceLabels(this.scope, [at.circuitId], this.tx)
    this.labels.set(at.circuitId, names)
    const key = row.splice_label === null ? null : `${at.circuitId} ${nameKey(row.splice_label)}`
    const isFree = key !== null && !names.has(key)
    if (isFree) names.add(key)
    return {
      label: isFree ? row.splice_label : null, circuitId: at.circuitId, sectionId: at.sectionId, spanId: span.span_id, lineDistanceM: at.lineDistanceM,
      structureBackId: span.structure_back_id, offsetM: span.structure_back_id === null ? at.lineDistanceM : Math.max(at.lineDistanceM - span.start_m, 0),
      lon: at.lon, lat: at.lat, phase: row.phase, position: row.position, circuitSide: row.circuit_side, subconductor: row.subconductor,
      kind: 'full-tension splice', fittingType: null, barrelOdMm: null, barrelLengthMm: null, installedOn: null, batch: null, removedOn: null, foundBySurvey: true,
    }
  }
}
