import { DAY_MS, HOUR_MS } from './limits'
import type { Policy } from './policy'

/** A limit that an operator has accepted. */
export interface LimitInForce {
  lineA: number
  /** ms since 1970 UTC. */
  reviewByMs: number
}

/** A limit holds until its review is due or more has flown; then only an engineer can say what may. Nothing here lifts one. */
export type LimitStanding =
  | { kind: 'in-force' }
  | { kind: 'ask-engineer'; why: 'review-due'; sinceMs: number }
  | { kind: 'ask-engineer'; why: 'load-above'; greatestA: number }

/** @param greatestA highest line current since the limit came into force, A per phase; absent: not known */
export function standingOf(limit: LimitInForce, nowMs: number, greatestA?: number): LimitStanding {
  if (greatestA !== undefined && greatestA > limit.lineA) return { kind: 'ask-engineer', why: 'load-above', greatestA }
  return nowMs >= limit.reviewByMs ? { kind: 'ask-engineer', why: 'review-due', sinceMs: limit.reviewByMs } : { kind: 'in-force' }
}

/**
 * When a limit set now is to be reviewed, ms since 1970 UTC: after the policy's days, and no later than the repair of its splice is due. Where
 * that is over already, within the time that a critical splice has: nobody knows better how long it may wait.
 * @param repairDueMs absent: its class has no response time
 */
export function reviewDueMs(setAtMs: number, { limit, response }: Pick<Policy, 'limit' | 'response'>, repairDueMs?: number): number {
  const usualMs = setAtMs + limit.reviewDays * DAY_MS
  if (repairDueMs === undefined) return usualMs
  return Math.min(usualMs, repairDueMs > setAtMs ? repairDueMs : setAtMs + response.criticalHours * HOUR_MS)
}

/** Flows that operations compares a limit with, A per phase; absent means not known. */
export interface Flows {
  presentA?: number
  expectedPeakA?: number
  postContingencyA?: number
}
export type FlowName = keyof Flows

export interface FlowAgainstLimit {
  flow: FlowName
  currentA: number
  /** By how much it passes the limit, A; 0 or less where it does not. */
  overA: number
}

const FLOW_NAMES: readonly FlowName[] = ['presentA', 'expectedPeakA', 'postContingencyA']

/** Each known flow against a limit, in the order in which operations asks. */
export function flowsAgainst(lineA: number, flows: Flows): FlowAgainstLimit[] {
  const known: FlowAgainstLimit[] = []
  for (const flow of FLOW_NAMES) {
    const currentA = flows[flow]
    if (currentA !== undefined) known.push({ flow, currentA, overA: currentA - lineA })
  }
  return known
}
