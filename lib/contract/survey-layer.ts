import { z } from 'zod'
import { circuitList } from './filter'
import { pageQuery } from './page'

const id = z.int().positive()
const day = z.iso.date()
const commas = <T extends z.ZodType>(item: T) => z.preprocess(
  (text) => (typeof text === 'string' ? text.split(',').map((x) => x.trim()).filter(Boolean) : text), z.array(item))

export const SURVEY_PHASES = ['A', 'B', 'C'] as const
export type SurveyPhase = (typeof SURVEY_PHASES)[number]

const phase = z.preprocess((text) => (typeof text === 'string' ? text.toUpperCase() : text), z.enum(SURVEY_PHASES))

/** What the survey layer and its list are asked for; an absent field narrows nothing. */
export const surveyFilterQuery = z.object({
  circuit: circuitList.optional(),
  voltage: commas(z.coerce.number<string>().positive()).optional(),
  phase: commas(phase).optional(),
  year: commas(z.coerce.number<string>().int().min(1900).max(2200)).optional(),
})

export const surveyTileQuery = surveyFilterQuery.extend({ v: z.string().max(40).optional() })
/** Tracks of these surveys, parted by commas; of none where it names none. */
export const trackTileQuery = z.object({ survey: commas(z.coerce.number<string>().int().positive()).optional(), v: z.string().max(40).optional() })

export interface SurveyFilter {
  circuitIds?: number[]
  voltagesKv?: number[]
  /** These phases alone; absent: every phase of the circuit. */
  phases?: SurveyPhase[]
  /** Looks of these years alone, UTC; absent: of any. */
  years?: number[]
}

export const toSurveyFilter = (q: z.infer<typeof surveyFilterQuery>): SurveyFilter =>
  ({ circuitIds: q.circuit, voltagesKv: q.voltage, phases: q.phase, years: q.year })

/** The same filter as a query string, fields in a fixed order, so that it can be compared and cached. */
export function surveyFilterToQuery(f: SurveyFilter): string {
  const parts = [['circuit', f.circuitIds], ['voltage', f.voltagesKv], ['phase', f.phases], ['year', f.years]] as const
  return parts.flatMap(([key, values]) => (values ? [`${key}=${values.join(',')}`] : [])).join('&')
}

/**
 * How the chosen phases of a span were looked at. never: no phase of them by anybody in any year. elsewhen: in other years than those chosen.
 * part: some of them were, some were not. seen: each of them was.
 */
export const SPAN_STATES = ['never', 'elsewhen', 'part', 'seen'] as const
export type SpanState = (typeof SPAN_STATES)[number]

/** GET /api/v1/coverage: how much of the lines was looked at, as the survey layer draws it. */
export const coverageSummary = z.object({
  /** Years in which anybody looked at anything of these circuits, the newest first. */
  years: z.array(z.int()),
  /** Years up to this one are not told apart: the first that is. */
  first_year: z.int(),
  span_count: z.int(),
  /** Spans of which every phase was looked at, by the year of the phase that waited longest; `exceptions_only` where a flight or patrol wrote down its finds alone. */
  seen: z.array(z.object({ year: z.int(), exceptions_only: z.boolean(), spans: z.int() })),
  part: z.int(),
  elsewhen: z.int(),
  never: z.object({ spans: z.int(), length_m: z.number(), stretches: z.int() }),
})

export const STRETCH_SORTS = ['length', 'circuit', 'splices'] as const

export const neverQuery = surveyFilterQuery.omit({ year: true }).extend({ ...pageQuery.shape, sort: z.enum(STRETCH_SORTS).optional() })

/** Neighbouring spans of one section that nobody ever looked at. */
export const neverStretch = z.object({
  circuit_id: id,
  circuit: z.string(),
  section: z.string(),
  from: z.string().nullable(),
  to: z.string().nullable(),
  start_m: z.number(),
  end_m: z.number(),
  length_m: z.number(),
  spans: z.int(),
  /** Known splices in service there, of these phases or of one that is not confirmed. */
  splices: z.int(),
  bbox: z.tuple([z.number(), z.number(), z.number(), z.number()]),
})

/** GET /api/v1/coverage/never, the longest first. */
export const neverPage = z.object({ items: z.array(neverStretch), next_cursor: z.string().nullable(), total: z.int(), length_m: z.number(), splices: z.int() })

/** Why a look proves nothing of a failing splice. */
export const IN_VAIN = ['low-load', 'load-unknown', 'wind', 'wind-unknown', 'not-infrared', 'far-or-newer', 'not-every-splice'] as const
export const inVain = z.enum(IN_VAIN)

/** GET /api/v1/spans/{id}/surveys: who looked at a span, phase by phase, the newest first. */
export const spanSurveys = z.object({
  span_id: id,
  circuit_id: id,
  circuit: z.string(),
  section: z.string(),
  structure_back: z.string().nullable(),
  structure_ahead: z.string().nullable(),
  start_m: z.number(),
  end_m: z.number(),
  phases: z.array(z.object({
    /** '' where nobody confirmed it. */
    phase: z.string(),
    conclusive_on: day.nullable(),
    looks: z.array(z.object({
      method: z.string(),
      survey: z.string(),
      surveyed_on: day,
      /** A flight or patrol that wrote down its finds alone, without a reading here: nothing was found, which is not sound. */
      exceptions_only: z.boolean(),
      /** Empty: a failing splice would have shown. */
      in_vain: z.array(inVain),
    })),
  })),
})

export type CoverageSummary = z.infer<typeof coverageSummary>
export type NeverStretch = z.infer<typeof neverStretch>
export type SpanSurveys = z.infer<typeof spanSurveys>
export type InVain = z.infer<typeof inVain>
