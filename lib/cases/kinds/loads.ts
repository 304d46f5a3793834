import { MAIN_SECTION } from '@/lib/geo'
import type { LoadRecord } from '@/lib/intake'
import { heldLoads, insertLoads, loadKey, type NewLoad } from '@/lib/store/loads'
import { splicesOfSections } from '@/lib/store/splices'
import { NOTHING_LOADED, type ImportContext, type Loader } from '../importing/context'
import type { Issue } from '../importing/issue-log'
import { loadStoredLines, type StoredLine, type StoredLines } from '../network/stored-lines'
import { unknownCircuit, unknownSection } from './unknown-names'

/** Moments are looked up and written so many at a time: a year of hours on every section is many rows. */
const TOGETHER = 5_000

interface Placed { record: LoadRecord; load: NewLoad }

/**
 * What sections carried, and what the planner expects of them. A moment is held once; another value for it is refused until the earlier import
 * is undone. A planned figure bears on the class of the section's splices.
 */
export const loadLoads: Loader<'loads'> = async (context, source) => {
  const lines = await loadStoredLines(context.scope, context.tx)
  const circuits = new Set<number>()
  const planned = new Set<number>()
  let placed: Placed[] = []
  let alreadyHeld = 0
  let done = 0
  for await (const batch of source) {
    for (const record of batch) {
      done++
      const line = sectionOf(lines, record)
      if (!('id' in line)) {
        context.issues.add(line, record.rawRow)
        continue
      }
      circuits.add(line.circuitId)
      const load = loadOf(record, line.id)
      if (load.flow !== 'carried') planned.add(line.id)
      placed.push({ record, load })
    }
    context.progress('storing', done)
    if (placed.length < TOGETHER) continue
    alreadyHeld += await store(context, placed)
    placed = []
  }
  alreadyHeld += await store(context, placed)
  const spliceIds = await splicesOfSections(context.scope, [...planned], context.tx)
  return { ...NOTHING_LOADED, alreadyHeld, circuitIds: [...circuits], spliceIds }
}

function loadOf({ takenAt, currentA, quality }: LoadRecord, sectionId: number): NewLoad {
  if (quality === 'expected-peak' || quality === 'post-contingency') return { sectionId, takenAt, currentA, flow: quality, quality: null }
  return { sectionId, takenAt, currentA, flow: 'carried', quality }
}

/** Returns how many were held already. */
async function store({ scope, tx, importId, issues }: ImportContext, placed: readonly Placed[]): Promise<number> {
  const held = await heldLoads(scope, placed.map(({ load }) => load), tx)
  const fresh: NewLoad[] = []
  let alreadyHeld = 0
  for (const { record, load } of placed) {
    const key = loadKey(load)
    const before = held.get(key)
    if (before === undefined) {
      held.set(key, load.currentA)
      fresh.push(load)
    } else if (before === load.currentA) alreadyHeld++
    else issues.add(otherValue(record, before), record.rawRow)
  }
  await insertLoads(scope, importId, fresh, tx)
  return alreadyHeld
}

function sectionOf(lines: StoredLines, { rowNo, circuit, section }: LoadRecord): StoredLine | Issue {
  const own = lines.find(circuit, null)
  if (own.length === 0) return unknownCircuit(rowNo, circuit, lines.circuits)
  const line = section === null ? lines.find(circuit, MAIN_SECTION)[0] ?? (own.length === 1 ? own[0] : undefined) : lines.find(circuit, section)[0]
  return line ?? unknownSection(rowNo, circuit, section ?? MAIN_SECTION)
}

const otherValue = ({ rowNo, circuit, currentA, takenAt }: LoadRecord, before: number): Issue => ({
  severity: 'error', row: rowNo, field: 'current_a', value: String(currentA), code: 'other-load-held',
  message: `For ${circuit} at ${takenAt.toISOString()} another load is held already: ${before} A.`,
  remedy: 'Undo the earlier import first where it was wrong.',
})
