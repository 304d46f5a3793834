import { buildNetwork, buildSpliceTable, nameKey, placeReadings, type PlacementOutcome } from '@/lib/geo'
import { positionSigmaM, type ReadingDraft, type ReadingRecord, type RowAlarm } from '@/lib/intake'
import type { RowSays } from '@/lib/contract/urgent'
import { loadKnownSplices, loadNetwork } from '@/lib/store/network'
import { insertUnreadRows, linkCorrectedRows, type NewUnreadRow } from '@/lib/store/unread-rows'
import type { ImportContext } from '../importing/context'
import { noticeCircuits } from './notice-circuits'
import { ReadingColumns } from './reading-columns'

/**
 * The rows of this import that were not read though their own numbers cannot wait come before operations like readings do, and the rows
 * that it brings corrected take over the notices of theirs. After the notices of its readings were written.
 */
export async function noticeUnreadRows(context: ImportContext): Promise<void> {
  const { scope, tx, importId, unread } = context
  await linkCorrectedRows(scope, importId, unread.origins, tx)
  if (unread.alarms.length > 0) await insertUnreadRows(scope, importId, await rowsOf(context), tx)
}

/** Where each row may be, found as for a reading that is read. */
async function rowsOf({ scope, tx, survey, issues, unread }: ImportContext): Promise<NewUnreadRow[]> {
  const { phasing, ...input } = await loadNetwork(scope, tx)
  const network = buildNetwork(input)
  const columns = new ReadingColumns()
  const points = unread.alarms.map(({ says }) => columns.point(columns.add(asRecord(says), 0, { id: 0, name: says.survey ?? survey })))
  const { outcomes } = placeReadings(network, points, buildSpliceTable(network, await loadKnownSplices(scope, tx)), phasing)
  const named = new Map(network.sections.map((s) => [nameKey(s.circuit), { circuitId: s.circuitId, circuit: s.circuit }]))
  return unread.alarms.map((alarm, i) => {
    const { says } = alarm
    const outcome = outcomes[i]
    const found = noticeCircuits(placesOf(outcome))
    const declared = says.circuitLabel === null ? undefined : named.get(nameKey(says.circuitLabel))
    return {
      ...alarm, says: saysOf(alarm, outcome), line: issues.lineOf(alarm.row) ?? null, survey: says.survey ?? survey,
      readingKey: says.readingKey === '' ? null : says.readingKey, origin: unread.origins.get(alarm.row),
      circuits: found.length === 0 && declared ? [{ ...declared, probability: null }] : found,
    }
  })
}

const placesOf = (outcome: PlacementOutcome | undefined) => (outcome?.chosen ? [outcome.chosen] : outcome?.candidates ?? [])

/** Only what could be read of the row counts; a row half of whose position was refused has none. */
function asRecord(draft: ReadingDraft): ReadingRecord {
  const placed = draft.lon !== null && draft.lat !== null
  return {
    ...draft, kind: draft.kind ?? 'resistance', positionOf: draft.positionOf ?? 'target', lon: placed ? draft.lon : null, lat: placed ? draft.lat : null,
    sigmaM: placed ? draft.sigmaM ?? positionSigmaM(draft.gnssAccuracyM, draft.platform) : null,
  }
}

function saysOf({ says }: RowAlarm, outcome: PlacementOutcome | undefined): RowSays {
  const [likeliest] = placesOf(outcome)
  return {
    circuit: says.circuitLabel, section: says.sectionLabel, splice: says.spliceLabel, structure_back: says.structureBack, structure_ahead: says.structureAhead,
    offset_m: says.offsetFromStructureM, phase: says.phase, position: says.position, circuit_side: says.circuitSide, subconductor: says.subconductor,
    taken_at: says.takenAt?.toISOString() ?? null, lon: says.lon, lat: says.lat, side_a_uohm: says.sideAUohm, side_b_uohm: says.sideBUohm,
    conductor_uohm: says.conductorUohm, splice_temp_c: says.spliceTempC,
    near: likeliest ? { structure_back: likeliest.structureBack ?? null, structure_ahead: likeliest.structureAhead ?? null } : null,
  }
}
