import type { Policy } from './policy'
import type { Belief } from './posterior'
import { quantileOf } from './trend/quantile'

/**
 * The ratio that a splice is believed to lie below with the policy's chance: what limits are taken at, since the middle of what is believed would be
 * too low every second time. The worst of several sides.
 * @param beliefs ln k of each side, or of the splice by infrared; one or more
 */
export function upperK(beliefs: readonly Belief[], policy: Policy): number {
  const z = quantileOf(policy.limit.upperShare, Infinity)
  let upperLn = -Infinity
  for (const { mean, sd } of beliefs) upperLn = Math.max(upperLn, mean + z * sd)
  return Math.exp(upperLn)
}
