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
  const high = Math.max(edges.critical * 1.45, ...values.map((v) => v * 1.12))
  const scale = scaleLog().domain([low, high]).range([0, 100]).clamp(true)
  const percent = (k: number): number => scale(k)
  const bounds = [low, edges.watch, edges.degraded, edges.urgent, edges.critical, high]
  const zones = (['sound', 'watch', 'degraded', 'urgent', 'critical'] as const).map((name, i): Zone => ({
    class: name, fromPercent: percent(bounds[i] ?? low), toPercent: percent(bounds[i + 1] ?? high),
  }))
  return { percent, zones, edges: bounds.slice(1, -1) }
}

/** The narrowest panel the axis is drawn in, and what one edge's figure takes of it. */
const NARROWEST_PX = 320
const FIGURE_PX = 30

/** In which row below the axis each edge's figure stands, so that two never run into each other. */
export function edgeRows(edges: readonly number[], percent: (k: number) => number): { edge: number; row: number }[] {
  const endsPx: number[] = []
  return edges.map((edge) => {
    const atPx = (percent(edge) / 100) * NARROWEST_PX
    const free = endsPx.findIndex((endPx) => atPx - endPx >= FIGURE_PX)
    const row = free < 0 ? endsPx.length : free
    endsPx[row] = atPx
    return { edge, row }
  })
}
