/** Conductors of one circuit spread about its drawn line, and drawn lines stray: a small share of readings lies this far off. */
const WIDE_SHARE = 0.02
const WIDE_M = 12
/** Some positions belong to no line at all: they lie anywhere within the widest search. */
const STRAY_SHARE = 0.01
const STRAY_HALF_M = 120

const ROOT_2_PI = Math.sqrt(2 * Math.PI)

/** Normal density, 1/m, of a distance in metres. */
export const normalDensity = (distanceM: number, sigmaM: number): number =>
  Math.exp(-0.5 * (distanceM / sigmaM) * (distanceM / sigmaM)) / (sigmaM * ROOT_2_PI)

/** Density of a reading's signed distance from the conductor, 1/m: normal (Newson and Krumm 2009), with a thin wide tail. */
export const lineDensity = (distanceM: number, sigmaM: number): number =>
  (1 - WIDE_SHARE) * normalDensity(distanceM, sigmaM) + WIDE_SHARE * normalDensity(distanceM, Math.max(WIDE_M, 2 * sigmaM))

/** Density of a position that belongs to no line, 1/m. */
export const STRAY_DENSITY = STRAY_SHARE / (2 * STRAY_HALF_M)

/** Share of readings at this distance from a conductor, and given to it, that really belong to some line. */
export const belongs = (distanceM: number, sigmaM: number): number => {
  const density = lineDensity(distanceM, sigmaM)
  return density / (density + STRAY_DENSITY)
}
