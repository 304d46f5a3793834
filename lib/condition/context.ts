import { barrelOnlyRatio } from './barrel'
import { conductorByCode, isSingleLayerAcsr, type Conductor } from './conductor-table'
import { edgesInForce } from './edges'
import { computedEdgesFor } from './edges-computed'
import { interfacesOf, type FittingInterfaces } from './interfaces'
import type { Policy } from './policy'
import { priorBelief, type Belief } from './posterior'
import type { Edges, SpliceFacts } from './types'

/** What is the same for every reading of one splice, worked out once. */
export interface Context {
  policy: Policy
  facts: SpliceFacts
  /** Null where the code is missing or not in the table. */
  conductor: Conductor | null
  singleLayer: boolean
  interfaces: FittingInterfaces
  edges: Edges
  edgesMakeshift: boolean
  /** What the policy believes of ln k before anything is read. */
  prior: Belief
  /** Ratio of the barrel alone; null where it cannot be told. */
  barrelRatio: number | null
  /** True where the barrel's size was taken from the conductor's. */
  barrelAssumed: boolean
  /** False for the immediate notice: a reading at too little current is still shown to operations. */
  refuseLowCurrent: boolean
}

/** Nothing is known of the fitting: two interfaces, one conductor, no table. */
export const UNKNOWN_FACTS: SpliceFacts = { kind: 'other', subconductors: 1 }

export function contextFor(facts: SpliceFacts, policy: Policy, refuseLowCurrent = true): Context {
  const conductor = facts.conductorCode === undefined ? null : conductorByCode(facts.conductorCode)
  const interfaces = interfacesOf(facts.kind)
  const { edges, makeshift } = edgesInForce(
    facts.maxOperatingC, policy, (maxOperatingC) => computedEdgesFor({ conductor, facts, policy }, maxOperatingC),
  )
  const barrelAssumed = facts.barrelOdMm === undefined
  const barrelRatio = conductor === null || interfaces.barrelSides.length === 0
    ? null
    : barrelOnlyRatio(facts.barrelOdMm ?? policy.side.typicalBarrelFactor * conductor.diameterMm, conductor)
  return {
    policy, facts, conductor, singleLayer: conductor !== null && isSingleLayerAcsr(conductor), interfaces,
    edges, edgesMakeshift: makeshift, prior: priorBelief(policy), barrelRatio, barrelAssumed, refuseLowCurrent,
  }
}
