import { explain, type Assessment } from '@/lib/condition'
import type { SpliceDetail, SpliceSummary } from '@/lib/contract/contract'
import { positionTextOf } from './position'
import { readingsOfSplice } from './readings'
import { onCircuit, type Scope } from './scope'
import { getSettings } from './settings'
import { iso } from './sql/iso'
import { spliceDetailQuestion } from './sql/splice-detail'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

type DetailRow = SpliceSummary & Pick<SpliceDetail, 'fitting_type' | 'barrel_od_mm' | 'barrel_length_mm' | 'installed_on' | 'batch' | 'removed_on'
  | 'conductor' | 'subconductors' | 'rating_a' | 'max_operating_c' | 'assessed_at'> & { assessment: Assessment | null }

type HistoryLine = SpliceDetail['history'][number]

/** Everything about one splice, also about one that was removed from the line. */
export async function getSplice(scope: Scope, id: number, db: Db = database()): Promise<SpliceDetail | undefined> {
  const row = await db.row<DetailRow>(spliceDetailQuestion(sql`s.id = ${id} AND ${onCircuit(scope, 's.circuit_id')}`))
  if (!row) return undefined
  const [history, readings, settings, position] = await Promise.all([
    db.rows<HistoryLine>(sql`
      SELECT ${iso('assessed_at')} AS assessed_at, class, confidence, ratio, cause, engine_version, policy_version
      FROM assessment WHERE splice_id = ${id} ORDER BY assessment.assessed_at DESC, id DESC LIMIT 200`),
    readingsOfSplice(scope, id, db),
    getSettings(scope, db),
    positionTextOf(scope, db),
  ])
  const words = row.assessment && explain(row.assessment, {
    unitSystem: settings.unit_system, timeZone: settings.time_zone, shown: { class: row.class, held: row.held },
  })
  return {
    ...row,
    position_text: position(row),
    assessment: row.assessment && { ...row.assessment },
    assessment_text: words && { headline: words.headline, reasons: words.reasons, next_actions: words.nextActions, flags: words.flags },
    history,
    readings,
  }
}
