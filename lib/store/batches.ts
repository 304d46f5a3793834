import { compareBatches } from '@/lib/condition/batch-comparison'
import type { BatchStandingJson } from '@/lib/contract/batches'
import type { Scope } from './scope'
import { batchCounts, spliceNeedsOfBatches } from './sql/batches'
import { database, type Db } from './transaction'

const SHOWN = 200

interface CountRow { batch: string | null; splice_count: number; measured_count: number; failing_count: number }
type NeedRow = BatchStandingJson['splices'][number] & { batch: string }

/** How every batch of splices stands against all others, those that fail beyond accident first, with what fails and what is to be measured. */
export async function listBatches(scope: Scope, db: Db = database()): Promise<BatchStandingJson[]> {
  const counts = await db.rows<CountRow>(batchCounts(scope))
  const all = { measured: 0, failing: 0 }
  for (const row of counts) {
    all.measured += row.measured_count
    all.failing += row.failing_count
  }
  const named = counts.flatMap(({ batch, splice_count, measured_count: measured, failing_count: failing }) =>
    batch === null ? [] : [{ batch, splice_count, measured, failing }])
  const totals = new Map(named.map((row) => [row.batch, row.splice_count]))
  const standings = compareBatches(named, all)
  const needs = await db.rows<NeedRow>(spliceNeedsOfBatches(scope, standings.filter((one) => one.standsOut).map((one) => one.batch)))
  return standings.map(({ batch, measured, failing, othersShare, byAccident, standsOut }) => ({
    batch, splice_count: totals.get(batch) ?? 0, measured_count: measured, failing_count: failing, others_share: othersShare, by_accident: byAccident,
    stands_out: standsOut, splices: needs.filter((one) => one.batch === batch).slice(0, SHOWN).map(({ batch: _, ...splice }) => splice),
  }))
}
