import type { InVain, SpanSurveys } from '@/lib/contract/survey-layer'
import { currentPolicy } from './policies'
import { onCircuit, type Scope } from './scope'
import { inspectedPhases } from './sql/inspections'
import { lineSpans } from './sql/circuit-lines'
import { sql } from './sql/sql'
import { looksAtSpan, packedLooks, phasedCircuits, spanPlace, trackStreams } from './sql/survey-layer'
import type { LineSpan } from './tile-sources'
import { database, type Db } from './transaction'

/** Bytes as `packedLooks` packs them; null where nobody looked at anything and no splice is known. */
export const lookBytes = async (scope: Scope, firstYear: number, db: Db = database()): Promise<Buffer | null> =>
  (await db.row<{ bytes: Buffer | null }>(packedLooks(scope, firstYear)))?.bytes ?? null

export const circuitPhases = (scope: Scope, db: Db = database()): Promise<{ circuitId: number; phases: string[] }[]> =>
  db.rows<{ circuitId: number; phases: string[] }>(phasedCircuits(scope))

/** In order of circuit, section and place along it. */
export const spansInOrder = (scope: Scope, db: Db = database()): Promise<LineSpan[]> => db.rows<LineSpan>(lineSpans(scope))

/** Readings of one survey, crew, instrument and kind of position in time order, packed as `trackStreams` says. */
export interface TrackStream {
  surveyId: number
  survey: string
  crew: string
  instrument: string
  positionOf: 'target' | 'platform'
  lon: Buffer
  lat: Buffer
  takenMs: Buffer
  sigmaM: Buffer
  aircraft: Buffer
}

export const tracksOfSurveys = (scope: Scope, surveyIds: readonly number[], db: Db = database()): Promise<TrackStream[]> =>
  db.rows<TrackStream>(trackStreams(scope, surveyIds))

export async function sectionNames(scope: Scope, ids: readonly number[], db: Db = database()): Promise<Map<number, string>> {
  const rows = await db.rows<{ id: number; name: string }>(sql`SELECT id, name FROM section WHERE id = ANY(${ids}::int[]) AND ${onCircuit(scope, 'circuit_id')}`)
  return new Map(rows.map(({ id, name }) => [id, name]))
}

type Look = SpanSurveys['phases'][number]['looks'][number]
interface LookRow { phase: string; method: string; survey: string; surveyed_on: string; patrol: boolean; survey_id: number; doubts: InVain[] | null }

/** Who looked at a span, phase by phase, and what of it proves nothing. Undefined where there is no such span within the scope. */
export async function surveysOfSpan(scope: Scope, spanId: number, db: Db = database()): Promise<SpanSurveys | undefined> {
  const place = await db.row<Omit<SpanSurveys, 'phases'>>(spanPlace(scope, spanId))
  if (!place) return undefined
  const policy = await currentPolicy(scope, db)
  const [rows, proved] = await Promise.all([
    db.rows<LookRow>(looksAtSpan(spanId, policy)),
    db.rows<{ phase: string; conclusive_on: string | null }>(sql`
      SELECT i.phase, i.conclusive_on FROM (${inspectedPhases(sql`${place.circuit_id}::int`, policy)}) i WHERE i.span_id = ${spanId}`),
  ])
  const phases = [...new Set(rows.map((row) => row.phase))].sort((a, b) => Number(a === '') - Number(b === '') || a.localeCompare(b))
  return {
    ...place,
    phases: phases.map((phase) => {
      const conclusiveOn = proved.find((one) => one.phase === phase)?.conclusive_on ?? null
      return { phase, conclusive_on: conclusiveOn, looks: looksOf(rows.filter((row) => row.phase === phase), conclusiveOn) }
    }),
  }
}

/** The newest first. Where a survey both read a phase and went along it, its reading says more. */
function looksOf(rows: readonly LookRow[], conclusiveOn: string | null): Look[] {
  const read = new Set(rows.filter(({ patrol }) => !patrol).map((row) => row.survey_id))
  return rows.filter(({ patrol, survey_id: id }) => !patrol || !read.has(id)).map(({ patrol, doubts, method, survey, surveyed_on: on }): Look => {
    const open = conclusiveOn === null || conclusiveOn < on
    // The engine knows more of a reading than its load and wind: one of the day of proof lacked nothing.
    const known = patrol || conclusiveOn !== on ? doubts ?? [] : []
    const reasons: InVain[] = known.length > 0 ? known : open ? [patrol ? 'far-or-newer' : 'not-every-splice'] : []
    return { method, survey, surveyed_on: on, exceptions_only: patrol, in_vain: reasons }
  }).sort((a, b) => b.surveyed_on.localeCompare(a.surveyed_on) || a.method.localeCompare(b.method) || a.survey.localeCompare(b.survey))
}
