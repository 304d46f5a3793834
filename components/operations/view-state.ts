'use client'
import { useMemo } from 'react'
import {
  createParser,
  parseAsArrayOf,
  parseAsFloat,
  parseAsInteger,
  parseAsString,
  parseAsStringLiteral,
  throttle,
  useQueryStates,
} from 'nuqs'
import { CONDITION_CLASSES } from '@/lib/condition/types'
import { STRETCH_SORTS, SURVEY_PHASES } from '@/lib/contract/survey-layer'
import { AGES, CONFIDENCES, EVIDENCE, type SpliceFilter } from '@/lib/contract/filter'
import { formatStretch, parseStretch } from '@/components/strip/axis'
import { LIST_BY } from './list-rows'
import { formatMark, formatSelection, formatView, parseMark, parseSelection, parseView } from './view-text'

const viewParser = createParser({ parse: parseView, serialize: formatView, eq: (a, b) => formatView(a) === formatView(b) })
const selectionParser = createParser({
  parse: parseSelection,
  serialize: formatSelection,
  eq: (a, b) => formatSelection(a) === formatSelection(b),
})

const markParser = createParser({ parse: parseMark, serialize: formatMark, eq: (a, b) => formatMark(a) === formatMark(b) })

const stretchParser = createParser({ parse: parseStretch, serialize: formatStretch, eq: (a, b) => formatStretch(a) === formatStretch(b) })

const moves = { history: 'replace', limitUrlUpdates: throttle(300), scroll: false } as const
const steps = { history: 'push', scroll: false } as const

/** Everything the Operations screen shows stands in the address: what is shared or reloaded is what was seen. */
export const OPERATIONS_PARAMS = {
  at: viewParser.withOptions(moves),
  sel: selectionParser.withOptions(steps),
  class: parseAsArrayOf(parseAsStringLiteral(CONDITION_CLASSES)).withOptions({ ...moves, clearOnDefault: false }),
  circuit: parseAsArrayOf(parseAsInteger).withOptions(moves),
  voltage: parseAsArrayOf(parseAsFloat).withOptions(moves),
  phase: parseAsArrayOf(parseAsString).withOptions(moves),
  confidence: parseAsArrayOf(parseAsStringLiteral(CONFIDENCES)).withOptions(moves),
  survey: parseAsArrayOf(parseAsInteger).withOptions(moves),
  age: parseAsArrayOf(parseAsStringLiteral(AGES)).withOptions(moves),
  evidence: parseAsArrayOf(parseAsStringLiteral(EVIDENCE)).withOptions(moves),
  /** How the list is put together. */
  by: parseAsStringLiteral(LIST_BY).withDefault('risk').withOptions(moves),
  mark: markParser.withOptions(moves),
  q: parseAsString.withOptions(moves),
  /** The stretch of which circuit the strip shows; absent while it shows what the map does. */
  strip: stretchParser.withOptions(moves),
  /** What the map draws of the lines; absent: their condition. */
  layer: parseAsStringLiteral(['survey']).withOptions(steps),
  'layer-year': parseAsArrayOf(parseAsInteger).withOptions(moves),
  'layer-phase': parseAsStringLiteral(SURVEY_PHASES).withOptions(moves),
  /** Surveys whose tracks are drawn; absent: the newest, empty: none. */
  'layer-track': parseAsArrayOf(parseAsInteger).withOptions({ ...moves, clearOnDefault: false }),
  'layer-span': parseAsInteger.withOptions(moves),
  /** The list of what was never surveyed stands open, in this order. */
  'layer-list': parseAsStringLiteral(STRETCH_SORTS).withOptions(steps),
  view: parseAsStringLiteral(['map', 'list', 'strip']).withOptions(steps),
}

export function useOperationsView() {
  const [params, setParams] = useQueryStates(OPERATIONS_PARAMS)
  const filter = useMemo<SpliceFilter>(
    () => ({
      classes: params.class ?? undefined,
      circuitIds: params.circuit?.length ? params.circuit : undefined,
      voltagesKv: params.voltage?.length ? params.voltage : undefined,
      phases: params.phase?.length ? params.phase : undefined,
      confidences: params.confidence?.length ? params.confidence : undefined,
      surveyIds: params.survey?.length ? params.survey : undefined,
      ages: params.age?.length ? params.age : undefined,
      evidence: params.evidence?.length ? params.evidence : undefined,
    }),
    [params.class, params.circuit, params.voltage, params.phase, params.confidence, params.survey, params.age, params.evidence],
  )
  return { params, setParams, filter }
}

/** A filter as the address has it. */
export const filterParams = (f: SpliceFilter) => ({
  class: f.classes ?? null, circuit: f.circuitIds ?? null, voltage: f.voltagesKv ?? null, phase: f.phases ?? null,
  confidence: f.confidences ?? null, survey: f.surveyIds ?? null, age: f.ages ?? null, evidence: f.evidence ?? null,
})
