import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'

/** A splice in service as a roll-up sees it. */
export interface SpliceForHealth {
  spliceId: number
  class: ConditionClass
  /** k of the governing side, dimensionless; null where nothing was measured. */
  ratio: number | null
}

export interface Health {
  counts: Record<ConditionClass, number>
  spliceCount: number
  /** Null where nothing was measured. */
  worst: SpliceForHealth | null
}

/** 5 critical … 1 sound; unknown is 0 because it is neither good nor bad. */
export function classRank(c: ConditionClass): number {
  return c === 'unknown' ? 0 : CONDITION_CLASSES.indexOf(c) + 1
}

/** Worst class first, then the higher ratio, then the older splice; for sorting. */
export function worstFirst(a: SpliceForHealth, b: SpliceForHealth): number {
  return classRank(b.class) - classRank(a.class) || (b.ratio ?? 0) - (a.ratio ?? 0) || a.spliceId - b.spliceId
}

/** How a circuit stands by the splices that stand on it: counts per class, each splice once, and the worst. */
export function rollUp(splices: readonly SpliceForHealth[]): Health {
  const counts: Record<ConditionClass, number> = { sound: 0, watch: 0, degraded: 0, urgent: 0, critical: 0, unknown: 0 }
  let worst: SpliceForHealth | null = null
  for (const splice of splices) {
    counts[splice.class]++
    if (splice.class !== 'unknown' && (worst === null || worstFirst(splice, worst) < 0)) worst = splice
  }
  return { counts, spliceCount: splices.length, worst }
}

/** What one span has seen of inspection: the phases that readings and patrols name, and whether any left the phase open. */
export interface SpanInspection {
  phases: readonly string[]
  phaseNotConfirmed: boolean
}

/** A three-phase circuit, where no phasing table says otherwise. */
export const ASSUMED_PHASES = 3

export interface Coverage {
  spanCount: number
  /** Spans times phases. */
  spanPhaseCount: number
  coveredSpanPhases: number
  /** 0 … 1; null without spans. Of spans and phases, not of found over found, which would always read 100 % (common practice, no source). */
  share: number | null
}

/** Coverage by span and phase. An inspection whose phase is not confirmed proves one phase of its span at most. */
export function coverageOf(spanCount: number, inspected: readonly SpanInspection[], phaseCount = ASSUMED_PHASES): Coverage {
  const spanPhaseCount = spanCount * phaseCount
  let coveredSpanPhases = 0
  for (const span of inspected) {
    const named = new Set(span.phases).size
    coveredSpanPhases += Math.min(phaseCount, Math.max(named, span.phaseNotConfirmed ? 1 : 0))
  }
  return { spanCount, spanPhaseCount, coveredSpanPhases, share: spanPhaseCount === 0 ? null : coveredSpanPhases / spanPhaseCount }
}
