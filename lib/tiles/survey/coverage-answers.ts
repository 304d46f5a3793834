import type { CoverageSummary, NeverStretch, STRETCH_SORTS, SurveyFilter } from '@/lib/contract/survey-layer'
import { surveyFilterToQuery } from '@/lib/contract/survey-layer'
import { fromCursor, pageOf } from '@/lib/store/cursor'
import type { Scope } from '@/lib/store/scope'
import { sectionNames } from '@/lib/store/survey-layer'
import { currentSurvey } from './current-survey'
import { neverStretches, summaryOf, type Stretch } from './stretches'

type Sort = (typeof STRETCH_SORTS)[number]

export const coverageFigures = async (scope: Scope, filter: SurveyFilter): Promise<CoverageSummary> => summaryOf((await currentSurvey(scope)).index, filter)

export interface NeverPage { items: NeverStretch[]; next_cursor: string | null; total: number; length_m: number; splices: number }

const PAGE = 100

/** Circuits in the order that people read numbers in; stretches of one in line order. */
const byCircuit = (a: Stretch, b: Stretch): number =>
  a.circuit.localeCompare(b.circuit, 'en', { numeric: true }) || a.sectionId - b.sectionId || a.start_m - b.start_m
const ORDER: Record<Sort, (a: Stretch, b: Stretch) => number> = {
  length: (a, b) => b.length_m - a.length_m || byCircuit(a, b), splices: (a, b) => b.splices - a.splices || byCircuit(a, b), circuit: byCircuit,
}

/** Stretches that nobody ever surveyed, the longest first. A cursor holds for the store as it stood: after a change of it the list begins anew elsewhere at most. */
export async function pageOfNever(scope: Scope, filter: SurveyFilter, { sort = 'length', limit = PAGE, cursor }: { sort?: Sort; limit?: number; cursor?: string }): Promise<NeverPage> {
  const { index } = await currentSurvey(scope)
  const all = neverStretches(index, filter).sort(ORDER[sort])
  const asked = ['never', surveyFilterToQuery(filter), sort]
  const from = Number(fromCursor(cursor, ['int'], asked)?.[0] ?? 0)
  const page = pageOf(all.slice(from, from + limit + 1), limit, () => [from + limit], asked)
  const names = await sectionNames(scope, page.items.map((s) => s.sectionId))
  return {
    items: page.items.map(({ sectionId, ...stretch }) => ({ ...stretch, section: names.get(sectionId) ?? '' })), next_cursor: page.next_cursor, total: all.length,
    length_m: all.reduce((sum, s) => sum + s.length_m, 0), splices: all.reduce((sum, s) => sum + s.splices, 0),
  }
}
