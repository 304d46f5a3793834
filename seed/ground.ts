import { vincentyDirect, vincentyInverse } from '@/lib/geo/earth/vincenty'

export type Place = readonly [lon: number, lat: number]

function inverse(a: Place, b: Place) {
  const geodesic = vincentyInverse(a[0], a[1], b[0], b[1])
  if (!geodesic) throw new Error(`No geodesic between ${a.join(',')} and ${b.join(',')}`)
  return geodesic
}

export const metresBetween = (a: Place, b: Place): number => (a[0] === b[0] && a[1] === b[1] ? 0 : inverse(a, b).distanceM)

/** A point some metres from one place towards another, and some metres aside of that line (right positive). */
export function moveTowards(from: Place, to: Place, alongM: number, asideM: number): Place {
  const azimuth = inverse(from, to).azimuthRad
  const on = vincentyDirect(from[0], from[1], azimuth, alongM)
  return round(asideM === 0 ? on : vincentyDirect(on[0], on[1], azimuth + Math.PI / 2, asideM))
}

/** North and east in metres. */
export function shift(place: Place, eastM: number, northM: number): Place {
  const lat = place[1] + northM / 111_200
  return round([place[0] + eastM / (111_320 * Math.cos((place[1] * Math.PI) / 180)), lat])
}

const round = ([lon, lat]: readonly [number, number]): Place => [Number(lon.toFixed(7)), Number(lat.toFixed(7))]
