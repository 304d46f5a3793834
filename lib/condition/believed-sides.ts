import type { Context } from './context'
import { changeSince, jumpedFrom, sideOfSession, type MeasuredSession } from './history'
import type { Side } from './interfaces'
import { DAY_MS, YEAR_MS } from './limits'
import type { SideMeasurement } from './measure'
import { aged, type Belief } from './posterior'
import { assessSide, measuredBelief, type Signs } from './side'
import type { AssessmentFlag, Reason, SideAssessment } from './types'
import { isAtLeast } from './within-crimp'

export interface BelievedSides {
  sides: SideAssessment[]
  measurements: SideMeasurement[]
  flags: AssessmentFlag[]
  reasons: Reason[]
  /** Read by the newest session, and not used. */
  refused: Side[]
  /** What a side was believed to be before it fell without a repair, aged: splices do not heal, so no limit rises by a fall that nobody explained. */
  fellFrom: Belief[]
  /** Years since the oldest side in use was read; null where one of them is undated. */
  oldestYears: number | null
}

const SIDES = ['A', 'B'] as const

/**
 * The sides that the newest session with a usable ratio gives, and from older sessions those it lacks. Older readings of a
 * side that was measured again are history: they show a fall and clear a held class, and do not move the ratio.
 * @param sessions newest first
 */
export function believedSides(sessions: readonly MeasuredSession[], signs: Signs, asOfMs: number, context: Context): BelievedSides {
  const result: BelievedSides = { sides: [], measurements: [], flags: [], reasons: [], refused: [], fellFrom: [], oldestYears: 0 }
  noteNewest(sessions[0], result)
  const base = sessions.findIndex((session) => session.visits.some(({ measured }) => measured.sides.length > 0))
  if (base < 0) return result
  for (const name of SIDES) addSide(name, base, sessions, signs, asOfMs, result, context)
  return result
}

/** What the newest session says of itself belongs to the assessment even where an older reading stands in. */
function noteNewest(session: MeasuredSession | undefined, result: BelievedSides): void {
  if (!session) return
  for (const { measured } of session.visits) {
    addFlags(result.flags, measured.flags)
    result.reasons.push(...measured.reasons)
    result.refused.push(...measured.refused)
  }
  if (!session.mixedCurrent) return
  addFlags(result.flags, ['ac-dc-mixed'])
  result.reasons.push({ code: 'ac-dc-mixed', values: {} })
}

const addFlags = (flags: AssessmentFlag[], more: readonly AssessmentFlag[]): void => {
  for (const flag of more) if (!flags.includes(flag)) flags.push(flag)
}

function addSide(
  name: Side, base: number, sessions: readonly MeasuredSession[], signs: Signs, asOfMs: number, result: BelievedSides, context: Context,
): void {
  const at = provedSession(name, sessionWithSide(name, base, sessions, result, context), sessions, result, context)
  const session = sessions[at]
  const chosen = session && sideOfSession(session, name, context)
  if (!session || !chosen) return
  const { side, against } = chosen
  if (at > 0) {
    addFlags(result.flags, session.visits.flatMap(({ measured }) => measured.flags))
    if (at > base) result.reasons.push(sideReason('side-from-earlier', side, { takenAtMs: side.takenAtMs ?? null }))
  }
  if (against) {
    addFlags(result.flags, ['conflict'])
    result.reasons.push(sideReason('instruments-disagree', side, { ratio: side.ratio, otherRatio: against.ratio }))
  }
  const other = sideOfSession(session, name === 'A' ? 'B' : 'A', context)?.side
  noteFall(side, other === undefined || side.ratio >= other.ratio, sessions.slice(at + 1), asOfMs, result, context)
  const years = yearsSince(side, asOfMs)
  result.oldestYears = side.takenAtMs === undefined || result.oldestYears === null ? null : Math.max(result.oldestYears, years)
  addFlags(result.flags, side.flags)
  result.reasons.push(...side.reasons)
  result.sides.push(assessSide(side, years, signs, context))
  result.measurements.push(side)
}

const yearsSince = ({ takenAtMs }: SideMeasurement, asOfMs: number): number =>
  takenAtMs === undefined ? 0 : Math.max(0, (asOfMs - takenAtMs) / YEAR_MS)

/** An older session may lend a side only where both say which side is which. */
function sessionWithSide(
  name: Side, base: number, sessions: readonly MeasuredSession[], result: BelievedSides, context: Context,
): number {
  const first = sessions[base]
  if (first && sideOfSession(first, name, context)) return base
  const declared = first?.visits.every(({ measured }) => measured.sides.every((side) => side.sidesDeclared)) ?? false
  if (!declared) return -1
  for (let at = base + 1; at < sessions.length; at++) {
    const session = sessions[at]
    if (session && sideOfSession(session, name, context)?.side.sidesDeclared) return at
  }
  return -1
}

/**
 * Of a side whose reading is only 'at least', an older session that proved no less of it says more: its reading stands in, since both may be true.
 * One that read less is history: the side has grown since.
 */
function provedSession(name: Side, at: number, sessions: readonly MeasuredSession[], result: BelievedSides, context: Context): number {
  const session = sessions[at]
  const newest = session && sideOfSession(session, name, context)?.side
  if (!newest || !isAtLeast(newest) || !newest.sidesDeclared) return at
  for (let older = at + 1; older < sessions.length; older++) {
    const earlier = sessions[older]
    const side = earlier && sideOfSession(earlier, name, context)?.side
    if (!side || !side.sidesDeclared || isAtLeast(side)) continue
    if (side.ratio < newest.ratio) return at
    addFlags(result.flags, newest.flags)
    result.reasons.push(...newest.reasons)
    return older
  }
  return at
}

function noteFall(
  side: SideMeasurement, isWorse: boolean, earlier: readonly MeasuredSession[], asOfMs: number, result: BelievedSides, context: Context,
): void {
  if (earlier.length === 0) return
  noteJump(side, isWorse, earlier, result, context)
  const change = changeSince(side, isWorse, earlier, context)
  if (!change) return
  result.fellFrom.push(aged(measuredBelief(change.from), yearsSince(change.from, asOfMs), context.policy.ageing))
  if (change.conflict) addFlags(result.flags, ['conflict'])
  if (change.fell) addFlags(result.flags, ['ratio-fell'])
  result.reasons.push(sideReason('ratio-fell', side, {
    from: change.from.ratio, to: side.ratio, takenAtMs: change.from.takenAtMs ?? null, nowAtMs: side.takenAtMs ?? null,
    declared: side.sidesDeclared && change.from.sidesDeclared,
  }))
}

function noteJump(side: SideMeasurement, isWorse: boolean, earlier: readonly MeasuredSession[], result: BelievedSides, context: Context): void {
  const from = jumpedFrom(side, isWorse, earlier, context)
  if (!from) return
  addFlags(result.flags, ['ratio-jumped'])
  result.reasons.push(sideReason('ratio-jumped', side, {
    from: from.ratio, to: side.ratio, times: side.ratio / from.ratio, days: Math.max(1, Math.floor(((side.takenAtMs ?? 0) - (from.takenAtMs ?? 0)) / DAY_MS)),
    takenAtMs: from.takenAtMs ?? null, declared: side.sidesDeclared && from.sidesDeclared,
  }))
}

const sideReason = (code: string, side: SideMeasurement, values: Reason['values']): Reason => ({
  code, values: { side: side.side, declared: side.sidesDeclared, ...values }, readingIds: side.readingIds,
})
