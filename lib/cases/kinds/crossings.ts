import { crossingRows } from '@/lib/store/network-rows'
import { lengthTextOf } from '@/lib/store/position'
import { insertRow, updateRow } from '@/lib/store/rows'
import { gather, NOTHING_LOADED, type Loader } from '../importing/context'
import { loadStoredLines } from '../network/stored-lines'
import { unknownCircuit } from './unknown-names'

/** A declared distance and a measured one differ by this share before somebody should look. */
const END_SHARE = 0.01
/** The same kind of crossing this close is the same crossing. */
const SAME_M = 1

/** Roads, rivers, rails and other lines under a circuit. */
export const loadCrossings: Loader<'crossings'> = async (context, source) => {
  const { records, rawOf } = await gather(source)
  const { scope, tx, issues, changes } = context
  const length = lengthTextOf(context.settings.unit_system)
  const lines = await loadStoredLines(scope, tx)
  const held = await crossingRows(scope, tx)
  const circuitIds = new Set<number>()
  let alreadyHeld = 0
  for (const r of records) {
    const [line] = [...lines.find(r.circuit, 'main'), ...lines.find(r.circuit, null)]
    if (!line) {
      issues.add(unknownCircuit(r.rowNo, r.circuit, lines.circuits), rawOf(r.rowNo))
      continue
    }
    if (r.lineDistanceM > line.lengthM * (1 + END_SHARE)) {
      issues.add({
        severity: 'error', row: r.rowNo, field: 'line_distance_m', value: String(r.lineDistanceM), code: 'beyond-the-line',
        message: `${length(r.lineDistanceM)} lies beyond the end of circuit ${r.circuit}, which is ${length(line.lengthM)} long.`,
        remedy: 'Count from the named end of the line, and check the unit of the column.',
      }, rawOf(r.rowNo))
      continue
    }
    const same = held.find((row) => row.circuit_id === line.circuitId && row.kind === r.kind && Math.abs(row.line_distance_m - r.lineDistanceM) < SAME_M)
    if (same && (r.name === null || same.name === r.name)) {
      alreadyHeld++
      continue
    }
    circuitIds.add(line.circuitId)
    if (same) {
      await changes.changing(tx, 'crossing', same.id)
      await updateRow(tx, 'crossing', same.id, { name: r.name })
      same.name = r.name
      continue
    }
    const row = { circuit_id: line.circuitId, line_distance_m: Math.min(r.lineDistanceM, line.lengthM), kind: r.kind, name: r.name }
    const id = await insertRow(tx, 'crossing', { ...row, import_id: context.importId })
    changes.created('crossing', id)
    held.push({ id, ...row })
  }
  return { ...NOTHING_LOADED, alreadyHeld, circuitIds: [...circuitIds] }
}
