import type { FlowName, Flows } from './limit-lapse'

/** A limit on the register as it bears on what a splice may carry. Currents per phase, A. */
export interface RegisteredLimit {
  lineA: number
  standing: 'proposed' | 'agreed' | 'in-force' | 'ask-engineer' | 'lifted'
}

/**
 * The one figure that flows are compared with. A limit in force stands before the advised figure, whichever is the lower: an operator reads one
 * figure and it is the one that was read back. A lapsed one says to ask, and no margin is drawn from it.
 */
export type GoverningLimit =
  | { kind: 'in-force'; lineA: number; advisedA: number | null; advisedIsLower: boolean }
  | { kind: 'ask-engineer'; lapsedA: number; advisedA: number | null }
  | { kind: 'advised'; lineA: number }

/** What a splice may carry is given in whole amperes, never rounded up. */
export const allowedA = (lineA: number): number => Math.floor(lineA)

/** @param advisedA what the engine advises now; null: it has no figure. Null is returned where nothing says what the splice may carry. */
export function governingLimit(register: readonly RegisteredLimit[], advisedA: number | null): GoverningLimit | null {
  const inForce = register.find(({ standing }) => standing === 'in-force')
  if (inForce) {
    return { kind: 'in-force', lineA: inForce.lineA, advisedA, advisedIsLower: advisedA !== null && allowedA(advisedA) < allowedA(inForce.lineA) }
  }
  const lapsed = register.find(({ standing }) => standing === 'ask-engineer')
  if (lapsed) return { kind: 'ask-engineer', lapsedA: lapsed.lineA, advisedA }
  return advisedA === null ? null : { kind: 'advised', lineA: advisedA }
}

/** What a flow is held against: of a lapsed limit and the advised figure the lower, until an engineer has said which. */
export function comparedA(governing: GoverningLimit): number {
  return governing.kind === 'ask-engineer' ? Math.min(governing.lapsedA, governing.advisedA ?? Infinity) : governing.lineA
}

/** A flow against what governs. `overA` is counted from the whole amperes that stand on the sheet; 0 or less where it does not pass them. */
export const overA = (governing: GoverningLimit, currentA: number): number => currentA - allowedA(comparedA(governing))

/** Flows that pass what governs, in the order in which operations asks. */
export function passedBy(governing: GoverningLimit | null, flows: Flows): { flow: FlowName; currentA: number; overA: number }[] {
  if (governing === null) return []
  return (['presentA', 'expectedPeakA', 'postContingencyA'] as const).flatMap((flow) => {
    const currentA = flows[flow]
    const over = currentA === undefined ? 0 : overA(governing, currentA)
    return currentA !== undefined && over > 0 ? [{ flow, currentA, overA: over }] : []
  })
}
