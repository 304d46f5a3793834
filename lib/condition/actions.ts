import type { Policy } from './policy'
import type { ActionCode, Assessment, AssessmentFlag, ConditionClass, NextAction, ShownClass } from './types'

const DAYS_PER_YEAR = 365

/** What follows from a class, most pressing first. The response times are policy (common practice, no source). */
function forClass(condition: ConditionClass, policy: Policy, byInfrared = false): NextAction[] {
  const { response, resurveyYears } = policy
  switch (condition) {
    case 'critical':
      return [
        { code: 'call-control-room', withinHours: response.criticalCallHours },
        { code: 'decide-load-or-outage', withinHours: response.criticalCallHours },
        { code: 'confirm-reading', withinHours: response.criticalConfirmHours },
        { code: 'repair', withinHours: response.criticalHours },
        { code: 'look-at-peak-load' },
      ]
    case 'urgent':
      return [{ code: 'call-control-room' }, { code: 'repair', withinDays: response.urgentDays }, { code: 'look-at-peak-load' }]
    case 'degraded':
      return [
        { code: 'repair-in-outage', withinDays: response.degradedDays },
        { code: 'measure-again', withinDays: Math.round(resurveyYears.degraded * DAYS_PER_YEAR) },
      ]
    case 'watch':
      return [{ code: 'record' }, { code: 'measure-again', withinDays: Math.round(resurveyYears.watch * DAYS_PER_YEAR) }]
    case 'sound':
      return [{
        code: 'measure-again',
        withinDays: Math.round((byInfrared ? resurveyYears.soundByInfrared : resurveyYears.sound) * DAYS_PER_YEAR),
      }]
    case 'unknown':
      return []
  }
}

const FOR_FLAG: Partial<Record<AssessmentFlag, ActionCode>> = {
  'interface-not-proved': 'repeat-reading',
  'implausible': 'repeat-reading',
  'conflict': 'repeat-reading',
  'ratio-fell': 'repeat-reading',
  'ratio-jumped': 'repeat-reading',
  'ac-dc-mixed': 'repeat-reading',
  'conductor-references-differ': 'repeat-reading',
  'infrared-hot': 'measure-resistance',
  'infrared-only': 'measure-resistance',
  'infrared-conflict': 'repeat-reading',
  'stale': 'measure-again',
  'low-test-current': 'raise-test-current',
  'conductor-from-table': 'measure-conductor',
  'conductor-reference-suspect': 'check-conductor-code',
  'conductor-reference-warn': 'check-conductor-code',
  'span-unknown': 'record-electrode-span',
  'edges-default-above-75': 'set-edges',
  'mechanical-finding': 'engineer-on-mechanical-state',
  'held': 'second-reading-or-engineer',
}

export interface ActionFacts {
  byRatio: boolean
  /** A leg of a tap that a reading cannot carry. */
  legMissing: boolean
  /** At least one side has a usable ratio. */
  measured: boolean
  /** A picture too hot to wait for a ratio. */
  byHeat: boolean
  /** Heat raised the class above all that a ratio gives. */
  raisedByHeat: boolean
  /** The side that has none was read all the same. */
  otherSideRead: boolean
}

/** What to do next, most pressing first, each once. */
export function nextActions(
  condition: ConditionClass, flags: readonly AssessmentFlag[], facts: ActionFacts, policy: Policy,
): NextAction[] {
  const actions = forClass(condition, policy, flags.includes('infrared-only'))
  // What nobody knows the measure of is measured before anything else is decided; who has to be called is called first.
  if (facts.raisedByHeat) actions.splice(actions[0]?.code === 'call-control-room' ? 1 : 0, 0, { code: 'measure-resistance', withinDays: policy.response.urgentDays })
  if (flags.includes('partial')) {
    const repeats = facts.otherSideRead && flags.some((flag) => FOR_FLAG[flag] === 'repeat-reading')
    if (facts.legMissing) add(actions, 'measure-all-legs')
    else if (!repeats) add(actions, 'measure-other-side')
  }
  for (const flag of flags) {
    if (!isSettled(flag, condition, facts)) add(actions, FOR_FLAG[flag], flag === 'infrared-hot' && facts.byHeat ? policy.response.urgentDays : undefined)
  }
  if (condition === 'unknown' && facts.byRatio && !actions.some(({ code }) => MEASURES.has(code))) add(actions, 'measure-resistance')
  return actions
}

function add(actions: NextAction[], code: ActionCode | undefined, withinDays?: number): void {
  if (code !== undefined && !actions.some((action) => action.code === code)) actions.push(withinDays === undefined ? { code } : { code, withinDays })
}

/** What a picture asks for is measured, or asked for already. */
function isSettled(flag: AssessmentFlag, condition: ConditionClass, { measured, byHeat }: ActionFacts): boolean {
  if (flag === 'infrared-hot') return !byHeat && (measured || condition !== 'unknown')
  return flag === 'infrared-only' && measured
}

const MEASURES: ReadonlySet<ActionCode> = new Set<ActionCode>([
  'measure-resistance', 'repeat-reading', 'raise-test-current', 'measure-conductor',
])

/**
 * While a class is held its duties stand, and those of the better class that the evidence says now do not take their place;
 * what the evidence itself asks for (another side, a code word to check) stays.
 */
export function withHeldDuties(assessment: Assessment, shown: ShownClass, policy: Policy): Assessment {
  if (!shown.held) return assessment
  const duties = forClass(shown.class, policy)
  const replaced = new Set([...duties, ...forClass(assessment.class, policy)].map(({ code }) => code))
  return {
    ...assessment, nextActions: [...duties, ...assessment.nextActions.filter(({ code }) => !replaced.has(code))],
    reasons: withoutTrend(assessment),
    // A reading that does not clear the finding tells no growth, and how soon to read again is the finding's matter.
    trends: [], nextReadingDueMs: undefined,
  }
}

/** The finding and the readings that do not clear it contradict each other: no growth is told of either. */
function withoutTrend({ reasons }: Assessment): Assessment['reasons'] {
  return reasons.map((reason) => (reason.code === 'trend' || reason.code === 'trend-none' ? { ...reason, code: 'trend-contradicted' } : reason))
}
