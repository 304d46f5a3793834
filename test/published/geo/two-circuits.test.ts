import { describe, expect, it } from 'vitest'
import { normalDensity } from '@/lib/geo/place/emission'
import { forwardBackward, viterbi, type Chain } from '@/lib/geo/place/hmm'

/**
 * Worked example of two parallel circuits 8 m apart, own reference computation; status computed. The spread of 4.07 m is the
 * one that public implementations of Newson and Krumm's map matching carry; status verified.
 */
const OFFSETS_M = [3.1, 4.6, 2.2, 5.3, 1.0, 4.4, -1.5, 4.9]
const GAP_M = 8
const SIGMA_M = 4.07
const SWITCH_SHARE = 0.001

/** Emissions relative to the peak of the normal density, as the reference counts them. */
const emissions = (distanceM: number): number => normalDensity(distanceM, SIGMA_M) / normalDensity(0, SIGMA_M)

function twoCircuits(switchShare: number): Chain {
  const steps = OFFSETS_M.length
  return {
    steps,
    start: Int32Array.from({ length: steps + 1 }, (_, t) => 2 * t),
    moveStart: Int32Array.from({ length: steps }, (_, t) => 4 * Math.max(t - 1, 0)),
    emission: Float64Array.from(OFFSETS_M.flatMap((offsetM) => [emissions(offsetM), emissions(offsetM - GAP_M)])),
    move: Float64Array.from(Array.from({ length: steps - 1 }, () => [1 - switchShare, switchShare, switchShare, 1 - switchShare]).flat()),
  }
}

const scratch = () => ({
  forward: new Float64Array(16),
  backward: new Float64Array(16),
  posterior: new Float64Array(16),
  scale: new Float64Array(8),
})
const letters = (path: ArrayLike<number>): string => Array.from(path, (state) => 'AB'[state]).join('')

describe('two circuits 8 m apart', () => {
  it('nearest line alone reads ABABABAB', () => {
    expect(letters(OFFSETS_M.map((offsetM) => (Math.abs(offsetM) <= Math.abs(offsetM - GAP_M) ? 0 : 1)))).toBe('ABABABAB')
  })

  it('the likeliest path is A throughout, with the logarithm −4.0300833', () => {
    const path = new Int32Array(8)
    expect(viterbi(twoCircuits(SWITCH_SHARE), path)).toBeCloseTo(-4.0300833, 6)
    expect(letters(path)).toBe('AAAAAAAA')
  })

  it('all A against all B is .97944', () => {
    const { emission } = twoCircuits(SWITCH_SHARE)
    const sum = (state: number): number => OFFSETS_M.reduce((log, _, t) => log + Math.log(emission[2 * t + state]!), 0)
    expect(sum(0)).toBeCloseTo(-3.3299326, 6)
    expect(sum(1)).toBeCloseTo(-7.1935237, 6)
    expect(1 / (1 + Math.exp(sum(1) - sum(0)))).toBeCloseTo(0.97943915, 7)
  })

  it('forward-backward gives the same share when the circuit never changes', () => {
    const posterior = new Float64Array(16)
    forwardBackward(twoCircuits(1e-12), scratch(), posterior)
    for (let t = 0; t < 8; t++) expect(posterior[2 * t]).toBeCloseTo(0.97943915, 6)
  })

  it('forward-backward agrees with the sum over all 256 paths', () => {
    const chain = twoCircuits(SWITCH_SHARE)
    const posterior = new Float64Array(16)
    const log = forwardBackward(chain, scratch(), posterior)
    const weights = Array.from({ length: 256 }, (_, path) => {
      let weight = 0.5
      for (let t = 0; t < 8; t++) {
        const state = (path >> t) & 1
        weight *= chain.emission[2 * t + state]! * (t === 0 ? 1 : chain.move[4 * (t - 1) + 2 * ((path >> (t - 1)) & 1) + state]!)
      }
      return weight
    })
    const total = weights.reduce((sum, weight) => sum + weight, 0)
    expect(log).toBeCloseTo(Math.log(total), 9)
    for (let t = 0; t < 8; t++) {
      const onA = weights.reduce((sum, weight, path) => (((path >> t) & 1) === 0 ? sum + weight : sum), 0)
      expect(posterior[2 * t]).toBeCloseTo(onA / total, 9)
    }
  })
})
