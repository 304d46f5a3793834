import { err, ok, type Result } from '@/lib/result/result'
import { bodiesOf, type SpliceBodies } from './body-of-splice'
import type { Context } from './context'
import { currentAtA } from './heat/balance'
import { kFromTemperature } from './heat/joint'
import type { Refusal } from './heat/ranges'
import type { Policy } from './policy'
import { ratingWeatherOf } from './rating-weather'
import type { Edges } from './types'

/** The k at which a splice does something at the current that brings its conductor to the section's maximum operating temperature. */
export interface EdgePoints {
  /** Current in rating weather, A per subconductor. */
  currentA: number
  /** As hot as its conductor. */
  likeConductor: number
  /** At the temperature that limits keep a splice under, and at that of an emergency. */
  atLimit: number
  atEmergency: number
}

/** A value out of range, or a section whose own conductor runs so hot that a splice like the conductor passes the limit: its connectors decide. */
export type NoEdges = Refusal | { kind: 'splice-limit-under-section' }

/** Where the heat balance of IEEE Std 738 puts the edges of one conductor, barrel and temperature. @param maxOperatingC 50 … 250 @param elevationM of the section; absent: that of rating weather */
export function edgePoints(bodies: SpliceBodies, maxOperatingC: number, policy: Policy, elevationM?: number): Result<EdgePoints, NoEdges> {
  const weather = ratingWeatherOf(policy, elevationM)
  const rated = currentAtA(bodies.conductor, maxOperatingC, weather)
  if (!rated.ok) return rated
  const { currentA } = rated.value
  const kAt = (surfaceC: number) => kFromTemperature(bodies.conductor, bodies.barrel, surfaceC, currentA, weather)
  const likeConductor = kAt(maxOperatingC)
  const atLimit = kAt(policy.limit.temperatureC)
  const atEmergency = kAt(policy.limit.emergencyC)
  if (!likeConductor.ok || !atLimit.ok || !atEmergency.ok) return err({ kind: 'splice-limit-under-section' })
  return ok({ currentA, likeConductor: likeConductor.value, atLimit: atLimit.value, atEmergency: atEmergency.value })
}

/**
 * Class edges for a section above 75 °C: urgent where the splice would pass the limit temperature at full rating, critical where it would pass
 * that of an emergency, degraded where it is as hot as its conductor and no later than half-way to urgent. Where an edge of the policy is lower,
 * that one stays.
 */
export function computedEdges(bodies: SpliceBodies, maxOperatingC: number, policy: Policy, elevationM?: number): Result<Edges, NoEdges> {
  const found = edgePoints(bodies, maxOperatingC, policy, elevationM)
  if (!found.ok) return found
  const { likeConductor, atLimit, atEmergency } = found.value
  const { edges: general } = policy
  const urgent = Math.min(general.urgent, atLimit)
  const critical = Math.min(general.critical, atEmergency)
  if (!(urgent > general.watch && critical > urgent)) return err({ kind: 'splice-limit-under-section' })
  const degraded = Math.min(general.degraded, likeConductor, (general.watch + urgent) / 2)
  return ok({ watch: general.watch, degraded, urgent, critical, basis: 'computed', upToC: maxOperatingC })
}

/** For a splice of the network. @returns null where its conductor is not in the table or the physics gives no rising edges */
export function computedEdgesFor(context: Pick<Context, 'conductor' | 'facts' | 'policy'>, maxOperatingC: number): Edges | null {
  const { emissivity, absorptivity } = context.policy.ratingWeather
  const bodies = bodiesOf(context, emissivity, absorptivity)
  if (!bodies) return null
  const found = computedEdges(bodies, maxOperatingC, context.policy, context.facts.elevationM)
  return found.ok ? found.value : null
}
