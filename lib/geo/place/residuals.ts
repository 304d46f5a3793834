import { chiSquareTail } from './chi-square'
import { belongs } from './emission'
import type { TrackInput } from './track-input'

/** Residuals that less than this share of tracks would show say that the readings are no track. */
const CHI_SQUARE_SHARE = 0.01

export interface MatchedTrack {
  offsetM: number
  chiSquare: number
  degrees: number
  fits: boolean
}

/**
 * Chi-square of a track's distances from the conductors it was matched to (`chosen`: a candidate per reading, -1 none),
 * about the offset they have in common. Strays near no line, given the likeliest offset, are left out: each goes to a
 * person by itself.
 */
export function testResiduals(input: TrackInput, chosen: Int32Array, likeliestM: number, spreadM: number): MatchedTrack {
  const { gathered, readings, from, sigmaScale, platform } = input
  let [weight, sum, squares, count] = [0, 0, 0, 0]
  for (let t = 0; t < chosen.length; t++) {
    if (chosen[t]! < 0) continue
    const sigmaM = gathered.sigmaM[readings[from + t]!]! * sigmaScale
    const residualM = gathered.candidates.offsetM[chosen[t]!]!
    if (belongs(residualM - likeliestM, sigmaM) < 0.5) continue
    const w = 1 / (sigmaM * sigmaM)
    weight += w
    sum += w * residualM
    squares += w * residualM * residualM
    count++
  }
  // A target's offset is drawn to zero by what it may be; a platform's is free and costs a degree of freedom.
  const pull = platform || spreadM === 0 ? 0 : 1 / (spreadM * spreadM)
  const offsetM = count === 0 ? 0 : sum / (weight + pull)
  const chiSquare = Math.max(squares - (weight + pull) * offsetM * offsetM, 0)
  const degrees = platform ? count - 1 : count
  return { offsetM, chiSquare, degrees, fits: degrees > 0 && chiSquareTail(chiSquare, degrees) >= CHI_SQUARE_SHARE }
}
