import { carriedK } from '@/lib/condition/loading/carried-k'
import { anyAtLeast } from '@/lib/condition/within-crimp'
import { explain, type Assessment, type SpliceKind } from '@/lib/condition'
import type { SpliceDetail, SpliceSummary } from '@/lib/contract/contract'
import { callsOfSplice } from './calls'
import { temperaturesOf } from './joint-temperatures'
import { tripOfSpliceOf } from './if-it-trips'
import { limitsOfSplice } from './limits'
import { heldLimit } from './held-limit'
import { inHotterAir } from './hotter-air'
import { outlookOf } from './outlook'
import { otherPhasesOf } from './other-phases'
import { otherPlacesOf } from './other-places'
import { currentPolicy } from './policies'
import { positionTextOf } from './position'
import { readingsOfSplice } from './readings'
import { heldFinding, type HeldRow } from './held-finding'
import { onCircuit, type Scope } from './scope'
import { getSettings } from './settings'
import { historyOf } from './splice-history'
import { spliceDetailQuestion } from './sql/splice-detail'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'
import { ownerOf } from './watch'

type DetailRow = SpliceSummary & Pick<SpliceDetail, 'line_name' | 'fitting_type' | 'barrel_od_mm' | 'barrel_length_mm' | 'installed_on' | 'batch' | 'removed_on' | 'span_m'
  | 'conductor' | 'subconductors' | 'rating_a' | 'max_operating_c' | 'elevation_m' | 'last_load' | 'expected_peak' | 'post_contingency'
  | 'assessed_at' | 'raised_at' | 'first_found_at' | 'read_in_at'> & HeldRow & { assessment: Assessment | null }

/** Everything about one splice, also about one that was removed from the line. */
export async function getSplice(scope: Scope, id: number, db: Db = database()): Promise<SpliceDetail | undefined> {
  const found = await db.row<DetailRow>(spliceDetailQuestion(sql`s.id = ${id} AND ${onCircuit(scope, 's.circuit_id')}`))
  if (!found) return undefined
  const { found_ratio: foundRatio, found_reading_id: _, ...row } = found
  const [hold, otherPhases, history, limits, calls, owner, trip, otherPlaces, readings, settings, position, policy] = await Promise.all([
    heldFinding(scope, found, db),
    otherPhasesOf(scope, id, db),
    historyOf(scope, id, db),
    limitsOfSplice(scope, id, Date.now(), db),
    callsOfSplice(scope, id, db),
    ownerOf(scope, id, db),
    tripOfSpliceOf(scope, id, db),
    otherPlacesOf(scope, id, db),
    readingsOfSplice(scope, id, db),
    getSettings(scope, db),
    positionTextOf(scope, db),
    currentPolicy(scope, db),
  ])
  if (!trip) return undefined // it went between the questions
  const nowMs = Date.now()
  const shown = { held: row.held, foundRatio: foundRatio ?? undefined, foundAtMs: row.found_at === null ? undefined : Date.parse(row.found_at) }
  const carried = row.assessment && carriedK({ ...row.assessment, limitK: row.assessment.limit?.k }, shown, nowMs, policy)
  const held = row.assessment && carried ? heldLimit(row, carried, foundRatio, row.assessment, policy) : undefined
  const judged = row.assessment && held ? { ...row.assessment, limit: held } : row.assessment
  const outlook = judged && carried && outlookOf(judged, { kind: row.kind as SpliceKind, conductorCode: row.conductor ?? undefined, fittingType: row.fitting_type ?? undefined }, { held: row.held, figure: carried.figure }, policy)
  const words = row.assessment && explain(outlook?.limit && !held ? row.assessment : withoutLimit(row.assessment), {
    unitSystem: settings.unit_system, timeZone: settings.time_zone, nowMs, shown: {
      class: row.class, ...shown,
    },
  })
  return {
    ...row,
    position_text: position(row),
    assessment: row.assessment && { ...row.assessment },
    outlook: outlook && { ...outlook, in_hotter_air: inHotterAir(row, outlook.limit, policy) },
    temperatures: carried && row.removed_on === null ? temperaturesOf(row, { ...carried, held: row.held, raisedBy: row.assessment?.raisedBy, atLeast: anyAtLeast(row.assessment?.sides ?? []) }, readings, policy, nowMs) : null,
    assessment_text: words && { headline: words.headline, reasons: words.reasons, next_actions: words.nextActions, flags: words.flags },
    hold,
    other_phases: otherPhases,
    limits,
    calls,
    owner,
    if_it_trips: trip,
    other_places: otherPlaces,
    history,
    readings,
  }
}

/** What is said of a splice where no current is given for it. */
const withoutLimit = (assessment: Assessment): Assessment =>
  ({ ...assessment, reasons: assessment.reasons.filter(({ code }) => code !== 'limit' && code !== 'limit-of-section') })
