import { ownNumbersAt, type ConductorDoubt, type Evidence, type Policy } from '@/lib/condition'
import { buildNetwork, buildSpliceTable, placeReadings, type PlacementOutcome } from '@/lib/geo'
import type { ReadingRecord } from '@/lib/intake'
import { evidenceOf } from '@/lib/store/evidence'
import { loadKnownSplices, loadNetwork } from '@/lib/store/network'
import type { PositionRow } from '@/lib/store/position'
import type { ReasonSentence } from '@/lib/store/reading-json'
import type { Scope } from '@/lib/store/scope'
import { loadSectionFacts, type SectionFacts } from '@/lib/store/section-facts'
import { spliceNames } from '@/lib/store/splices'
import { database } from '@/lib/store/transaction'
import { ReadingColumns } from '../readings/reading-columns'
import type { Becomes } from './describe'

/** `doubt`: its conductor reading cannot be that of the conductor on record. */
export interface PlacedRow { becomes: Becomes; doubt?: ConductorDoubt }

export interface Speech { position: (row: PositionRow) => string; sentence: ReasonSentence; policy: Policy; survey: string }

/** Where these readings would be placed, in words. Tracks are only as long as what is given, so more may go to review than in the import. */
export async function placeRows(scope: Scope, records: readonly ReadingRecord[], speech: Speech): Promise<PlacedRow[]> {
  const { phasing, ...input } = await loadNetwork(scope)
  const network = buildNetwork(input)
  const columns = new ReadingColumns()
  const points = records.map((record) => columns.point(columns.add(record, 0, { id: 0, name: record.survey ?? speech.survey })))
  const { outcomes } = placeReadings(network, points, buildSpliceTable(network, await loadKnownSplices(scope)), phasing)
  const known = outcomes.map((outcome) => outcome.spliceId).filter((id) => id !== undefined)
  const names = await spliceNames(scope, known, database())
  const facts = await loadSectionFacts(scope)
  return records.map((record, i) => {
    const outcome = outcomes[i]
    const becomes = outcome ? outcomeWords(record, outcome, names, speech) : { state: 'read' as const, text: 'Read' }
    const { own_class, doubt } = ownOf(record, evidenceOf(columns.evidence(i), { back: null, ahead: null }), outcome, facts, speech.policy)
    return { becomes: { ...becomes, ...(own_class && { own_class, ...(doubt && { own_provisional: true }) }) }, doubt }
  })
}

function outcomeWords(record: ReadingRecord, outcome: PlacementOutcome, names: ReadonlyMap<number, string>, { position, sentence }: Speech): Becomes {
  const { chosen, spliceId } = outcome
  if (!chosen) {
    const reason = outcome.reasons[0]
    return { state: 'review', text: reason ? sentence(reason) : 'No place was found.', lon: record.lon, lat: record.lat }
  }
  // A row that names structures alone does not say where between them: neither words nor mark pretend that it does.
  const isSomewhere = record.lon === null && record.offsetFromStructureM === null && record.spanFraction === null && (record.structureBack ?? record.structureAhead) !== null
  const place = position({
    structure_back: chosen.structureBack ?? null, structure_ahead: chosen.structureAhead ?? null, offset_m: isSomewhere ? null : chosen.offsetFromStructureM,
    line_distance_m: chosen.lineDistanceM, phase: outcome.phase ?? record.phase, position: record.position, circuit_side: record.circuitSide,
    subconductor: record.subconductor,
  })
  const splice = spliceId === undefined ? 'a new splice' : `splice ${names.get(spliceId) ?? spliceId}`
  const at = isSomewhere ? {} : { lon: chosen.lon, lat: chosen.lat }
  return { state: 'placed', text: `On ${splice} of circuit ${chosen.circuit}, ${place}`, ...at }
}

function ownOf(
  record: ReadingRecord, evidence: Evidence, outcome: PlacementOutcome | undefined, facts: SectionFacts, policy: Policy,
): Pick<PlacedRow, 'doubt'> & Pick<Becomes, 'own_class'> {
  const at = outcome?.chosen ? [outcome.chosen] : outcome?.candidates ?? []
  const places = at.length > 0 ? at.map(({ sectionId }) => facts.ofSection(sectionId)).filter((found) => found !== undefined)
    : record.circuitLabel === null ? [] : facts.named(record.circuitLabel, record.sectionLabel)
  const { class: own, urgent, doubt } = ownNumbersAt(evidence, places, policy)
  return { doubt, ...(urgent && { own_class: own === 'critical' ? 'critical' : 'urgent' }) }
}
