import { nameKey } from '../network/labels'
import type { Network } from '../network/network'
import type { PhasingRow } from '../types'

/** Which phase hangs in a position of a section at a line distance; phases roll at transpositions. */
export class PhasingTable {
  private readonly rows = new Map<string, PhasingRow[]>()

  constructor(private readonly network: Network, phasing: readonly PhasingRow[]) {
    for (const row of phasing) {
      const key = `${row.circuitId} ${nameKey(row.position)}`
      const known = this.rows.get(key)
      if (known) known.push(row)
      else this.rows.set(key, [row])
    }
  }

  /** Undefined where no row says so, or two rows say otherwise. */
  phaseAt(section: number, lineDistanceM: number, position: string): string | undefined {
    if (this.rows.size === 0) return undefined
    const { circuitId, sectionId } = this.network.sections[section]!
    let phase: string | undefined
    for (const row of this.rows.get(`${circuitId} ${nameKey(position)}`) ?? []) {
      if (row.sectionId !== undefined && row.sectionId !== sectionId) continue
      if (lineDistanceM < Math.min(row.startM, row.endM) || lineDistanceM > Math.max(row.startM, row.endM)) continue
      if (phase !== undefined && phase !== row.phase) return undefined
      phase = row.phase
    }
    return phase
  }
}
