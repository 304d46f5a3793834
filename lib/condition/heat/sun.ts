const RADIANS = Math.PI / 180

export type Atmosphere = 'clear' | 'industrial'

/** Intensity by altitude, lowest power first, W/m² with the altitude in degrees: IEEE Std 738-2012, SI. */
const INTENSITY: Record<Atmosphere, readonly number[]> = {
  clear: [-42.2391, 63.8044, -1.922, 3.46921e-2, -3.61118e-4, 1.94318e-6, -4.07608e-9],
  industrial: [53.1821, 14.211, 6.6138e-1, -3.1658e-2, 5.4654e-4, -4.3446e-6, 1.3236e-8],
}

export interface SunPosition {
  declinationDeg: number
  /** Above the horizon; negative at night. */
  altitudeDeg: number
  /** Clockwise from north. Where the sun stands north at noon it may come out 180° off, which the heat on a line does not feel. */
  azimuthDeg: number
}

/** Where the sun stands (IEEE Std 738-2012). South is negative; `solarHour` is local solar time, 0 … 24. */
export function sunPosition(latitudeDeg: number, dayOfYear: number, solarHour: number): SunPosition {
  const declination = 23.46 * Math.sin(((360 * (284 + dayOfYear)) / 365) * RADIANS) * RADIANS
  const latitude = latitudeDeg * RADIANS
  const hourAngle = 15 * (solarHour - 12) * RADIANS
  const sine = Math.cos(latitude) * Math.cos(declination) * Math.cos(hourAngle) + Math.sin(latitude) * Math.sin(declination)
  const altitude = Math.asin(Math.max(-1, Math.min(1, sine)))
  return { declinationDeg: declination / RADIANS, altitudeDeg: altitude / RADIANS, azimuthDeg: azimuthDeg(latitude, declination, hourAngle) }
}

function azimuthDeg(latitude: number, declination: number, hourAngle: number): number {
  const across = Math.sin(hourAngle)
  const along = Math.sin(latitude) * Math.cos(hourAngle) - Math.cos(latitude) * Math.tan(declination)
  // In the zenith both are 0 and every azimuth is right.
  const chi = across === 0 && along === 0 ? 0 : across / along
  const constantDeg = hourAngle < 0 ? (chi >= 0 ? 0 : 180) : (chi >= 0 ? 180 : 360)
  return constantDeg + Math.atan(chi) / RADIANS
}

/** Sun and sky at sea level on a surface across the rays, W/m²; 0 at night. */
export function sunAtSeaLevelWPerM2(altitudeDeg: number, atmosphere: Atmosphere): number {
  if (altitudeDeg <= 0) return 0
  let sum = 0
  for (const coefficient of INTENSITY[atmosphere].toReversed()) sum = sum * altitudeDeg + coefficient
  return Math.max(0, sum)
}

/** How much stronger it is at an elevation of −100 … 5000 m. */
export const sunElevationFactor = (elevationM: number): number => 1 + 1.148e-4 * elevationM - 1.108e-8 * elevationM * elevationM

/** Angle between the rays and a line that runs towards `lineAzimuthDeg`, degrees. */
export const incidenceDeg = ({ altitudeDeg, azimuthDeg }: SunPosition, lineAzimuthDeg: number): number =>
  Math.acos(Math.max(-1, Math.min(1, Math.cos(altitudeDeg * RADIANS) * Math.cos((azimuthDeg - lineAzimuthDeg) * RADIANS)))) / RADIANS

export interface SunQuestion {
  /** −90 … 90, south negative. */
  latitudeDeg: number
  /** 1 … 366. */
  dayOfYear: number
  /** Local solar time, 0 … 24: clock time can be an hour off. */
  solarHour: number
  lineAzimuthDeg: number
  atmosphere: Atmosphere
  elevationM: number
}

/** Sun and sky on the area that the line turns to the sun, W/m²: what `Weather.sunWPerM2` takes. */
export function sunOnLineWPerM2({ latitudeDeg, dayOfYear, solarHour, lineAzimuthDeg, atmosphere, elevationM }: SunQuestion): number {
  const position = sunPosition(latitudeDeg, dayOfYear, solarHour)
  const acrossRays = sunAtSeaLevelWPerM2(position.altitudeDeg, atmosphere) * sunElevationFactor(elevationM)
  return acrossRays * Math.sin(incidenceDeg(position, lineAzimuthDeg) * RADIANS)
}
