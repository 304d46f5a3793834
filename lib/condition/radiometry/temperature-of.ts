import { exitance, RADIANCE_K, STEFAN_BOLTZMANN, type Band, type Spectrum } from './planck'

/** A search begins between two of so many temperatures, whose exitances are worked out once: integrals over a band are most of what a picture costs. */
const RUNGS = 64

interface Ladder {
  /** Reciprocal temperatures, 1/K, from the hottest. */
  perK: Float64Array
  /** Falls from rung to rung. */
  exitanceWM2: Float64Array
}

function ladderOf(spectrum: Spectrum): Ladder {
  const [hottest, coldest] = [1 / RADIANCE_K.greatest, 1 / RADIANCE_K.least]
  const perK = Float64Array.from({ length: RUNGS + 1 }, (_, rung) => (rung === RUNGS ? coldest : hottest + ((coldest - hottest) * rung) / RUNGS))
  return { perK, exitanceWM2: perK.map((each) => exitance(1 / each, spectrum)) }
}

const LADDERS: Record<Band, Ladder> = { lw: ladderOf('lw'), mw: ladderOf('mw') }

const LIMITS_W_M2: Record<Spectrum, readonly [number, number]> = { lw: limitsOf('lw'), mw: limitsOf('mw'), total: limitsOf('total') }

function limitsOf(spectrum: Spectrum): readonly [number, number] {
  return [exitance(RADIANCE_K.least, spectrum), exitance(RADIANCE_K.greatest, spectrum)]
}

/**
 * The temperature in K of a black body that radiates so much in a band or altogether, W/m².
 * @returns null for an exitance that no body of 100 … 2000 K has
 */
export function temperatureOf(exitanceWM2: number, spectrum: Spectrum): number | null {
  const limits = LIMITS_W_M2[spectrum]
  if (!(exitanceWM2 >= limits[0]) || exitanceWM2 > limits[1]) return null
  return spectrum === 'total' ? (exitanceWM2 / STEFAN_BOLTZMANN) ** 0.25 : inBandK(exitanceWM2, spectrum)
}

/** So near the secant's next step is exact to the last digits, and costs no integral. */
const NEAR = 1e-9
const MOST_STEPS = 20

/** In reciprocal temperature the logarithm is nearly a line, between two rungs so nearly that the secant strays nowhere and ends within three steps. */
function inBandK(exitanceWM2: number, band: Band): number {
  const ladder = LADDERS[band]
  const rung = rungAbove(ladder, exitanceWM2)
  const offBy = (radiatedWM2: number): number => Math.log(radiatedWM2 / exitanceWM2)
  let before = ladder.perK[rung] ?? NaN
  let last = ladder.perK[rung + 1] ?? NaN
  let offBefore = offBy(ladder.exitanceWM2[rung] ?? NaN)
  let offLast = offBy(ladder.exitanceWM2[rung + 1] ?? NaN)
  for (let step = 0; step < MOST_STEPS && offLast !== offBefore; step++) {
    const next = last - (offLast * (last - before)) / (offLast - offBefore)
    if (Math.abs(offLast) < NEAR) return 1 / next
    before = last
    offBefore = offLast
    last = next
    offLast = offBy(exitance(1 / next, band))
  }
  return 1 / last
}

/** The coldest rung but the last that radiates so much or more. */
function rungAbove({ exitanceWM2 }: Ladder, soughtWM2: number): number {
  let above = 0
  let below = RUNGS
  while (below - above > 1) {
    const middle = (above + below) >> 1
    if ((exitanceWM2[middle] ?? 0) >= soughtWM2) above = middle
    else below = middle
  }
  return above
}
