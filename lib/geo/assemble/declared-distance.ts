import type { GeoIssue } from '../types'
import type { AttachedStructure, SectionLine } from './attach-structures'
import { metresWords, sectionWords, warning } from './line-feature'

const MOST_SHARE = 0.01
/** Declared distances are rounded: near the first structure a share says nothing. */
const ROUNDING_M = 5

/**
 * Declared line distances that differ from the WGS84 sum by more than 1 %, both counted from the section's first
 * declared structure: a utility may count from elsewhere, but the metres in between must agree.
 */
export function declaredDistanceIssues(section: SectionLine, attached: readonly AttachedStructure[]): GeoIssue[] {
  const declared = attached.filter((one) => one.declaredLineDistanceM !== undefined && one.at !== 'declared')
    .sort((a, b) => a.lineDistanceM - b.lineDistanceM)
  const [first] = declared
  return first === undefined ? [] : declared.flatMap((one) => {
    const declaredM = Math.abs(one.declaredLineDistanceM! - first.declaredLineDistanceM!)
    const measuredM = one.lineDistanceM - first.lineDistanceM
    const differenceM = Math.abs(declaredM - measuredM)
    if (differenceM <= Math.max(MOST_SHARE * measuredM, ROUNDING_M)) return []
    return [warning(one.structure.rowNo, 'declared-distance-differs',
      `From structure ${first.structure.structure} to ${one.structure.structure} of ${sectionWords(section.circuit, section.section)} ` +
      `${metresWords(declaredM)} are declared and ${metresWords(measuredM)} measured.`,
      'Check the position and line_distance_m; the declared figure is shown, the measured one is used.',
      { field: 'line_distance_m', value: String(one.declaredLineDistanceM) })]
  })
}

export interface CalibrationPoint {
  lineDistanceM: number
  declaredLineDistanceM: number
}

/**
 * Turns measured into displayed line distance, metres: straight between declared structures, with their shift beyond the
 * outer ones. Points that would make the display run backwards are left out. Without points it displays what it measures.
 */
export function calibrateLineDistance(points: readonly CalibrationPoint[]): (lineDistanceM: number) => number {
  const kept: CalibrationPoint[] = []
  for (const point of [...points].sort((a, b) => a.lineDistanceM - b.lineDistanceM)) {
    const before = kept.at(-1)
    const onward = !before || (point.lineDistanceM > before.lineDistanceM && point.declaredLineDistanceM > before.declaredLineDistanceM)
    if (onward) kept.push(point)
  }
  const [first] = kept
  if (!first) return (lineDistanceM) => lineDistanceM
  return (lineDistanceM) => {
    const ahead = kept.findIndex((point) => point.lineDistanceM >= lineDistanceM)
    if (ahead <= 0) {
      const end = ahead === 0 ? first : kept.at(-1)!
      return lineDistanceM - end.lineDistanceM + end.declaredLineDistanceM
    }
    const back = kept[ahead - 1]!
    const next = kept[ahead]!
    const share = (lineDistanceM - back.lineDistanceM) / (next.lineDistanceM - back.lineDistanceM)
    return back.declaredLineDistanceM + share * (next.declaredLineDistanceM - back.declaredLineDistanceM)
  }
}
