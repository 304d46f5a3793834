import type { IntakeRecord, ImportKind } from '@/lib/intake'
import { loadCrossings } from '../kinds/crossings'
import { loadExtents } from '../kinds/extents'
import { loadLines } from '../kinds/lines'
import { loadLoads } from '../kinds/loads'
import { loadPhasing } from '../kinds/phasing'
import { loadReadings } from '../kinds/readings'
import { loadSplices } from '../kinds/splices'
import { loadStructuresFile } from '../kinds/structures'
import type { Batches, ImportContext, Loaded, Loader } from './context'

const LOADERS: { [Kind in ImportKind]: Loader<Kind> } = {
  lines: loadLines, structures: loadStructuresFile, splices: loadSplices, readings: loadReadings, phasing: loadPhasing, crossings: loadCrossings,
  extents: loadExtents, loads: loadLoads,
}

/** Loads records of one kind; a normaliser of that kind yields no others. */
export function load(kind: ImportKind, context: ImportContext, records: Batches<IntakeRecord>): Promise<Loaded> {
  const loader = LOADERS[kind] as (context: ImportContext, records: Batches<IntakeRecord>) => Promise<Loaded>
  return loader(context, records)
}
