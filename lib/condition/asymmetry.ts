import type { SideMeasurement } from './measure'
import type { Policy } from './policy'

export interface Asymmetry {
  /** Worse ratio over better ratio, 1 or more. */
  value: number
  /** Only with recorded and equal electrode positions: 0.25 against 0.75 of bare conductor gives 1.64 on a new splice. */
  counts: boolean
  /** True where one interface is ageing first although both are still better than the conductor. */
  ageing: boolean
}

/** How different the two sides read. Undefined unless both were measured. */
export function asymmetryOf(measurements: readonly SideMeasurement[], policy: Policy): Asymmetry | undefined {
  const [a, b] = measurements
  if (!a || !b) return undefined
  const value = Math.max(a.ratio, b.ratio) / Math.min(a.ratio, b.ratio)
  const counts = equalPositions(a, b, policy)
  return { value, counts, ageing: counts && value > policy.asymmetry.limit && a.ratio < 1 && b.ratio < 1 }
}

function equalPositions(a: SideMeasurement, b: SideMeasurement, policy: Policy): boolean {
  if (a.electrodeSpanM === undefined || b.electrodeSpanM === undefined) return false
  if (a.barrelElectrodeM === undefined || b.barrelElectrodeM === undefined) return false
  return Math.abs(a.electrodeSpanM - b.electrodeSpanM) <= policy.asymmetry.positionM
    && Math.abs(a.barrelElectrodeM - b.barrelElectrodeM) <= policy.asymmetry.positionM
}
