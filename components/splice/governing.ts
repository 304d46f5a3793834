import { allowedA, comparedA, governingLimit, passedBy, type GoverningLimit } from '@/lib/condition/governing-limit'
import type { FlowName, Flows } from '@/lib/condition/limit-lapse'
import type { LastLoad, SpliceDetail } from '@/lib/contract/contract'
import type { CurrentLimitJson } from '@/lib/contract/limits'
import { formatAllowed, formatCurrent } from '@/lib/units/format'
import { advisedText } from './advised-text'

/** A flow older than this is no margin of now. */
export const PRESENT_MS = 3_600_000

export type Carrying = Pick<SpliceDetail, 'limits' | 'outlook' | 'last_load' | 'expected_peak' | 'post_contingency' | 'removed_on' | 'voltage_kv'>

export const openLimitOf = ({ limits }: Pick<SpliceDetail, 'limits'>): CurrentLimitJson | undefined => limits.find(({ standing }) => standing !== 'lifted')

/** The one figure that flows are compared with on the sheet. */
export const governingOf = ({ limits, outlook }: Pick<Carrying, 'limits' | 'outlook'>): GoverningLimit | null =>
  governingLimit(limits.map(({ line_a: lineA, standing }) => ({ lineA, standing })), outlook?.limit?.line_a ?? null)

const isPresent = (load: LastLoad, nowMs: number): boolean => nowMs - Date.parse(load.taken_at) < PRESENT_MS

function pressingFlows({ last_load: load, expected_peak: peak, post_contingency: contingency }: Carrying, nowMs: number): Flows {
  return { presentA: load && isPresent(load, nowMs) ? load.current_a : undefined, expectedPeakA: peak?.current_a, postContingencyA: contingency?.current_a }
}

/** 'the limit in force', as it reads after 'over'. @param limitedBy what the advised figure is of: a splice that allows more than its section has that rating */
export function governingName(governing: GoverningLimit, limitedBy: 'splice' | 'section' = 'splice'): string {
  if (governing.kind === 'advised' && limitedBy === 'section') return 'the section’s rating'
  if (governing.kind === 'in-force') return 'the limit in force'
  if (governing.kind === 'advised') return 'the advised figure'
  return governing.advisedA !== null && governing.advisedA < governing.lapsedA ? 'the advised figure' : 'the lapsed limit'
}

const withFigure = (governing: GoverningLimit, voltageKv: number | null): string => `${governingName(governing)}, ${advisedText(comparedA(governing), voltageKv)} per phase`

/** Flows that press: those of this hour, of the peak and after a contingency that pass what governs. Where its section limits a splice, its rating is no matter of the splice. */
function passedNow(of: Carrying, nowMs: number) {
  const governing = governingOf(of)
  if (governing?.kind === 'advised' && of.outlook?.limit?.limited_by !== 'splice') return []
  return passedBy(governing, pressingFlows(of, nowMs))
}

const FLOW_HEAD = { presentA: 'Flow now', expectedPeakA: 'Expected peak', postContingencyA: 'After contingency' }

/** What stands at the head of a sheet: advice that has fallen below the limit in force first, then a lapsed limit, then flows that pass what governs. */
export function limitAlarms(of: Carrying, nowMs: number): string[] {
  const governing = governingOf(of)
  if (governing === null || of.removed_on !== null) return []
  const said: string[] = []
  if (governing.kind === 'in-force' && governing.advisedIsLower) {
    said.push(`Advised ${formatAllowed(governing.advisedA ?? 0)} now, below the limit in force, ${formatAllowed(governing.lineA)}: ask the rating engineer.`)
  }
  if (governing.kind === 'ask-engineer') said.push(`The limit of ${formatAllowed(governing.lapsedA)} has lapsed: ask the rating engineer.`)
  const none = governing.kind === 'advised' ? '; no limit is in force' : ''
  const [first, ...rest] = passedNow(of, nowMs).map(({ flow, currentA, overA }) => ({ flow, head: `${FLOW_HEAD[flow]} ${formatCurrent(currentA)}: ${formatCurrent(overA)} over` }))
  if (first === undefined) return said
  // What they are over stands once, after the first.
  return [...said, [`${first.head} ${withFigure(governing, of.voltage_kv)}${none}.`, ...rest.map(({ head }) => `${head}.`)].join(' ')]
}

/** What a limit and the flows against it ask for, before everything that the class asks for. */
export function limitActions(of: Carrying, nowMs: number): string[] {
  const governing = governingOf(of)
  if (governing === null || of.removed_on !== null) return []
  const actions: string[] = []
  if (governing.kind === 'in-force' && governing.advisedIsLower) {
    actions.push(`Ask the rating engineer now: the advised figure, ${formatAllowed(governing.advisedA ?? 0)}, lies below the limit in force, ${formatAllowed(governing.lineA)}.`)
  }
  if (governing.kind === 'ask-engineer') {
    actions.push(`Ask the rating engineer what it may carry: the limit of ${formatAllowed(governing.lapsedA)} has lapsed. ${lapsedWhy(of)}`)
  }
  const passed = passedNow(of, nowMs)
  for (const { flow, currentA, overA } of passed) {
    const [current, over] = [formatCurrent(currentA), formatCurrent(overA)]
    if (flow === 'presentA') actions.push(`Call the control room: the flow of ${current} is ${over} over ${withFigure(governing, of.voltage_kv)}.`)
    // What is asked for the peak answers the contingency too.
    else if (flow === 'postContingencyA' && passed.some((other) => other.flow === 'expectedPeakA')) continue
    else if (governing.kind === 'advised') actions.push(overAdvice(of, governing, flow, current, over))
    else if (flow === 'postContingencyA') actions.push(`Ask the system planner what relieves it after a contingency: the ${current} then are ${over} over ${withFigure(governing, of.voltage_kv)}.`)
    else actions.push(`Ask the control room and the system planner before the peak: the expected ${current} is ${over} over ${withFigure(governing, of.voltage_kv)}.`)
  }
  return actions
}

/** Why it has lapsed, without the remedy that stands beside it. */
export const lapsedWhy = (of: Pick<SpliceDetail, 'limits'>): string => openLimitOf(of)?.standing_why?.replace(/(?<=\.) .*$/, '') ?? ''

function overAdvice(of: Carrying, { lineA }: { lineA: number }, flow: FlowName, current: string, over: string): string {
  const open = openLimitOf(of)
  const [before, what] = flow === 'expectedPeakA' ? [' before the peak', `the expected ${current} is`] : [' and ask the system planner what relieves it', `after a contingency the ${current} are`]
  return open
    ? `Bring the ${open.standing} limit of ${formatAllowed(open.line_a)} into force${before}: ${what} ${over} over the advised ${formatAllowed(lineA)}, and none is in force.`
    : `Propose a limit of ${allowedA(lineA)} A per phase${before}: ${what} ${over} over it, and none is in force.`
}
