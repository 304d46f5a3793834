import { scaleLog } from 'd3-scale'
import { believedInterval, type StoredAssessment, type StoredSide } from './assessment'

export interface Zone { class: 'sound' | 'watch' | 'degraded' | 'urgent' | 'critical'; fromPercent: number; toPercent: number }

/**
 * The ratio's axis for one splice: logarithmic, wide enough for the edges, each source's reading and its range (`others`: those of infrared
 * and of a finding that holds the class); positions in per cent of the width, so that it is drawn once for a panel, a page and paper.
 */
export function kScale(edges: StoredAssessment['edges'], sides: readonly StoredSide[], others: readonly number[] = []) {
  const values = [...sides.flatMap((s) => [s.ratio, ...believedInterval(s)]), ...others].filter((v) => Number.isFinite(v) && v > 0)
  const low = Math.min(edges.watch * 0.5, ...values.map((v) => v * 0.9))
  const high = Math.max(edges.critical * 1.45, roomFor(edges.critical, low), ...values.map((v) => v * 1.12))
  const scale = scaleLog().domain([low, high]).range([0, 100]).clamp(true)
  const percent = (k: number): number => scale(k)
  const bounds = [low, edges.watch, edges.degraded, edges.urgent, edges.critical, high]
  const zones = (['sound', 'watch', 'degraded', 'urgent', 'critical'] as const).map((name, i): Zone => ({
    class: name, fromPercent: percent(bounds[i] ?? low), toPercent: percent(bounds[i + 1] ?? high),
  }))
  return { percent, zones, edges: bounds.slice(1, -1) }
}

/** The ratio up to which the axis must reach, so that the words of the last edge stand within it. */
const roomFor = (critical: number, low: number): number => Math.exp((Math.log(critical) - LAST_SHARE * Math.log(low)) / (1 - LAST_SHARE))

/** The narrowest panel the axis is drawn in, and the gap between two labels. */
const NARROWEST_PX = 300
const GAP_PX = 3

/** Widths of figure and word at 12 px, as measured in the widest of the fonts that stand in. */
const LABEL_PX = { sound: 38, watch: 66, degraded: 88, urgent: 70, critical: 78 }

/** What the words of the last edge take of the narrowest panel. */
const LAST_SHARE = (LABEL_PX.critical + 1) / NARROWEST_PX

/** The figure of an edge with the class that begins there, or the lowest class, which begins nowhere. */
export interface EdgeLabel {
  class: Zone['class']
  /** Null: the lowest class. */
  edge: number | null
  atPercent: number
  row: number
}

/**
 * Every class with the edge at which it begins, to the right of its tick, where it lies: in rows below the axis, so that none is left out and no two
 * run into each other in the narrowest panel.
 */
export function edgeLabels({ zones, edges }: Pick<ReturnType<typeof kScale>, 'zones' | 'edges'>): EdgeLabel[] {
  const beginsPx: number[] = []
  return zones.map(({ class: name, fromPercent }, i) => ({ class: name, edge: edges[i - 1] ?? null, atPercent: fromPercent })).toReversed().map((label) => {
    const atPx = (label.atPercent / 100) * NARROWEST_PX
    const free = beginsPx.findIndex((beginPx) => atPx + LABEL_PX[label.class] + GAP_PX <= beginPx)
    const row = free < 0 ? beginsPx.length : free
    beginsPx[row] = atPx
    return { ...label, row }
  }).toReversed()
}
