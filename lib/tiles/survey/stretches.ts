import type { CoverageSummary, NeverStretch, SurveyFilter } from '@/lib/contract/survey-layer'
import type { LineSpan } from '@/lib/store/tile-sources'
import { phaseLooks, yearsOf } from './looks'
import { askedSpans, phasesAsked, type SurveyIndex } from './survey-index'

/** A stretch before the name of its section is known. */
export type Stretch = Omit<NeverStretch, 'section'> & { sectionId: number }

const follows = (a: LineSpan, b: LineSpan): boolean => a.sectionId === b.sectionId && a.ord + 1 === b.ord

/** Runs of neighbouring spans of a section of which nobody ever looked at a phase that is asked for, in line order. */
export function neverStretches(index: SurveyIndex, { years: _, ...filter }: SurveyFilter): Stretch[] {
  const stretches: Stretch[] = []
  let last: LineSpan | undefined
  for (const { span, look } of askedSpans(index, filter)) {
    if (look.state !== 'never') continue
    const run = stretches.at(-1)
    if (run && last && follows(last, span)) {
      Object.assign(run, { to: span.structureAhead, end_m: span.endM, length_m: span.endM - run.start_m, spans: run.spans + 1, splices: run.splices + hanging(index, span, filter) })
      widen(run.bbox, span.lonLat)
    } else {
      stretches.push({
        circuit_id: span.circuitId, circuit: index.circuits.get(span.circuitId)?.name ?? '', sectionId: span.sectionId, from: span.structureBack, to: span.structureAhead,
        start_m: span.startM, end_m: span.endM, length_m: span.endM - span.startM, spans: 1, splices: hanging(index, span, filter),
        bbox: widen([Infinity, Infinity, -Infinity, -Infinity], span.lonLat),
      })
    }
    last = span
  }
  return stretches
}

function widen(box: Stretch['bbox'], lonLat: readonly number[]): Stretch['bbox'] {
  for (let i = 0; i + 1 < lonLat.length; i += 2) {
    const [lon = 0, lat = 0] = lonLat.slice(i, i + 2)
    box[0] = Math.min(box[0], lon)
    box[1] = Math.min(box[1], lat)
    box[2] = Math.max(box[2], lon)
    box[3] = Math.max(box[3], lat)
  }
  return box
}

/** One whose phase nobody confirmed may be of any phase. */
const hanging = (index: SurveyIndex, { id, circuitId }: LineSpan, filter: SurveyFilter): number =>
  [...phasesAsked(index, circuitId, filter), '' as const].reduce((sum, phase) => sum + phaseLooks(index.looks, id, phase).splices, 0)

/** How much of the lines was looked at, as the layer draws it. */
export function summaryOf(index: SurveyIndex, filter: SurveyFilter): CoverageSummary {
  const asked = askedSpans(index, filter)
  const stretches = neverStretches(index, filter)
  const seen = new Map<string, CoverageSummary['seen'][number]>()
  const count = { part: 0, elsewhen: 0 }
  for (const { look } of asked) {
    if (look.state === 'part' || look.state === 'elsewhen') count[look.state]++
    if (look.state !== 'seen' || look.year === undefined) continue
    const key = `${look.year} ${look.patrol}`
    const group = seen.get(key) ?? { year: look.year, exceptions_only: look.patrol ?? false, spans: 0 }
    group.spans++
    seen.set(key, group)
  }
  return {
    years: yearsOf(index.looks, function* ids() { for (const { span } of asked) yield span.id }()),
    first_year: index.looks.firstYear, span_count: asked.length,
    seen: [...seen.values()].sort((a, b) => b.year - a.year || Number(a.exceptions_only) - Number(b.exceptions_only)), ...count,
    never: {
      spans: stretches.reduce((sum, s) => sum + s.spans, 0), length_m: stretches.reduce((sum, s) => sum + s.length_m, 0), stretches: stretches.length,
    },
  }
}
