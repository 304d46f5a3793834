import { classRank } from '@/lib/condition'
import { findingWords, MECHANICAL_CAUTION } from '@/lib/condition/words'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatAlong, formatRatio, type UnitSystem } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'
import { formatDate, formatMonth } from '@/lib/units/time'
import type { StoredAssessment } from './assessment'
import { wasSound } from './past-re-measure'
import { leadingTrend } from './trend-lines'

type Asked = Pick<SpliceDetail, 'class' | 'measure_by' | 'flags' | 'line_distance_m' | 'readings' | 'removed_on' | 'if_it_trips' | 'structure_back' | 'structure_ahead'>

/** What the evidence says of time to failure, in sentences; the first is the answer. It is never that a splice will hold. */
export function willItDrop(of: Asked, assessment: StoredAssessment | null, system: UnitSystem, timeZone: string, nowMs: number): string[] {
  if (of.removed_on !== null) return []
  return [answer(of, assessment, timeZone, nowMs), growth(of, assessment, timeZone), mechanical(of, assessment, system, timeZone), below(of, system)].filter((one) => one !== '')
}

function answer(of: Asked, assessment: StoredAssessment | null, timeZone: string, nowMs: number): string {
  const { class: shown } = of
  const lead = assessment && leadingTrend(assessment.trends, assessment.governingSide)
  const next = lead?.passings.find(({ class: passed, earliestAtMs }) => classRank(passed) > classRank(shown) && earliestAtMs !== null)
  const ahead = next?.earliestAtMs == null ? '' : ` It may be ${next.class} from ${formatMonth(next.earliestAtMs, timeZone)} on.`
  if (shown === 'critical' || shown === 'urgent') return `It may. No reading tells when: reckon with the next heavy load.${ahead}`
  if (shown === 'unknown') return 'Not known: no reading was conclusive. Ask for one.'
  return `${notForeseen(of, assessment, nowMs)}${ahead}`
}

/** Foreseen is only what readings could show: where they left something out, the answer begins with that. */
function notForeseen(of: Asked, assessment: StoredAssessment | null, nowMs: number): string {
  const has = (flag: string) => assessment?.flags.includes(flag) === true
  if (assessment?.raisedBy === 'heat') {
    return assessment.sides.length > 0
      ? 'Not known: it is hotter under load than its resistance explains. Measure it again.'
      : 'Not known: it is hot under load, and its resistance was not read. Measure it.'
  }
  if (wasSound(of, nowMs)) return 'Not known any more: its readings are past the day on which it was to be measured again. They told no time to failure.'
  if (has('infrared-only')) return 'Not foreseen by infrared, which sees the mean of a splice: one bad side may not have shown, and it tells no time to failure.'
  if (has('partial') || has('interface-not-proved')) return 'Not known of all of it: not every side was read. What was read tells no time to failure.'
  return 'Not foreseen by what was read, which tells no time to failure.'
}

function growth({ class: shown }: Asked, assessment: StoredAssessment | null, timeZone: string): string {
  const lead = assessment && leadingTrend(assessment.trends, assessment.governingSide)
  if (!lead) return shown === 'unknown' ? '' : (assessment?.visits.length ?? 0) > 1 ? 'How fast it grows cannot be told from its visits yet.' : 'How fast it grows is not known: that takes a second visit.'
  const [first, last] = [lead.points[0], lead.points.at(-1)]
  if (!first || !last || first === last) return ''
  const series = lead.series === 'infrared' ? 'By infrared' : `Side ${lead.series}`
  return `${series} went from ${formatRatio(first.k)} to ${formatRatio(last.k)} between ${formatMonth(first.takenAtMs, timeZone)} and ${formatMonth(last.takenAtMs, timeZone)}.`
}

/** Its strength is another matter than its resistance: what was seen of it goes to engineering. */
function mechanical({ readings }: Asked, assessment: StoredAssessment | null, system: UnitSystem, timeZone: string): string {
  const seen = assessment?.mechanicalFindings ?? []
  if (seen.length > 0) return `Seen: ${spell(seen.map(findingWords).join(', '), system)}. Its strength is for engineering to judge now.`
  const looks = readings.filter(({ kind, taken_at: at }) => kind === 'visual' && at !== null).map(({ taken_at: at }) => Date.parse(at ?? ''))
  const strength = `${spell(MECHANICAL_CAUTION, system)} Ask engineering.`
  return looks.length === 0 ? strength : `Looked at ${formatDate(Math.max(...looks), timeZone)} without a mechanical finding. ${strength}`
}

/** What lies under its span, and whom to ask how near. */
function below({ if_it_trips: { crossings }, line_distance_m: atM }: Asked, system: UnitSystem): string {
  if (crossings.length === 0) return 'No crossing of its span is on file; what else lies below: ask line engineering.'
  const named = crossings.map(({ kind, name, line_distance_m: m }) => {
    const apartM = Math.abs(m - atM)
    return `${kind}${name === null ? '' : `, ${name},`} ${formatAlong(apartM, system)} ${m >= atM ? 'ahead' : 'back'}`
  })
  return `Conductor down would come over: ${named.join('; ')}. Clearance there: ask line engineering.`
}
