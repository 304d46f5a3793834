import { nameKey, pointAtLineDistance, structureKey } from '@/lib/geo'
import { parseSpanMark, type SpanMark, type SpanNames } from '@/lib/geo/span-mark'
import type { Scope } from './scope'
import type { SearchItem } from './search'
import { spansNear } from './sql/span-marks'
import { sql } from './sql/sql'
import type { Db } from './transaction'

export interface SpanMarks {
  /** The point on each span that is meant; circuits on the same two structures share one. */
  items: SearchItem[]
  /** What keeps it from being a place, in a sentence with its quantities in braces. */
  note?: string
  /** A span was named and no place along it: its middle is one, and its structures may be meant. */
  isSpanAlone: boolean
}

interface SpanRow {
  id: number; length_m: number; circuit_id: number; circuit: string; line_name: string | null
  back_id: number | null; back: string | null; back_aliases: string[] | null; ahead_id: number | null; ahead: string | null; ahead_aliases: string[] | null
}

/** A span with the way its text reads it: counted ahead from its structure back, or back from the one ahead. */
interface Meant { span: SpanRow; from: 'back' | 'ahead'; offsetM: number }

/** Lines number their structures alike. */
const MOST_PLACES = 32

/**
 * The places along spans that a text names, of these circuits first; undefined where it names none in words that are understood.
 * A distance longer than its span, or one without a unit, is said and never shortened or guessed.
 */
export async function findSpanMarks(scope: Scope, text: string, firstCircuitIds: readonly number[], db: Db): Promise<SpanMarks | undefined> {
  const parsed = parseSpanMark(text)
  if (parsed === null) return undefined
  if ('unitless' in parsed) return { items: [], isSpanAlone: false, note: `Is ${parsed.unitless} metres or feet? Write ${parsed.unitless} m or ${parsed.unitless} ft.` }
  const { mark } = parsed
  const named = [...new Set(mark.names.flatMap(({ first, second }) => (second === undefined ? [first] : [first, second])))]
  const all = (await db.rows<SpanRow>(spansNear(scope, named))).flatMap((span) => meantBy(mark, span))
  const rank = ({ span }: Meant) => (firstCircuitIds.includes(span.circuit_id) ? 0 : 1)
  const meant = all.filter(({ span, offsetM }) => offsetM >= 0 && offsetM <= span.length_m)
  const groups = grouped(meant.toSorted((a, b) => rank(a) - rank(b))).slice(0, MOST_PLACES)
  const courses = new Map((await db.rows<{ id: number; lon_lat: number[] }>(
    sql`SELECT id, lon_lat FROM span WHERE id = ANY(${groups.map(([one]) => one.span.id)}::int[])`)).map(({ id, lon_lat: lonLat }) => [id, lonLat]))
  const items = groups.flatMap(([one, others]): SearchItem[] => {
    const course = courses.get(one.span.id)
    if (!course) return []
    const [lon, lat] = pointAtLineDistance(course, one.offsetM)
    const circuits = [...new Set([one, ...others].map(({ span }) => span.circuit))]
    const lines = [...new Set([one, ...others].map(({ span }) => [span.circuit, span.line_name].filter(Boolean).join(' ')))]
    return [{ kind: 'place', id: one.span.id, label: labelOf(mark, one.span), detail: lines.join(' · '), circuits, lon, lat }]
  })
  const beyond = all.filter((one) => !meant.includes(one)).toSorted((a, b) => rank(a) - rank(b))
  // Where lines of the reading have the span and it is too short there, what another line has is no answer to pass on unsaid.
  const [worst] = beyond
  const isAnswered = items.length > 0 && (worst === undefined || rank(worst) > 0 || meant.some((one) => rank(one) === 0))
  return { items, isSpanAlone: mark.isSpanAlone === true, ...(isAnswered ? {} : { note: noteOf(mark, beyond) }) }
}

function grouped(all: readonly Meant[]): [Meant, Meant[]][] {
  const groups = new Map<string, [Meant, Meant[]]>()
  for (const one of all) {
    const { id, back_id: back, ahead_id: ahead } = one.span
    const key = back === null || ahead === null ? `span ${id}` : `${back} ${ahead} ${one.from}`
    const group = groups.get(key)
    if (group) group[1].push(one)
    else groups.set(key, [one, []])
  }
  return [...groups.values()]
}

const isCalled = (key: string | undefined, label: string | null, aliases: readonly string[] | null): boolean =>
  key !== undefined && [label, ...(aliases ?? [])].some((name) => name !== null && structureKey(name) === key)

/** The ways in which a span is meant. A structure alone is the beginning of the span that is counted into. */
function meantBy(mark: SpanMark, span: SpanRow): Meant[] {
  const isBack = (key: string | undefined) => isCalled(key, span.back, span.back_aliases)
  const isAhead = (key: string | undefined) => isCalled(key, span.ahead, span.ahead_aliases)
  const ends = new Set(mark.names.flatMap((names) => endsOf(mark, names, span, isBack, isAhead)))
  const along = 'share' in mark.along ? mark.along.share * span.length_m : mark.along.lengthM
  return [...ends].map((end) => {
    const from = end === 'back' || end === 'out-of-back' ? 'back' as const : 'ahead' as const
    const sign = end === 'out-of-back' || end === 'out-of-ahead' ? -1 : 1
    return { span, from, offsetM: from === 'back' ? sign * along : span.length_m - sign * along }
  })
}

type End = 'back' | 'ahead' | 'out-of-back' | 'out-of-ahead'

function endsOf(
  { from, toward }: SpanMark, { circuit, first, second }: SpanNames, span: SpanRow, isBack: (key?: string) => boolean, isAhead: (key?: string) => boolean,
): End[] {
  if (circuit !== undefined && circuit !== nameKey(span.circuit)) return []
  const isWhole = second === undefined ? undefined : (isBack(first) && isAhead(second)) || (isBack(second) && isAhead(first))
  if (isWhole === false) return []
  if (toward === 'on') {
    if (second === undefined) return isBack(first) ? ['back'] : []
    return isBack(first) && isAhead(second) ? ['back'] : ['ahead']
  }
  const counted = from ?? first
  if (isBack(counted)) return toward === 'ahead' ? ['back'] : isWhole ? ['out-of-back'] : []
  if (isAhead(counted)) return toward === 'back' ? ['ahead'] : isWhole ? ['out-of-ahead'] : []
  return []
}

const spanName = ({ back, ahead }: SpanRow): string => `STR ${back ?? ''}${ahead === null ? '' : `${back === null ? '' : '-'}${ahead}`}`

function labelOf({ words }: SpanMark, span: SpanRow): string {
  return words.startsWith('+') ? `${spanName(span)} ${words}` : `${spanName(span)}, ${words}`
}

function noteOf({ words, names }: SpanMark, [span]: readonly Meant[]): string {
  if (!span) {
    const [said] = names.filter(({ second }) => second !== undefined)
    return said ? 'No line has a span between these two structures.' : 'No line has a span at this structure.'
  }
  const { circuit, length_m: lengthM } = span.span
  return `${spanName(span.span)} of ${circuit} is {${Math.round(lengthM)} m} long: '${words}' leads out of it.`
}
