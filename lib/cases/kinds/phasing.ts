import type { PhasingRecord } from '@/lib/intake'
import { phasingRows } from '@/lib/store/network-rows'
import { insertRow, updateRow } from '@/lib/store/rows'
import { gather, NOTHING_LOADED, type ImportContext, type Loader } from '../importing/context'
import { loadStoredLines, standingOf, type StoredLine, type StoredLines } from '../network/stored-lines'
import { unknownCircuit, unknownStructure } from './unknown-names'

interface Range { line: StoredLine; from: string; to: string }

/** Which phase hangs in which position between two structures; a row for the same range and position replaces what was there. */
export const loadPhasing: Loader<'phasing'> = async (context, source) => {
  const { records, rawOf } = await gather(source)
  const lines = await loadStoredLines(context.scope, context.tx)
  const keyOf = (circuitId: number, from: string, to: string, position: string) => `${circuitId}\n${from}\n${to}\n${position}`
  const held = new Map((await phasingRows(context.scope, context.tx)).map((row) => [keyOf(row.circuit_id, row.structure_from, row.structure_to, row.position), row]))
  const circuitIds = new Set<number>()
  let alreadyHeld = 0
  for (const record of records) {
    const range = rangeOf(context, lines, record, rawOf)
    if (!range) continue
    const key = keyOf(range.line.circuitId, range.from, range.to, record.position)
    const same = held.get(key)
    if (same?.phase === record.phase) {
      alreadyHeld++
      continue
    }
    circuitIds.add(range.line.circuitId)
    if (same) {
      await context.changes.changing(context.tx, 'phasing', same.id)
      await updateRow(context.tx, 'phasing', same.id, { phase: record.phase })
      same.phase = record.phase
      continue
    }
    const row = { circuit_id: range.line.circuitId, structure_from: range.from, structure_to: range.to, position: record.position, phase: record.phase }
    const id = await insertRow(context.tx, 'phasing', { ...row, import_id: context.importId })
    context.changes.created('phasing', id)
    held.set(key, { id, ...row })
  }
  return { ...NOTHING_LOADED, alreadyHeld, circuitIds: [...circuitIds] }
}

/** The section that has both structures, with the names they are stored under. */
function rangeOf({ issues }: ImportContext, lines: StoredLines, r: PhasingRecord, rawOf: (row: number) => string | undefined): Range | undefined {
  const own = lines.find(r.circuit, null)
  for (const line of own) {
    const from = standingOf(line, r.structureFrom)
    const to = standingOf(line, r.structureTo)
    if (from && to) return { line, from: from.label, to: to.label }
  }
  const where = `circuit ${r.circuit}`
  const missing = own.some((line) => standingOf(line, r.structureFrom)) ? ['structure_to', r.structureTo] as const : ['structure_from', r.structureFrom] as const
  issues.add(own.length === 0 ? unknownCircuit(r.rowNo, r.circuit, lines.circuits) : unknownStructure(r.rowNo, missing[0], missing[1], where), rawOf(r.rowNo))
  return undefined
}
