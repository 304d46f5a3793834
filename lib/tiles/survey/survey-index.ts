import { SURVEY_PHASES, surveyFilterToQuery, type SurveyFilter, type SurveyPhase } from '@/lib/contract/survey-layer'
import type { LineCircuit, LineSpan } from '@/lib/store/tile-sources'
import { spanLanes } from '../circuits/lanes'
import { yearBits, type SpanLooks } from './looks'
import { spanLook, type SpanLook } from './span-state'

/** What the survey layer, its figures and its list are made of. */
export interface SurveyIndex {
  /** In order of circuit, section and place along it. */
  spans: LineSpan[]
  lanes: Map<number, number>
  circuits: Map<number, LineCircuit>
  /** Of circuits with a phasing table. */
  phased: Map<number, SurveyPhase[]>
  looks: SpanLooks
  /** Spans that filters ask about, the last asked for last. */
  asked: Map<string, AskedSpan[]>
}

export interface AskedSpan { span: LineSpan; look: SpanLook }

const MOST_ASKED = 4

export function buildSurveyIndex(
  spans: LineSpan[], circuits: Map<number, LineCircuit>, phasing: readonly { circuitId: number; phases: string[] }[], looks: SpanLooks,
): SurveyIndex {
  const lanes = new Map([...spanLanes(spans)].map(([id, { lane }]) => [id, lane]))
  const phased = new Map(phasing.flatMap(({ circuitId, phases }) => {
    const known = SURVEY_PHASES.filter((phase) => phases.includes(phase))
    return known.length > 0 ? [[circuitId, known] as const] : []
  }))
  return { spans, lanes, circuits, phased, looks, asked: new Map() }
}

/** The phases of a circuit that a filter asks about: of its own those that are chosen, or all. */
export function phasesAsked(index: SurveyIndex, circuitId: number, filter: SurveyFilter): readonly SurveyPhase[] {
  const own = index.phased.get(circuitId) ?? SURVEY_PHASES
  return filter.phases ? own.filter((phase) => filter.phases?.includes(phase)) : own
}

const passes = (circuit: LineCircuit | undefined, { circuitIds, voltagesKv }: SurveyFilter): boolean =>
  circuit !== undefined && (circuitIds?.includes(circuit.id) ?? true) && (!voltagesKv || (circuit.voltageKv !== null && voltagesKv.includes(circuit.voltageKv)))

export const lookAt = (index: SurveyIndex, span: Pick<LineSpan, 'id' | 'circuitId'>, filter: SurveyFilter): SpanLook | null => {
  if (!passes(index.circuits.get(span.circuitId), filter)) return null
  const phases = phasesAsked(index, span.circuitId, filter)
  return phases.length === 0 ? null : spanLook(index.looks, span.id, phases, !filter.phases, yearBits(filter.years, index.looks.firstYear))
}

/** Every span that a filter asks about with how it was looked at, in line order; kept for the filters asked last. */
export function askedSpans(index: SurveyIndex, filter: SurveyFilter): AskedSpan[] {
  const key = surveyFilterToQuery(filter)
  const held = index.asked.get(key)
  const spans = held ?? index.spans.flatMap((span) => {
    const look = lookAt(index, span, filter)
    return look ? [{ span, look }] : []
  })
  index.asked.delete(key)
  index.asked.set(key, spans)
  for (const old of index.asked.keys()) if (index.asked.size > MOST_ASKED) index.asked.delete(old)
  return spans
}
