/** Longitude in −180 … 180 degrees; values already there come back untouched. */
export function wrapLon(lonDeg: number): number {
  if (lonDeg >= -180 && lonDeg <= 180) return lonDeg
  const wrapped = (((lonDeg + 180) % 360) + 360) % 360
  return wrapped - 180
}

/** The same meridian within half a turn of a reference, so that neighbours across ±180 stay neighbours; may exceed 180. */
export function unwrapLon(lonDeg: number, referenceDeg: number): number {
  if (lonDeg - referenceDeg > 180) return lonDeg - 360
  if (lonDeg - referenceDeg < -180) return lonDeg + 360
  return lonDeg
}
