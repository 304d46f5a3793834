import { buildNetwork, buildSpliceTable, placeReadings, type PlacementCandidate } from '@/lib/geo'
import type { PlacementDecision } from '@/lib/contract/intake'
import { err, ok, type Result } from '@/lib/result/result'
import { loadKnownSplices, loadNetwork } from '@/lib/store/network'
import type { CurrentPlacement, NewPlacement } from '@/lib/store/placements'
import type { ReadingSays } from '@/lib/store/readings'
import type { Scope } from '@/lib/store/scope'
import { spanAt } from '@/lib/store/spans'
import { splicePlace } from '@/lib/store/splices'
import type { Tx } from '@/lib/store/transaction'
import { refuse, type CaseError } from '../problem'
import { makeSplice } from './make-splice'

/** A mark is dragged by hand: it is good to about this. */
const HAND_SIGMA_M = 4
/** Along the line, a known splice of the same phase this close to the mark is the one that is meant. */
const REACH_M = 25

/** What a person's decision makes of a reading. */
export async function decide(
  scope: Scope, tx: Tx, current: CurrentPlacement, says: ReadingSays, decision: PlacementDecision,
): Promise<Result<NewPlacement, CaseError>> {
  switch (decision.action) {
    case 'reject': return ok(rejected(current, decision.reason))
    case 'accept': return accepted(scope, tx, current, says, decision)
    case 'drag': return dragged(scope, tx, current, says, decision)
  }
}

const rejected = (current: CurrentPlacement, reason: string | undefined): NewPlacement => ({
  readingId: current.reading_id, state: 'rejected', method: 'person', place: null, spliceId: null, probability: null,
  reasons: [{ code: 'person-rejected', ...(reason ? { values: { reason } } : {}) }], candidates: current.candidates,
})

async function accepted(
  scope: Scope, tx: Tx, current: CurrentPlacement, says: ReadingSays, decision: Extract<PlacementDecision, { action: 'accept' }>,
): Promise<Result<NewPlacement, CaseError>> {
  const candidate = current.candidates[decision.candidate]
  if (!candidate) {
    return refuse('no-such-candidate', `This reading has ${current.candidates.length} candidates; number ${decision.candidate + 1} was chosen.`,
      'Choose one that is listed, or drag the mark to its place.')
  }
  const wanted = decision.new_splice ? 'new' : decision.splice_id ?? candidate.splices[0]?.spliceId ?? 'new'
  return onCandidate(scope, tx, current, says, candidate, { wanted, phase: decision.phase, code: 'person-accepted' })
}

async function dragged(
  scope: Scope, tx: Tx, current: CurrentPlacement, says: ReadingSays, decision: Extract<PlacementDecision, { action: 'drag' }>,
): Promise<Result<NewPlacement, CaseError>> {
  const { phasing, ...input } = await loadNetwork(scope, tx)
  const network = buildNetwork(input)
  const point = {
    index: 0, lon: decision.lon, lat: decision.lat, sigmaM: HAND_SIGMA_M, positionOf: 'target' as const,
    phase: decision.phase ?? says.phase ?? undefined, position: says.position ?? undefined, subconductor: says.subconductor ?? undefined,
  }
  const [outcome] = placeReadings(network, [point], buildSpliceTable(network, await loadKnownSplices(scope, tx)), phasing, { maxCandidates: 16 }).outcomes
  const candidate = outcome?.candidates.find((one) => decision.circuit_id === undefined || one.circuitId === decision.circuit_id)
  if (!outcome || !candidate) {
    return refuse('nothing-in-reach', decision.circuit_id === undefined ? 'No line lies near this place.' : 'That circuit does not pass near this place.',
      'Drag the mark closer to the line.')
  }
  const near = candidate.splices.find((splice) => Math.abs(splice.alongM) <= REACH_M)
  return onCandidate(scope, tx, { ...current, candidates: outcome.candidates }, says, candidate, {
    wanted: near?.spliceId ?? 'new', phase: decision.phase ?? outcome.phase, code: 'person-dragged',
  })
}

interface Wanted { wanted: number | 'new'; phase: string | undefined; code: 'person-accepted' | 'person-dragged' }

async function onCandidate(
  scope: Scope, tx: Tx, current: CurrentPlacement, says: ReadingSays, at: PlacementCandidate, { wanted, phase, code }: Wanted,
): Promise<Result<NewPlacement, CaseError>> {
  const span = await spanAt(scope, at.sectionId, at.lineDistanceM, tx)
  if (!span) return refuse('no-such-candidate', `The line of circuit ${at.circuit} has changed since.`, 'Drag the mark to its place on the line as it is now.')
  const place = { circuitId: span.circuit_id, sectionId: span.section_id, spanId: span.id, lineDistanceM: at.lineDistanceM, lon: at.lon, lat: at.lat, offsetM: at.offsetM }
  const chosen = wanted === 'new' ? ok(await makeSplice(scope, tx, place, span, says, phase)) : await known(scope, tx, wanted, place.circuitId, phase)
  if (!chosen.ok) return err(chosen.error)
  return ok({
    readingId: current.reading_id, state: 'placed', method: 'person', place, spliceId: chosen.value, probability: at.probability,
    reasons: [{ code }], candidates: current.candidates,
  })
}

async function known(scope: Scope, tx: Tx, id: number, circuitId: number, phase: string | undefined): Promise<Result<number, CaseError>> {
  const splice = await splicePlace(scope, id, tx)
  if (!splice) return refuse('invalid', `There is no splice with the number ${id} in service.`, 'Choose a splice from the list.')
  if (splice.circuit_id !== circuitId) return refuse('invalid', 'That splice is on another circuit than the chosen place.', 'Choose the candidate of its circuit, or drag the mark there.')
  if (phase !== undefined && splice.phase !== null && splice.phase !== phase) {
    return refuse('invalid', `That splice is on phase ${splice.phase}, not on ${phase}.`, 'Choose a splice of this phase, or leave the phase open.')
  }
  return ok(id)
}
