import { sunOnLineWPerM2 } from './heat/sun'
import { solarTimeOf } from './heat/solar-time'
import type { Policy } from './policy'
import type { InfraredEvidence } from './types'

/** Where a splice hangs; absent means not known. */
export interface SunPlace {
  latitudeDeg?: number
  longitudeDeg?: number
  /** Clockwise from north, either way along the line. */
  lineAzimuthDeg?: number
  elevationM?: number
}

/** Sun on a line when a picture was taken, with its standard error, W/m². */
export interface SurveySun {
  wPerM2: number
  uWPerM2: number
}

const SQRT_12 = Math.sqrt(12)

/**
 * From what the crew noted of the sky, and from place and hour where both are known (IEEE Std 738-2012, clear air).
 * A sky that nobody noted is anything between no sun and clear air.
 */
export function surveySun(evidence: Pick<InfraredEvidence, 'sun' | 'takenAtMs'>, place: SunPlace, policy: Policy): SurveySun {
  const { directSunWPerM2, diffuseSunWPerM2, uSunShare, uUnknownSunWPerM2 } = policy.radiometry
  if (evidence.sun === 'none') return { wPerM2: 0, uWPerM2: 0 }
  const clearWPerM2 = clearSunWPerM2(evidence.takenAtMs, place)
  if (evidence.sun === 'direct') {
    const wPerM2 = clearWPerM2 ?? directSunWPerM2
    return { wPerM2, uWPerM2: uSunShare * wPerM2 }
  }
  if (evidence.sun === 'diffuse') {
    const wPerM2 = Math.min(diffuseSunWPerM2, clearWPerM2 ?? diffuseSunWPerM2)
    return { wPerM2, uWPerM2: uSunShare * wPerM2 }
  }
  return clearWPerM2 === null ? { wPerM2: 0, uWPerM2: uUnknownSunWPerM2 } : { wPerM2: clearWPerM2 / 2, uWPerM2: clearWPerM2 / SQRT_12 }
}

/** Sun and sky on a line in clear air, W/m², 0 at night; null where place, hour or direction are not known. @param takenAtMs ms since 1970 UTC */
export function clearSunWPerM2(takenAtMs: number | undefined, place: SunPlace): number | null {
  const { latitudeDeg, longitudeDeg, lineAzimuthDeg, elevationM = 0 } = place
  if (takenAtMs === undefined || latitudeDeg === undefined || longitudeDeg === undefined || lineAzimuthDeg === undefined) return null
  const solar = solarTimeOf(takenAtMs, longitudeDeg)
  return sunOnLineWPerM2({ latitudeDeg, ...solar, lineAzimuthDeg, atmosphere: 'clear', elevationM })
}
