import { setImmediate as breathe } from 'node:timers/promises'
import { ownNumbersAt, type OwnNumbers, type Policy } from '@/lib/condition'
import { buildNetwork, buildSpliceTable, nameKey, placeEach, type KnownSplice, type NewSplice, type PlacementOutcome } from '@/lib/geo'
import type { SpanSeen } from '@/lib/store/coverage'
import { loadKnownSplices, loadNetwork, spliceLabels } from '@/lib/store/network'
import { PlacementRows } from '@/lib/store/placement-rows'
import { insertSplices, structuresAtBack } from '@/lib/store/splice-writes'
import { evidenceOf } from '@/lib/store/evidence'
import { loadSectionFacts, type SectionFacts } from '@/lib/store/section-facts'
import type { NewNotice } from '@/lib/store/urgent'
import { conductorIssue } from '@/lib/intake/report/conductor-doubt'
import type { ImportContext } from '../importing/context'
import { noticeCircuits } from './notice-circuits'
import type { ReadingColumns } from './reading-columns'
import type { StoredReadings } from './store-readings'
import { UnknownDeclared } from './unknown-declared'
import { WaitingRows } from './waiting-rows'

/** Passes are placed together up to about this many readings, so that a server stays answerable in between. */
const TOGETHER = 20_000

export interface PlacedImport {
  placed: number
  review: number
  newSplices: number
  /** Indexes of the readings placed on each splice. */
  onSplice: Map<number, number[]>
  circuitIds: Set<number>
  notices: NewNotice[]
  waiting: WaitingRows
  /** Spans and phases that the readings have seen. */
  seen: Iterable<SpanSeen>
}

/** Finds the place of every reading of an import and writes it, with the splices that it found and nobody knew. */
export async function placeImport(context: ImportContext, stored: StoredReadings): Promise<PlacedImport> {
  const rows = await PlacementRows.of(context.scope, context.importId, context.tx)
  try {
    const placed = await placeAll(context, stored, rows)
    await rows.flush()
    return placed
  } catch (e) {
    await rows.breakOff()
    throw e
  }
}

async function placeAll(context: ImportContext, stored: StoredReadings, rows: PlacementRows): Promise<PlacedImport> {
  const { scope, tx } = context
  const result: PlacedImport = { placed: 0, review: 0, newSplices: 0, onSplice: new Map(), circuitIds: new Set(), notices: [], waiting: new WaitingRows(), seen: [] }
  const { phasing, ...input } = await loadNetwork(scope, tx)
  const network = buildNetwork(input)
  const known = await loadKnownSplices(scope, tx)
  let splices = buildSpliceTable(network, known)
  const facts = await loadSectionFacts(scope, tx)
  const circuits = new Map(network.sections.map((s) => [nameKey(s.circuit), { circuitId: s.circuitId, circuit: s.circuit }]))
  const unknown = new UnknownDeclared()
  let done = 0
  for (const group of stored.readings.passes(TOGETHER)) {
    const points = group.map((index) => stored.readings.point(index))
    const { newSplices, newSpliceOf, outcomes } = placeEach(network, points, splices, phasing)
    const found = new Map<string, number>()
    if (newSplices.length > 0) {
      await rows.flush()
      for (const { key, splice } of await storeNew(context, newSplices, newSpliceOf)) {
        found.set(key, splice.spliceId)
        known.push(splice)
      }
      splices = buildSpliceTable(network, known)
      result.newSplices += newSplices.length
    }
    for (const outcome of outcomes) {
      const spliceId = outcome.spliceId ?? found.get(outcome.newSpliceKey ?? '')
      rows.add(stored.readings.id(outcome.index), outcome, spliceId)
      count(result, outcome, spliceId)
      notice(context, result, stored, outcome, facts, circuits)
      unknown.look(outcome, stored.readings.rowNo(outcome.index))
      result.waiting.look(outcome, stored.readings.rowNo(outcome.index), () => stored.readings.point(outcome.index))
      done++
      if (!rows.isFull) continue
      await rows.send()
      context.progress('placing', done)
      await breathe()
    }
    context.progress('placing', done)
  }
  for (const issue of unknown.issues([...circuits.values()].map((one) => one.circuit))) context.issues.add(issue)
  return { ...result, seen: spansSeen(stored, result.onSplice, known) }
}

function count(result: PlacedImport, { index, state, chosen }: PlacementOutcome, spliceId: number | undefined): void {
  if (state === 'placed') result.placed++
  else result.review++
  if (chosen) result.circuitIds.add(chosen.circuitId)
  if (spliceId === undefined) return
  const list = result.onSplice.get(spliceId)
  if (list) list.push(index)
  else result.onSplice.set(spliceId, [index])
}

type Circuits = ReadonlyMap<string, { circuitId: number; circuit: string }>

function notice(
  context: ImportContext, result: PlacedImport, { readings, urgent }: StoredReadings, outcome: PlacementOutcome, facts: SectionFacts, circuits: Circuits,
): void {
  const { index } = outcome
  // A reading that has its splice is looked at with that splice's facts once it is assessed.
  const own = outcome.state === 'review' ? ownOfUnplaced(context.policy, readings, outcome, facts) ?? urgent.get(index) : urgent.get(index)
  if (own?.doubt && outcome.state === 'review') context.issues.add(conductorIssue(own.doubt, readings.rowNo(index), context.conductorUnit))
  if (own?.class !== 'urgent' && own?.class !== 'critical') return
  const declared = circuits.get(nameKey(readings.circuit(index) ?? ''))
  result.notices.push({ readingId: readings.id(index), class: own.class, ratio: own.ratio ?? null, doubt: own.doubt, byTable: own.byTable, circuits: circuitsOf(outcome, declared) })
}

/** By its candidates' conductors and temperatures, or by those of the circuit it names. What was seen needs neither. */
function ownOfUnplaced(policy: Policy, readings: ReadingColumns, { index, candidates }: PlacementOutcome, facts: SectionFacts): OwnNumbers | null {
  if (readings.look(index).method === 'visual') return null
  const circuit = readings.circuit(index)
  const places = candidates.length > 0
    ? candidates.map(({ sectionId }) => facts.ofSection(sectionId)).filter((found) => found !== undefined)
    : circuit === undefined ? [] : facts.named(circuit, readings.section(index) ?? null)
  return ownNumbersAt(evidenceOf(readings.evidence(index), { back: null, ahead: null }), places, policy)
}

/** Each span, phase, method and survey once, with the last day. A reading without a time says nothing of when its span was looked at. */
function spansSeen({ readings }: StoredReadings, onSplice: ReadonlyMap<number, readonly number[]>, known: readonly KnownSplice[]): Iterable<SpanSeen> {
  const seen = new Map<string, SpanSeen>()
  for (const { spliceId, spanId, phase = null } of known) {
    for (const index of onSplice.get(spliceId) ?? []) {
      const { method, takenAtMs, surveyId } = readings.look(index)
      if (takenAtMs === null) continue
      const key = `${spanId} ${phase} ${method} ${surveyId}`
      const before = seen.get(key)
      if (!before) seen.set(key, { spanId, phase, method, surveyId, surveyedOnMs: takenAtMs })
      else if (before.surveyedOnMs < takenAtMs) before.surveyedOnMs = takenAtMs
    }
  }
  return seen.values()
}

interface FoundSplice { key: string; splice: KnownSplice }

/** Splices that a survey found, in the order in which its readings came upon them. */
async function storeNew(context: ImportContext, newSplices: readonly NewSplice[], newSpliceOf: Int32Array): Promise<FoundSplice[]> {
  const ordered = [...new Set(newSpliceOf)].flatMap((at) => newSplices[at] ?? [])
  const back = await structuresAtBack(context.scope, ordered.map((s) => s.spanId), context.tx)
  const taken = await spliceLabels(context.scope, [...new Set(ordered.filter((s) => s.label !== undefined).map((s) => s.circuitId))], context.tx)
  const free = (s: NewSplice): string | null => {
    if (s.label === undefined) return null
    const key = `${s.circuitId} ${nameKey(s.label)}`
    // A circuit has each name once: the second stays without, and its readings still say what they were labelled.
    if (taken.has(key)) return null
    taken.add(key)
    return s.label
  }
  const rows = ordered.map((s) => ({
    label: free(s), circuitId: s.circuitId, sectionId: s.sectionId, spanId: s.spanId, lineDistanceM: s.lineDistanceM, structureBackId: back.get(s.spanId) ?? null,
    offsetM: back.get(s.spanId) ? s.offsetFromStructureM : s.lineDistanceM, lon: s.lon, lat: s.lat, phase: s.phase ?? null, position: s.position ?? null,
    circuitSide: s.circuitSide ?? null, subconductor: s.subconductor ?? null, kind: 'full-tension splice', fittingType: null, barrelOdMm: null,
    barrelLengthMm: null, installedOn: null, batch: null, removedOn: null, foundBySurvey: true,
  }))
  const ids = await insertSplices(context.scope, context.importId, rows, context.tx)
  return ordered.map((s, i) => ({
    key: s.key,
    splice: {
      spliceId: ids[i] ?? 0, label: rows[i]?.label ?? undefined, circuitId: s.circuitId, sectionId: s.sectionId, spanId: s.spanId,
      lineDistanceM: s.lineDistanceM, phase: s.phase, position: s.position, circuitSide: s.circuitSide, subconductor: s.subconductor,
    },
  }))
}

/** Where an urgent reading may be: its candidates, each circuit once, or the circuit it names. */
function circuitsOf(outcome: PlacementOutcome, declared: { circuitId: number; circuit: string } | undefined): NewNotice['circuits'] {
  const circuits = noticeCircuits(outcome.chosen ? [outcome.chosen] : outcome.candidates)
  return circuits.length === 0 && declared ? [{ ...declared, probability: null }] : circuits
}
