import { nameKey } from '@/lib/geo'
import { spliceLabels } from '@/lib/store/network'
import type { NewPlacement } from '@/lib/store/placements'
import type { ReadingSays } from '@/lib/store/readings'
import type { Scope } from '@/lib/store/scope'
import type { SpanAt } from '@/lib/store/spans'
import { insertSplices } from '@/lib/store/splice-writes'
import type { Tx } from '@/lib/store/transaction'

/** A splice that a reading found and nobody knew, at the place a person gave it. */
export async function makeSplice(
  scope: Scope, tx: Tx, place: NonNullable<NewPlacement['place']>, span: SpanAt, says: ReadingSays, phase: string | undefined,
): Promise<number> {
  const named = says.splice_label
  const isFree = named !== null && !(await spliceLabels(scope, [span.circuit_id], tx)).has(`${span.circuit_id} ${nameKey(named)}`)
  const [id = 0] = await insertSplices(scope, null, [{
    label: isFree ? named : null, circuitId: place.circuitId, sectionId: place.sectionId, spanId: span.id, lineDistanceM: place.lineDistanceM,
    structureBackId: span.structure_back_id, offsetM: span.structure_back_id === null ? place.lineDistanceM : Math.max(place.lineDistanceM - span.start_m, 0),
    lon: place.lon, lat: place.lat, phase: phase ?? says.phase, position: says.position, circuitSide: says.circuit_side, subconductor: says.subconductor,
    kind: 'full-tension splice', fittingType: null, barrelOdMm: null, barrelLengthMm: null, installedOn: null, batch: null, removedOn: null,
    foundBySurvey: true,
  }], tx)
  return id
}
