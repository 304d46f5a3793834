import { ok, type Result } from '@/lib/result/result'
import { rebuildCoverage } from '@/lib/store/coverage'
import {
  changesOf, laterChanges, removeRows, restoreRow, restoreStandings, type ChangedTable, type ImportChange,
} from '@/lib/store/import-changes'
import { removeLoads } from '@/lib/store/loads'
import type { Scope } from '@/lib/store/scope'
import { freeEndedPlacements } from '@/lib/store/splice-writes'
import { circuitsOfSections, circuitsOfSplices, splicesOfSections } from '@/lib/store/splices'
import type { Tx } from '@/lib/store/transaction'
import { undoBlockers, type Blocker } from '@/lib/store/undo-blockers'
import { rebuildSpans } from '../network/rebuild-spans'
import { refuse, type CaseError } from '../problem'
import type { Undone } from './undone'

/** What is removed before what it stands on. */
const REMOVAL_ORDER: readonly ChangedTable[] = ['survey_extent', 'phasing', 'crossing', 'splice', 'section', 'structure', 'circuit']

/** Puts the network back as it was before an import, unless something of another import rests on it. */
export async function undoNetwork(scope: Scope, tx: Tx, importId: number): Promise<Result<Undone, CaseError>> {
  const changes = await changesOf(scope, importId, tx)
  const later = (await laterChanges(scope, importId, tx)).map((i) => `changes of import ${i.import_id} (${i.file_name})`)
  const rests = [...later, ...(await undoBlockers(scope, importId, tx)).map(words)]
  if (rests.length > 0) return refuse('in-use', `Other data rests on this import: ${rests.join(', ')}.`, 'Undo those imports first, the last one first.')

  const made = (table: ChangedTable) => changes.filter((c) => c.entity === table && c.before === null).map((c) => c.entityId)
  const touchedSplices = changes.filter((c) => c.entity === 'splice').map((c) => c.entityId)
  const circuits = new Set([...changes.flatMap(circuitIn), ...await circuitsOfSplices(scope, touchedSplices, tx)])
  const { sections, redrawn } = await restore(scope, tx, changes)
  await freeEndedPlacements(scope, made('splice'), tx)
  for (const table of REMOVAL_ORDER.slice(0, 5)) await removeRows(scope, table, made(table), tx)
  for (const id of await circuitsOfSections(scope, sections, tx)) circuits.add(id)
  const rebuilt = await rebuildSpans(scope, tx, sections, new Map(redrawn.map((id) => [id, 0])))
  if (rebuilt.lost.length > 0) {
    const names = rebuilt.lost.slice(0, 5).map((one) => one.splice).join(', ')
    return refuse('in-use', `On the lines as they were there is no place for ${names}.`, 'Undo the imports of those splices first.')
  }
  for (const table of REMOVAL_ORDER.slice(5)) await removeRows(scope, table, made(table), tx)
  const loads = await removeLoads(scope, importId, tx)
  for (const id of loads.circuitIds) circuits.add(id)
  const covered = await rebuildCoverage(scope, [importId], tx)
  const gone = new Set(made('splice'))
  const retold = await splicesOfSections(scope, [...sections, ...loads.plannedSectionIds], tx)
  return ok({
    readings: 0, removedSplices: [...gone].map((id) => ({ id, splice: String(id), class: null })),
    spliceIds: [...new Set([...touchedSplices.filter((id) => !gone.has(id)), ...retold])],
    circuitIds: [...new Set([...circuits, ...rebuilt.circuitIds, ...covered])],
  })
}

/** Rows that were changed, as they were; those that were made stand until nothing needs them. */
async function restore(scope: Scope, tx: Tx, changes: readonly ImportChange[]): Promise<{ sections: number[]; redrawn: number[] }> {
  const gone = new Set(changes.filter((c) => c.entity === 'section' && c.before === null).map((c) => c.entityId))
  const sections = new Set<number>()
  const redrawn: number[] = []
  for (const { entity, entityId, before } of changes) {
    if (before === null || gone.has(entityId) && entity === 'section_structure') continue
    if (entity === 'section_structure') {
      await restoreStandings(scope, entityId, before, tx)
      sections.add(entityId)
      continue
    }
    await restoreRow(scope, entity, entityId, before, tx)
    if (entity !== 'section') continue
    sections.add(entityId)
    redrawn.push(entityId)
  }
  return { sections: [...sections], redrawn }
}

function circuitIn({ entity, entityId, before }: ImportChange): number[] {
  if (entity === 'circuit') return before === null ? [] : [entityId]
  const id = (before as { circuit_id?: unknown } | null)?.circuit_id
  return typeof id === 'number' ? [id] : []
}

const words = ({ what, count, import_id: id, file_name: file }: Blocker): string =>
  `${count} ${what} ${id === null ? (what === 'readings' ? 'that people placed' : 'that people made') : `of import ${id} (${file})`}`
