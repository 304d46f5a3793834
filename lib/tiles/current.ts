import { setImmediate as nextTurn } from 'node:timers/promises'
import type { Scope } from '@/lib/store/scope'
import { networkLines, networkMark, packedSplices, tileVersions, type TileVersions } from '@/lib/store/tile-sources'
import { buildCircuitIndex, type CircuitIndex } from './circuits/circuit-index'
import { unpackSplices } from './splices/splice-columns'
import { buildSpliceIndex, type SpliceIndex } from './splices/splice-index'

/** What tiles of one scope are cut from. */
export interface TileIndexes { splices: SpliceIndex; circuits: CircuitIndex; networkMark: string }

interface Held { dataVersion: number; indexes: Promise<TileIndexes> }

const MAX_SCOPES = 16
// On globalThis, because bundlers give each route its own copy of a module, and one index is enough.
const shared = globalThis as typeof globalThis & { spanledgerTiles?: Map<string, Held> }
const heldByScope = (shared.spanledgerTiles ??= new Map())

async function build(scope: Scope, last: Promise<TileIndexes> | undefined): Promise<TileIndexes> {
  const previous = await last?.catch(() => undefined)
  const mark = await networkMark(scope)
  const circuits = previous?.networkMark === mark ? previous.circuits : buildCircuitIndex(await networkLines(scope))
  await nextTurn()
  const splices = await buildSpliceIndex(unpackSplices(await packedSplices(scope)), () => nextTurn())
  return { splices, circuits, networkMark: mark }
}

/**
 * The indexes for the store as it stands, built once per scope and data version and shared by all who ask meanwhile. The circuits' part
 * is kept while no line changed. A build that fails is told to those who wait and tried again by the next.
 */
export async function currentIndexes(scope: Scope): Promise<TileIndexes & { versions: TileVersions }> {
  const versions = await tileVersions(scope)
  let held = heldByScope.get(scope.key)
  if (!held || held.dataVersion < versions.data_version) {
    held = { dataVersion: versions.data_version, indexes: build(scope, held?.indexes) }
    heldByScope.delete(scope.key)
    heldByScope.set(scope.key, held)
    const building = held
    building.indexes.catch(() => { if (heldByScope.get(scope.key) === building) heldByScope.delete(scope.key) })
    for (const key of heldByScope.keys()) if (heldByScope.size > MAX_SCOPES) heldByScope.delete(key)
  }
  return { ...(await held.indexes), versions }
}
