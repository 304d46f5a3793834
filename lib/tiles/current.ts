import { setImmediate as nextTurn } from 'node:timers/promises'
import type { Scope } from '@/lib/store/scope'
import { networkLines, networkMark, packedSplices, tileVersions, type TileVersions } from '@/lib/store/tile-sources'
import { buildCircuitIndex, type CircuitIndex } from './circuits/circuit-index'
import { unpackSplices } from './splices/splice-columns'
import { buildSpliceIndex, type SpliceIndex } from './splices/splice-index'

interface Lines { index: CircuitIndex; mark: string }

/** What tiles of one scope are cut from. */
interface Held {
  dataVersion: number
  splices: Promise<SpliceIndex>
  lines: Promise<Lines>
}

const MAX_SCOPES = 16
// On globalThis, because bundlers give each route its own copy of a module, and one index is enough.
const shared = globalThis as typeof globalThis & { spanledgerTiles?: Map<string, Held> }
const heldByScope = (shared.spanledgerTiles ??= new Map())

async function readSplices(scope: Scope): Promise<SpliceIndex> {
  const columns = unpackSplices(await packedSplices(scope))
  await nextTurn()
  return buildSpliceIndex(columns, () => nextTurn())
}

/** Most changes of the store are readings: the lines are read again only when one of them changed. */
async function readLines(scope: Scope, previous: Lines | undefined): Promise<Lines> {
  const mark = await networkMark(scope)
  return previous?.mark === mark ? previous : { mark, index: buildCircuitIndex(await networkLines(scope)) }
}

function build(scope: Scope, dataVersion: number, last: Held | undefined): Held {
  const splices = readSplices(scope)
  // Splices first: they are what people wait for, and drawing up the lines of a large network takes its time.
  const lines = splices.then(async () => readLines(scope, await last?.lines.catch(() => undefined)))
  return { dataVersion, splices, lines }
}

/**
 * The indexes for the store as it stands, built once per scope and data version and shared by all who ask meanwhile. A build that fails
 * is told to those who wait and tried again by the next.
 */
export async function currentIndexes(scope: Scope): Promise<Held & { versions: TileVersions }> {
  const versions = await tileVersions(scope)
  const last = heldByScope.get(scope.key)
  if (last && last.dataVersion >= versions.data_version) return { ...last, versions }
  const held = build(scope, versions.data_version, last)
  heldByScope.delete(scope.key)
  heldByScope.set(scope.key, held)
  held.lines.catch(() => { if (heldByScope.get(scope.key) === held) heldByScope.delete(scope.key) })
  for (const key of heldByScope.keys()) if (heldByScope.size > MAX_SCOPES) heldByScope.delete(key)
  return { ...held, versions }
}
