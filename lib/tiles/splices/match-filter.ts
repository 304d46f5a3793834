import type { SpliceFilter } from '@/lib/contract/filter'
import { TILE_CLASSES } from './splice-columns'
import type { SpliceIndex } from './splice-index'

/** A filter made ready for scanning: one look-up per point instead of four comparisons. */
export interface ReadyFilter {
  /** 1 where splices of that group pass. */
  groups: Uint8Array
  /** 1 where the class passes. */
  classes: Uint8Array
  /** 1 where that splice passes by what the store alone knows of it; null: all do. */
  picked: Uint8Array | null
  /** No splice is left out but by its class: sums over whole ranges hold. */
  everyGroup: boolean
}

/** An absent field filters nothing; a class list that is empty shows nothing. Phase 'unknown' asks for those not confirmed. */
export function readyFilter(index: Pick<SpliceIndex, 'groups'>, filter: SpliceFilter, picked: Uint8Array | null = null): ReadyFilter {
  const circuits = filter.circuitIds && new Set(filter.circuitIds)
  const voltages = filter.voltagesKv && new Set(filter.voltagesKv)
  const phases = filter.phases && new Set(filter.phases)
  const groups = Uint8Array.from(index.groups, (g) => Number(
    (!circuits || circuits.has(g.circuitId))
    && (!voltages || (g.voltageKv !== null && voltages.has(g.voltageKv)))
    && (!phases || phases.has(g.phase ?? 'unknown'))))
  const wanted = filter.classes && new Set<string>(filter.classes)
  const classes = Uint8Array.from(TILE_CLASSES, (c) => Number(!wanted || wanted.has(c)))
  return { groups, classes, picked, everyGroup: picked === null && groups.every((g) => g === 1) }
}
