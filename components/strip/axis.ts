import { scaleLinear } from 'd3-scale'
import type { CircuitStrip } from '@/lib/contract/strip'
import type { UnitSystem } from '@/lib/units/format'
import { convert } from '@/lib/units/convert'

/** A stretch of the strip's axis in metres: line distance of the main section, then every tap after a gap. */
export interface Stretch { fromM: number; toM: number }

/** A section laid on the axis; `startM` is the line distance at its beginning. */
export interface LaidSection extends Stretch { id: number; name: string; startM: number }

/** Nearer than this nothing new shows: a span's worth. */
export const LEAST_STRETCH_M = 200
const GAP_SHARE = 0.02

/** Sections one after another. The first lies where its line distance says, so that the axis reads as people say it. */
export function layOut(sections: CircuitStrip['sections']): LaidSection[] {
  const gapM = sections.reduce((sum, { start_m: startM, end_m: endM }) => sum + endM - startM, 0) * GAP_SHARE
  const laid: LaidSection[] = []
  for (const { id, name, start_m: startM, end_m: endM } of sections) {
    const before = laid.at(-1)
    const fromM = before ? before.toM + gapM : startM
    laid.push({ id, name, startM, fromM, toM: fromM + endM - startM })
  }
  return laid
}

export const onAxis = (section: LaidSection, lineDistanceM: number): number => section.fromM + lineDistanceM - section.startM

export const wholeOf = (laid: readonly LaidSection[]): Stretch => {
  const fromM = laid[0]?.fromM ?? 0
  return { fromM, toM: Math.max(fromM + 1, laid.at(-1)?.toM ?? 0) }
}

/** As wide as asked for as far as the whole allows, moved inside it. */
export function within(stretch: Stretch, whole: Stretch): Stretch {
  const wholeM = whole.toM - whole.fromM
  const widthM = Math.min(wholeM, Math.max(Math.min(LEAST_STRETCH_M, wholeM), stretch.toM - stretch.fromM))
  // What was asked for narrower than anything shows grows about its middle.
  const middleM = (stretch.fromM + stretch.toM) / 2
  const wantedM = widthM > stretch.toM - stretch.fromM ? middleM - widthM / 2 : stretch.fromM
  const fromM = Math.min(Math.max(wantedM, whole.fromM), whole.toM - widthM)
  return { fromM, toM: fromM + widthM }
}

/** `factor` below 1 goes nearer; the place `atM` stays where it is on the screen. */
export function zoomed({ fromM, toM }: Stretch, atM: number, factor: number, whole: Stretch): Stretch {
  const widthM = Math.min(whole.toM - whole.fromM, Math.max(LEAST_STRETCH_M, (toM - fromM) * factor))
  const share = (atM - fromM) / (toM - fromM)
  return within({ fromM: atM - share * widthM, toM: atM + (1 - share) * widthM }, whole)
}

export const panned = ({ fromM, toM }: Stretch, byM: number, whole: Stretch): Stretch => within({ fromM: fromM + byM, toM: toM + byM }, whole)

export const isWhole = (stretch: Stretch, whole: Stretch): boolean => stretch.toM - stretch.fromM >= 0.999 * (whole.toM - whole.fromM)

export interface Scale { x(m: number): number; m(x: number): number; fromPx: number; toPx: number }

export function scaleOf({ fromM, toM }: Stretch, fromPx: number, toPx: number): Scale {
  const scale = scaleLinear().domain([fromM, toM]).range([fromPx, Math.max(fromPx + 1, toPx)])
  return { x: (m) => scale(m), m: (x) => scale.invert(x), fromPx, toPx: Math.max(fromPx + 1, toPx) }
}

export interface Tick { m: number; text: string; xPx: number }

/** Wide enough for the largest label with its unit. */
const DISTANCE_APART_PX = 74

/** Round figures of the user's own unit on every section in view, km or miles as line distances are said everywhere. */
export function distanceTicks(laid: readonly LaidSection[], stretch: Stretch, scale: Scale, system: UnitSystem): Tick[] {
  const unit = system === 'us' ? 'mi' : 'km'
  const ticks: Tick[] = []
  let endPx = -Infinity
  for (const section of laid) {
    const fromM = Math.max(section.fromM, stretch.fromM)
    const toM = Math.min(section.toM, stretch.toM)
    if (toM <= fromM) continue
    const lineM = (axisM: number) => convert(axisM - section.fromM + section.startM, 'm', unit)
    const count = Math.max(1, Math.floor((scale.x(toM) - scale.x(fromM)) / (DISTANCE_APART_PX * 1.5)))
    for (const far of scaleLinear().domain([lineM(fromM), lineM(toM)]).ticks(count)) {
      const m = onAxis(section, convert(far, unit, 'm'))
      const xPx = scale.x(m)
      if (xPx - endPx < DISTANCE_APART_PX) continue
      ticks.push({ m, xPx, text: `${far.toLocaleString('en-US', { maximumFractionDigits: 2 })} ${unit}` })
      endPx = xPx
    }
  }
  return ticks
}

const CHARACTER_PX = 6.6
const LABEL_GAP_PX = 10
/** How far a name may stand out at the ends. */
const NAME_OUT_PX = 8

/** Names that fit side by side and within the strip, chosen from the left; a structure whose name does not fit keeps its tick. */
export function structureNames(structures: readonly { m: number; name: string }[], scale: Scale): Tick[] {
  const shown: Tick[] = []
  let endPx = -Infinity
  for (const { m, name } of structures) {
    const atPx = scale.x(m)
    const halfPx = (name.length * CHARACTER_PX) / 2
    if (atPx < scale.fromPx || atPx > scale.toPx) continue
    const xPx = Math.max(scale.fromPx + halfPx - NAME_OUT_PX, Math.min(scale.toPx - halfPx + NAME_OUT_PX, atPx))
    if (xPx - halfPx < endPx + LABEL_GAP_PX) continue
    shown.push({ m, xPx, text: name })
    endPx = xPx + halfPx
  }
  return shown
}

/** 'circuit,from,to' in whole metres, for the address. */
export const formatStretch = ({ circuitId, fromM, toM }: Stretch & { circuitId: number }): string => `${circuitId},${Math.round(fromM)},${Math.round(toM)}`

export function parseStretch(text: string): (Stretch & { circuitId: number }) | null {
  const match = /^([1-9]\d{0,9}),(-?\d{1,8}),(-?\d{1,8})$/.exec(text)
  const [circuitId, fromM, toM] = [Number(match?.[1]), Number(match?.[2]), Number(match?.[3])]
  return match && toM > fromM ? { circuitId, fromM, toM } : null
}
