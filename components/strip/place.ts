import type { CircuitStrip } from '@/lib/contract/strip'
import { onAxis, type LaidSection, type Stretch } from './axis'

type Box = readonly [west: number, south: number, east: number, north: number]

/** A point of the line on the strip's axis. */
export interface LinePoint { axisM: number; lon: number; lat: number }

/** Course of each section as points of the axis: within a span by length, which no map at any zoom tells from the geodesic. */
export function coursesOf(strip: CircuitStrip, laid: readonly LaidSection[]): LinePoint[][] {
  const courses = new Map<number, LinePoint[]>(laid.map(({ id }) => [id, []]))
  const sections = new Map(laid.map((section) => [section.id, section]))
  for (const span of strip.spans) {
    const section = sections.get(span.section_id)
    const course = courses.get(span.section_id)
    if (!section || !course) continue
    const points: { lon: number; lat: number; alongM: number }[] = []
    for (let i = 0; i + 1 < span.lon_lat.length; i += 2) {
      const [lon = 0, lat = 0] = [span.lon_lat[i], span.lon_lat[i + 1]]
      const before = points.at(-1)
      points.push({ lon, lat, alongM: before ? before.alongM + stepDeg(before, { lon, lat }) : 0 })
    }
    const length = points.at(-1)?.alongM ?? 0
    for (const { lon, lat, alongM } of points) {
      const share = length > 0 ? alongM / length : 0
      course.push({ lon, lat, axisM: onAxis(section, span.start_m + share * (span.end_m - span.start_m)) })
    }
  }
  return [...courses.values()]
}

/** In degrees of latitude: only shares of a span are taken of it. */
const stepDeg = (a: { lon: number; lat: number }, b: { lon: number; lat: number }): number =>
  Math.hypot((b.lon - a.lon) * Math.cos((a.lat * Math.PI) / 180), b.lat - a.lat)

/** The stretch of the line that a box holds, from the first place in it to the last; null where none of it does. */
export function stretchInBox(courses: readonly (readonly LinePoint[])[], box: Box): Stretch | null {
  let [fromM, toM] = [Infinity, -Infinity]
  for (const course of courses) {
    for (const [i, b] of course.entries()) {
      const a = course[i - 1]
      if (!a) continue
      const part = partInBox(a, b, box)
      if (!part) continue
      fromM = Math.min(fromM, a.axisM + part[0] * (b.axisM - a.axisM))
      toM = Math.max(toM, a.axisM + part[1] * (b.axisM - a.axisM))
    }
  }
  return toM > fromM ? { fromM, toM } : null
}

/** Shares of a straight piece between which it lies in the box (Liang-Barsky); null where it passes by. */
function partInBox(a: LinePoint, b: LinePoint, [west, south, east, north]: Box): [number, number] | null {
  let [from, to] = [0, 1]
  const sides = [[a.lon - b.lon, a.lon - west], [b.lon - a.lon, east - a.lon], [a.lat - b.lat, a.lat - south], [b.lat - a.lat, north - a.lat]] as const
  for (const [p, q] of sides) {
    if (p === 0) { if (q < 0) return null }
    else if (p < 0) from = Math.max(from, q / p)
    else to = Math.min(to, q / p)
  }
  return from < to ? [from, to] : null
}

/** West, south, east, north of a stretch of the line; null where no line lies in it. */
export function boxOfStretch(courses: readonly (readonly LinePoint[])[], { fromM, toM }: Stretch): [number, number, number, number] | null {
  const points = courses.flatMap((course) => course.flatMap((b, i) => {
    const a = course[i - 1]
    if (!a || b.axisM < fromM || a.axisM > toM) return []
    return [between(a, b, Math.max(fromM, a.axisM)), between(a, b, Math.min(toM, b.axisM))]
  }))
  if (points.length === 0) return null
  const lons = points.map(({ lon }) => lon)
  const lats = points.map(({ lat }) => lat)
  return [least(lons), least(lats), greatest(lons), greatest(lats)]
}

// Math.min(...) of a hundred thousand points overflows the stack.
const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity)
const greatest = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity)

function between(a: LinePoint, b: LinePoint, axisM: number): { lon: number; lat: number } {
  const share = b.axisM > a.axisM ? (axisM - a.axisM) / (b.axisM - a.axisM) : 0
  return { lon: a.lon + share * (b.lon - a.lon), lat: a.lat + share * (b.lat - a.lat) }
}
