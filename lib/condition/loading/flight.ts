import { err, ok, type Result } from '@/lib/result/result'
import type { SpliceBodies } from '../body-of-splice'
import { detectabilityAt } from '../detectability'
import { edgesInForce } from '../edges'
import { currentAtA, steadyTemperature } from '../heat/balance'
import type { AlongLine } from '../heat/fins'
import { HEAT_RANGES, type Refusal } from '../heat/ranges'
import type { Weather } from '../heat/weather'
import type { Policy } from '../policy'
import { elevationOf } from '../rating-weather'
import { greatestDistanceM } from '../radiometry/spot'
import { loadRefusal } from './line-temperatures'

export type Sky = 'none' | 'diffuse' | 'direct'

/** Air, wind and sky of a flight that is being planned. */
export interface Forecast {
  ambientC: number
  /** Across the line. */
  windMS: number
  sky: Sky
  /** Of the place and hour in clear air, on the line; absent where no hour is planned, and then the policy's figure stands. */
  clearSunWPerM2?: number
  /** Of the section; absent: that of rating weather. */
  elevationM?: number | null
}

/** The camera as its data sheet has it. */
export interface Camera {
  /** Noise-equivalent temperature difference, K. */
  netdK: number
  ifovMrad: number
}

export interface SectionToFly {
  /** A body for each size of barrel on the section; one typical where none is on record. With what passes along the line, where the policy counts that. */
  bodies: readonly (SpliceBodies & { along?: AlongLine | null })[]
  subconductors: number
  ratingA: number | null
}

/** What stands against a flight: every one of them has to go. */
export type FlightObstacle = 'wind' | 'sun' | 'too-little-load'

export interface FlightVerdict {
  wouldShow: boolean
  obstacles: FlightObstacle[]
  /** How much hotter than its conductor a splice of the policy's ratio would show by its own heat, and how much it takes, K. */
  shownK: number
  neededK: number
  conductorRiseK: number
  /** Line current per phase from which it would show in this wind and sky; null where no load that the balance covers does. */
  neededLineA: number | null
  /** Without sun on the line, the wind as it is: line current from which it would show. Null as above, and in too much wind. */
  neededInShadeLineA: number | null
  /** From the lens to the splice: as far as it still fills so many pixels, m. */
  greatestDistanceM: number
  /** The same of its thinner conductor: beyond it the reference has sky in it. */
  conductorDistanceM: number
}

/** Sun on the line, W/m²: by place and hour where those are known, as pictures are judged, else what the policy takes for such a sky. */
export function sunOfSky(sky: Sky, { radiometry }: Policy, clearSunWPerM2?: number): number {
  const { directSunWPerM2, diffuseSunWPerM2 } = radiometry
  switch (sky) {
    case 'none': return 0
    case 'direct': return clearSunWPerM2 ?? directSunWPerM2
    case 'diffuse': return Math.min(diffuseSunWPerM2, clearSunWPerM2 ?? diffuseSunWPerM2)
  }
}

export const weatherOf = ({ ambientC, windMS, sky, clearSunWPerM2, elevationM }: Forecast, policy: Policy): Weather => ({
  ambientC, windMS, windAngleDeg: 90, sunWPerM2: sunOfSky(sky, policy, clearSunWPerM2), elevationM: elevationOf(elevationM, policy),
})

/** Standard error of a difference between two spots of one picture, K: the policy's, and the camera's noise at both. */
export const differenceErrorK = ({ netdK }: Pick<Camera, 'netdK'>, policy: Policy): number =>
  Math.hypot(policy.radiometry.uDifferenceK, Math.SQRT2 * netdK)

/**
 * Would a splice of the policy's ratio show today? It shows where it would be so many times hotter than its conductor as the error of the
 * difference, what the sun does to a good splice left out; too much wind and a sun that outshines the load stand against it whatever the load.
 * @param lineA per phase
 */
export function flightVerdict(section: SectionToFly, lineA: number, forecast: Forecast, camera: Camera, policy: Policy): Result<FlightVerdict, Refusal> {
  const [first] = section.bodies
  if (!first) throw new Error('A section to fly needs a barrel, if only a typical one.')
  const at = (currentLineA: number, sky: Sky) => look(section, currentLineA, { ...forecast, sky }, camera, policy)
  const found = at(lineA, forecast.sky)
  if (!found.ok) return found
  const { shownK, neededK, conductorRiseK, obstacles } = found.value
  const windy = obstacles.includes('wind')
  const mostA = mostLineA(first, section.subconductors, weatherOf(forecast, policy))
  const neededLineA = windy ? null : leastLineA((currentA) => isShown(at(currentA, forecast.sky)), mostA)
  const inShade = windy ? null : leastLineA((currentA) => isShown(at(currentA, 'none')), mostA)
  const narrowestMm = Math.min(...section.bodies.map(({ barrel }) => barrel.diameterM)) * 1000
  return ok({
    wouldShow: obstacles.length === 0, obstacles, shownK, neededK, conductorRiseK, neededLineA, neededInShadeLineA: inShade,
    greatestDistanceM: greatestDistanceM(narrowestMm, camera.ifovMrad, policy.infrared.leastPixels),
    conductorDistanceM: greatestDistanceM(first.conductor.diameterM * 1000, camera.ifovMrad, policy.infrared.leastPixels),
  })
}

/** Within this share of what is needed the load of the hour decides, and the error of the forecast does. */
const MARGINAL_SHARE = 0.05

/** Just enough, or just too little, and nothing but the load stands against it. */
export const isMarginal = ({ shownK, neededK, obstacles }: Pick<FlightVerdict, 'shownK' | 'neededK' | 'obstacles'>): boolean =>
  obstacles.every((one) => one === 'too-little-load') && Math.abs(shownK - neededK) <= MARGINAL_SHARE * neededK

/** A splice of which one interface is failing and the other as good as new ones are; a camera sees the mean of both. */
export interface OneSided { badK: number; goodK: number; meanK: number; shownK: number; wouldShow: boolean }

const GOOD_SIDE_K = 0.8

/** Would a splice show of which one side alone is at the edge of critical? @param maxOperatingC of the section; null: as the general edges */
export function oneSidedVerdict(
  section: SectionToFly, maxOperatingC: number | null, lineA: number, forecast: Forecast, camera: Camera, policy: Policy,
): Result<OneSided, Refusal> {
  const badK = edgesInForce(maxOperatingC ?? undefined, policy).edges.critical
  const meanK = (badK + GOOD_SIDE_K) / 2
  const found = look(section, lineA, forecast, camera, { ...policy, radiometry: { ...policy.radiometry, detectK: meanK } })
  return found.ok ? ok({ badK, goodK: GOOD_SIDE_K, meanK, shownK: found.value.shownK, wouldShow: found.value.obstacles.length === 0 }) : found
}

/** One pixel of a lens that still lays enough of them over a barrel from this distance, mrad. */
export const coarsestIfovMrad = (barrelMm: number, distanceM: number, policy: Policy): number => barrelMm / (policy.infrared.leastPixels * distanceM)

type Look = Pick<FlightVerdict, 'shownK' | 'neededK' | 'conductorRiseK' | 'obstacles'>

function look(section: SectionToFly, lineA: number, forecast: Forecast, camera: Camera, policy: Policy): Result<Look, Refusal> {
  const weather = weatherOf(forecast, policy)
  const currentA = lineA / section.subconductors
  const cameraK = differenceErrorK(camera, policy)
  let worst: Look | null = null
  for (const bodies of section.bodies) {
    const refusal = loadRefusal(bodies, currentA, weather)
    if (refusal) return err(refusal)
    const conductor = steadyTemperature(bodies.conductor, currentA, weather)
    // A conductor without rest is no flight's question: it counts as shown, and Loading says what it is.
    const conductorC = conductor.ok && conductor.value.kind === 'steady' ? conductor.value.temperatureC : HEAT_RANGES.surfaceC[1]
    const conductorRiseK = conductorC - forecast.ambientC
    const { conductor: wire, barrel, along } = bodies
    const found = detectabilityAt(
      { conductor: wire, barrel, along, currentA, weather, reference: 'conductor', errorK: cameraK, uSunWPerM2: policy.radiometry.uSunShare * weather.sunWPerM2 }, policy,
    )
    const neededK = found?.neededK ?? policy.radiometry.detectTimes * cameraK
    const shownK = found?.shownK ?? neededK
    const obstacles: FlightObstacle[] = []
    if (forecast.windMS > policy.infrared.windMS) obstacles.push('wind')
    if (forecast.sky === 'direct' && weather.sunWPerM2 > 0 && conductorRiseK < policy.infrared.sunLeastRiseK) obstacles.push('sun')
    if (shownK < neededK) obstacles.push('too-little-load')
    // Of several sizes the one that has least to spare decides.
    if (worst === null || shownK - neededK < worst.shownK - worst.neededK) worst = { shownK, neededK, conductorRiseK, obstacles }
  }
  return ok(worst ?? { shownK: 0, neededK: 0, conductorRiseK: 0, obstacles: ['too-little-load'] })
}

const isShown = (found: Result<Look, Refusal>): boolean => found.ok && found.value.obstacles.length === 0

const HALVINGS = 24

/** Hotter than any conductor is run. */
const HOTTEST_CONDUCTOR_C = 200

function mostLineA({ conductor }: SpliceBodies, subconductors: number, weather: Weather): number {
  const found = currentAtA(conductor, HOTTEST_CONDUCTOR_C, weather)
  return Math.min(found.ok ? found.value.currentA : 0, HEAT_RANGES.currentA[1]) * subconductors
}

/** What shows rises with the load, so the least is found by halving. */
function leastLineA(shows: (lineA: number) => boolean, mostA: number): number | null {
  let high = mostA
  if (!shows(high)) return null
  let low = 0
  for (let i = 0; i < HALVINGS && high - low > 0.5; i++) {
    const middle = (low + high) / 2
    if (shows(middle)) high = middle
    else low = middle
  }
  return high
}
