import { goodReadings, type Assessment, type ConditionClass } from '@/lib/condition'
import type { HeldFinding } from '@/lib/contract/contract'
import { currentPolicy } from './policies'
import type { Scope } from './scope'
import { findingReading } from './sql/splice-history'
import type { Db } from './transaction'

export interface HeldRow {
  id: number; class: ConditionClass; held: boolean; found_at: string | null; found_ratio: number | null; found_reading_id: number | null
  assessment: Assessment | null
}

type ReadingOfFinding = Pick<HeldFinding, 'survey' | 'withdrawn' | 'moved'>

/** The finding that holds the class of a splice and what is still needed to clear it; null where the evidence itself says the class. */
export async function heldFinding(scope: Scope, row: HeldRow, db: Db): Promise<HeldFinding | null> {
  if (!row.held || (row.class !== 'urgent' && row.class !== 'critical')) return null
  const policy = await currentPolicy(scope, db)
  const good = row.found_at === null ? 0 : goodReadings(row.assessment?.visits ?? [], row.class, Date.parse(row.found_at), policy)
  const read = row.found_reading_id === null ? undefined : await db.row<ReadingOfFinding>(findingReading(row.found_reading_id, row.id))
  return {
    found_at: row.found_at, ratio: row.found_ratio, reading_id: row.found_reading_id, survey: read?.survey ?? null, withdrawn: read?.withdrawn ?? null,
    moved: read?.moved ?? false, later: laterThan(row), good_readings: good,
    needed_readings: policy.hold.independentReadings, apart_h: policy.hold.apartHours,
  }
}

/** The governing side's reading, where it is newer than the finding. */
function laterThan({ found_at: foundAt, assessment }: HeldRow): HeldFinding['later'] {
  const side = assessment?.sides.find((one) => one.side === assessment.governingSide)
  if (!side || side.takenAtMs === undefined || (foundAt !== null && side.takenAtMs <= Date.parse(foundAt))) return null
  return { at: new Date(side.takenAtMs).toISOString(), ratio: side.ratio, class: side.class }
}
