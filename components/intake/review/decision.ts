import type { Candidate, ReviewItem } from '@/lib/contract/contract'
import type { PlacementDecision } from '@/lib/contract/intake'
import type { UnitSystem } from '@/lib/units/format'

export interface Position {
  lon: number
  lat: number
}

export interface CircuitThere {
  id: number
  name: string
}

/** What a person has chosen for one reading and not yet said. */
export interface DecisionDraft {
  candidate: number | null
  /** The splice in reach that it belongs to, a new one, or not chosen yet. */
  splice: number | 'new' | null
  /** A, B, C, or null: not confirmed. */
  phase: string | null
  /** Where the mark was put by hand; null: at the candidate. */
  mark: Position | null
  /** The mark has left the place where it appeared. */
  markMoved: boolean
  /** The circuit a moved mark belongs to; null: the nearest line. */
  circuitId: number | null
  /** Circuits that stand where a search took the mark: of several a person says which, for they lie side by side. */
  standing: readonly CircuitThere[]
  /** Arrow keys move the mark. */
  moving: boolean
  rejecting: boolean
  reason: string
}

export const declaredPhase = (item: ReviewItem): string | null => {
  const phase = item.reading.fields['phase']
  return typeof phase === 'string' && phase !== '' ? phase : null
}

/** Splices of a candidate that the reading's phase does not rule out. */
export const splicesInReach = (candidate: Candidate, phase: string | null): Candidate['splices'] =>
  candidate.splices.filter((s) => phase === null || s.phase === null || s.phase === phase)

/** The one in reach; a new one where none is; nobody's guess where there are several. */
export function usualSplice(candidate: Candidate | undefined, phase: string | null): DecisionDraft['splice'] {
  if (!candidate) return null
  const [first, second] = splicesInReach(candidate, phase)
  if (!first) return 'new'
  return second ? null : first.splice_id
}

const likeliest = ({ candidates }: ReviewItem): number | null =>
  candidates.reduce<number | null>((at, c, n, all) => (at === null || c.probability > (all[at]?.probability ?? 0) ? n : at), null)

/**
 * The likeliest candidate stands chosen, and nothing is decided before somebody says so. Where the reading's own numbers are urgent or
 * critical nothing stands chosen: a crew sent to the wrong circuit costs more than a keystroke.
 */
export function newDecision(item: ReviewItem): DecisionDraft {
  const phase = declaredPhase(item)
  const best = item.urgent ? null : likeliest(item)
  return {
    candidate: best,
    splice: usualSplice(best === null ? undefined : item.candidates[best], phase),
    phase,
    mark: null,
    markMoved: false,
    circuitId: null,
    standing: [],
    moving: false,
    rejecting: false,
    reason: '',
  }
}

export type DecisionChange =
  | { type: 'candidate'; index: number }
  | { type: 'splice'; splice: number | 'new' }
  | { type: 'next-splice' }
  | { type: 'phase'; phase: string | null }
  | { type: 'mark'; mark: Position }
  | { type: 'found'; mark: Position; circuits: readonly CircuitThere[] }
  | { type: 'circuit'; circuitId: number | null }
  | { type: 'move'; from: Position }
  | { type: 'reject' }
  | { type: 'reason'; reason: string }
  | { type: 'cancel' }

export function decide(draft: DecisionDraft, change: DecisionChange, item: ReviewItem): DecisionDraft {
  const chosen = draft.candidate === null ? undefined : item.candidates[draft.candidate]
  switch (change.type) {
    case 'candidate': {
      const next = item.candidates[change.index]
      if (!next) return draft
      return { ...draft, candidate: change.index, splice: usualSplice(next, draft.phase), mark: null, markMoved: false, standing: [], moving: false, rejecting: false }
    }
    case 'splice':
      return { ...draft, splice: change.splice }
    case 'next-splice':
      return chosen ? { ...draft, splice: afterSplice(chosen, draft) } : draft
    case 'phase':
      return { ...draft, phase: change.phase, splice: draft.splice === 'new' ? 'new' : usualSplice(chosen, change.phase) }
    case 'mark':
      return { ...draft, mark: change.mark, markMoved: true, rejecting: false }
    case 'found': {
      const [only, other] = change.circuits
      const circuitId = only && !other ? only.id : null
      return { ...draft, mark: change.mark, markMoved: true, moving: false, rejecting: false, standing: change.circuits, circuitId }
    }
    case 'circuit':
      return { ...draft, circuitId: change.circuitId }
    case 'move':
      return { ...draft, moving: true, rejecting: false, mark: draft.mark ?? change.from }
    case 'reject':
      return { ...draft, rejecting: true, moving: false }
    case 'reason':
      return { ...draft, reason: change.reason }
    case 'cancel':
      return { ...draft, moving: false, rejecting: false, mark: null, markMoved: false, circuitId: null, standing: [] }
  }
}

function afterSplice(candidate: Candidate, draft: DecisionDraft): DecisionDraft['splice'] {
  const order: (number | 'new')[] = [...splicesInReach(candidate, draft.phase).map((s) => s.splice_id), 'new']
  const at = draft.splice === null ? -1 : order.indexOf(draft.splice)
  return order[(at + 1) % order.length] ?? 'new'
}

/** What would be sent, or the sentence that says what is missing. */
export function asDecision(
  draft: DecisionDraft,
  item: ReviewItem,
): { ready: true; decision: PlacementDecision } | { ready: false; why: string } {
  const phase = draft.phase === null ? {} : { phase: draft.phase }
  if (draft.mark !== null) {
    if (item.urgent && !draft.markMoved && draft.circuitId === null) {
      return { ready: false, why: 'Move the mark to where it was read, or choose its circuit.' }
    }
    if (draft.circuitId === null && draft.standing.length > 1) {
      return { ready: false, why: `${draft.standing.map(({ name }) => name).join(' and ')} stand there side by side: choose the circuit.` }
    }
    const circuit = draft.circuitId === null ? {} : { circuit_id: draft.circuitId }
    return { ready: true, decision: { action: 'drag', lon: draft.mark.lon, lat: draft.mark.lat, ...circuit, ...phase } }
  }
  if (draft.candidate === null && item.candidates.length > 0) {
    return { ready: false, why: 'Urgent or critical: choose where it belongs.' }
  }
  if (draft.candidate === null || !item.candidates[draft.candidate]) {
    return { ready: false, why: 'No line lies in reach: move the mark to where it was read, or set the reading aside.' }
  }
  if (draft.splice === null) return { ready: false, why: 'Several splices lie in reach: choose one of them, or a new one.' }
  const splice = draft.splice === 'new' ? { new_splice: true } : { splice_id: draft.splice }
  return { ready: true, decision: { action: 'accept', candidate: draft.candidate, ...splice, ...phase } }
}

/** What is urgent or critical is not set aside without a word that others can judge. */
export const lacksReason = ({ reason }: DecisionDraft, { urgent }: Pick<ReviewItem, 'urgent'>): boolean => urgent && reason.trim() === ''

/** How far the arrow keys move the mark, and with Shift: 1 m and 10 m, or 3 ft and 30 ft. */
export const stepM = (system: UnitSystem, big: boolean): number => (system === 'us' ? 0.9144 : 1) * (big ? 10 : 1)
export const stepWords = (system: UnitSystem): string => (system === 'us' ? '3 ft, with Shift 30 ft' : '1 m, with Shift 10 m')

/** A mark moved north and east by metres; good to a millimetre over such steps. */
export function moved(from: Position, eastM: number, northM: number): Position {
  const mPerDegreeLat = 111_320
  const mPerDegreeLon = mPerDegreeLat * Math.cos((from.lat * Math.PI) / 180)
  return { lon: from.lon + eastM / mPerDegreeLon, lat: from.lat + northM / mPerDegreeLat }
}
