import { WORST_FIRST } from '@/components/map/class-colours'
import type { ConditionClass } from '@/lib/condition/types'
import type { Scale } from './axis'

export interface Marked { id: number; class: ConditionClass; ratio: number | null; axisM: number }

/** One mark on a lane with those that it stands for beside itself. */
export interface Mark<T extends Marked> { splice: T; xPx: number; behind: T[] }

/** Room of a mark on its lane. */
export const MARK_APART_PX = 16
/** What calls stands closer together rather than disappear. */
const CALLING_APART_PX = 13

export const isCalling = ({ class: shown }: Pick<Marked, 'class'>): boolean => shown === 'urgent' || shown === 'critical'

/** Worst first; of equals the one that stands first on the line. */
export const byWorst = (a: Marked, b: Marked): number =>
  WORST_FIRST.indexOf(a.class) - WORST_FIRST.indexOf(b.class) || (b.ratio ?? -1) - (a.ratio ?? -1) || a.axisM - b.axisM || a.id - b.id

/**
 * Places in order at least `apartPx` from each other within the range, each as near to where it wants to be as its neighbours let it;
 * closer than that where so many do not fit.
 */
export function spread(wantedPx: readonly number[], apartPx: number, fromPx: number, toPx: number): number[] {
  const apart = Math.min(apartPx, (toPx - fromPx) / Math.max(1, wantedPx.length - 1))
  // Less its turn in the row a place only may not lie before the one before it: groups that collide share their mean.
  const groups: { sum: number; count: number }[] = []
  for (const [i, wanted] of wantedPx.entries()) {
    let group = { sum: wanted - i * apart, count: 1 }
    for (let before = groups.at(-1); before && before.sum / before.count > group.sum / group.count; before = groups.at(-1)) {
      groups.pop()
      group = { sum: group.sum + before.sum, count: group.count + before.count }
    }
    groups.push(group)
  }
  const lastPx = Math.max(fromPx, toPx - (wantedPx.length - 1) * apart)
  return groups.flatMap(({ sum, count }) => Array.from({ length: count }, () => Math.min(Math.max(sum / count, fromPx), lastPx))).map((px, i) => px + i * apart)
}

/**
 * The marks of one lane in view, in line order. Every urgent and critical splice has its own, and so has every
 * chosen one, moved aside where they crowd. Of the others the
 * worst stands where there is room, and those that would overlap count behind the nearest mark.
 */
export function marksOf<T extends Marked>(splices: readonly T[], scale: Scale, chosen: ReadonlySet<number> = new Set()): Mark<T>[] {
  const inView = splices.filter(({ axisM }) => scale.x(axisM) >= scale.fromPx && scale.x(axisM) <= scale.toPx)
  const hasOwn = (one: T) => isCalling(one) || chosen.has(one.id)
  const calling = inView.filter(hasOwn).sort((a, b) => a.axisM - b.axisM || byWorst(a, b))
  const places = spread(calling.map(({ axisM }) => scale.x(axisM)), CALLING_APART_PX, scale.fromPx, scale.toPx)
  const marks: Mark<T>[] = calling.map((splice, i) => ({ splice, xPx: places[i] ?? 0, behind: [] }))
  const taken = new Slots(MARK_APART_PX)
  for (const mark of marks) taken.add(mark)
  for (const splice of inView.filter((one) => !hasOwn(one)).sort(byWorst)) {
    const xPx = scale.x(splice.axisM)
    const nearest = taken.nearest(xPx) as Mark<T> | undefined
    if (nearest) nearest.behind.push(splice)
    else {
      const mark = { splice, xPx, behind: [] }
      marks.push(mark)
      taken.add(mark)
    }
  }
  return marks.sort((a, b) => a.xPx - b.xPx)
}

/** Marks by the stretch they stand in, so that a lane of thousands is laid out in one go. */
class Slots {
  private readonly held = new Map<number, { xPx: number }[]>()
  constructor(private readonly apartPx: number) {}

  add(mark: { xPx: number }): void {
    const slot = Math.floor(mark.xPx / this.apartPx)
    this.held.set(slot, [...(this.held.get(slot) ?? []), mark])
  }

  /** The nearest that stands closer than the room of a mark. */
  nearest(xPx: number): { xPx: number } | undefined {
    const slot = Math.floor(xPx / this.apartPx)
    const near = [slot - 1, slot, slot + 1].flatMap((s) => this.held.get(s) ?? []).filter((m) => Math.abs(m.xPx - xPx) < this.apartPx)
    return near.sort((a, b) => Math.abs(a.xPx - xPx) - Math.abs(b.xPx - xPx))[0]
  }
}

/** Which lane a splice belongs on: its phase; where that is not confirmed its position, never a guess. */
export const laneOf = ({ phase, position }: { phase: string | null; position: string | null }): string =>
  phase ? `phase:${phase}` : position ? `position:${position}` : 'unknown'

const LANE_ORDER = ['phase:A', 'phase:B', 'phase:C', 'position:top', 'position:middle', 'position:bottom', 'position:left', 'position:centre', 'position:right']

/** A, B and C always, then whatever else splices are on, 'phase and position unknown' last. */
export function lanesOf(splices: readonly { phase: string | null; position: string | null }[]): string[] {
  const place = (lane: string) => (lane === 'unknown' ? 99 : LANE_ORDER.includes(lane) ? LANE_ORDER.indexOf(lane) : 50)
  return [...new Set(['phase:A', 'phase:B', 'phase:C', ...splices.map(laneOf)])].sort((a, b) => place(a) - place(b) || a.localeCompare(b))
}
