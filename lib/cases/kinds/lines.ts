import { assembleSections, attachStructures, nameKey, type AssembledSection } from '@/lib/geo'
import type { LineRecord, StructureRecord } from '@/lib/intake'
import { ChangeLog } from '@/lib/store/import-changes'
import { circuitRows, sectionRows, standingRows, type CircuitRow, type SectionRow } from '@/lib/store/network-rows'
import { replaceStandings } from '@/lib/store/network-writes'
import { insertRow, updateRow } from '@/lib/store/rows'
import { splicesOfSections } from '@/lib/store/splices'
import { savepoint } from '@/lib/store/transaction'
import { gather, NOTHING_LOADED, type ImportContext, type Loaded, type Loader } from '../importing/context'
import { circuitValues, contradictions, differing, sectionValues } from '../network/attributes'
import { sectionKey, sectionLine } from '../network/conductor'
import { rebuildSpans, type LostSplice } from '../network/rebuild-spans'
import { loadStructures } from '../network/structures'

type Section = AssembledSection<LineRecord>
type RawOf = (row: number) => string | undefined

/**
 * Lines join to sections of circuits; point features are their structures. Features of a section that is there already change
 * it, unless a splice would lose its place: then its rows are refused and it stays as it was, and the rest is tried again.
 */
export const loadLines: Loader<'lines'> = async (context, source) => {
  const { records, rawOf } = await gather(source)
  context.progress('placing')
  const assembled = assembleSections(records.filter((r): r is LineRecord => r.recordType === 'line'))
  const points = records.filter((r): r is StructureRecord => r.recordType === 'structure')
  context.issues.addAll([...assembled.issues, ...assembled.sections.flatMap(contradictions)], rawOf)
  for (let sections = assembled.sections; ;) {
    const attempt = { ...context, issues: context.issues.fork(), changes: new ChangeLog() }
    const { loaded, lost } = await savepoint(context.tx, () => storeLines(attempt, sections, points, rawOf), (outcome) => outcome.lost.length === 0)
    if (lost.length === 0) {
      context.issues.join(attempt.issues)
      context.changes.join(attempt.changes)
      return loaded
    }
    const refused = sections.filter((section) => lost.some((splice) => isOf(splice, section)))
    for (const section of refused) context.issues.addAll(section.features.map((f) => losesPlace(f.rowNo, section, lost)), rawOf)
    sections = sections.filter((section) => !refused.includes(section))
  }
}

const isOf = (splice: LostSplice, section: Section): boolean => splice.sectionKey === sectionKey(section.circuit, section.section)

async function storeLines(
  context: ImportContext, assembled: readonly Section[], points: readonly StructureRecord[], rawOf: RawOf,
): Promise<{ loaded: Loaded; lost: LostSplice[] }> {
  const { scope, tx } = context
  const circuits = new Map((await circuitRows(scope, tx)).map((row) => [nameKey(row.name), row]))
  const sections = new Map((await sectionRows(scope, tx)).map((row) => [sectionKey(row.circuit, row.name), row]))
  const circuitIds = new Set<number>()
  /** Sections with new geometry, and the row each comes from. */
  const redrawn = new Map<number, number>()
  /** Sections that were there and say something new: conductor and ratings bear on the class of their splices. */
  const retold: number[] = []
  let heldRows = 0
  for (const section of assembled) {
    const circuit = await storeCircuit(context, section, circuits)
    const held = sections.get(sectionKey(section.circuit, section.section))
    const stored = held ? await changeSection(context, section, held, rawOf) : { id: await addSection(context, section, circuit.id), change: 'geometry' }
    if (stored.change === 'geometry') redrawn.set(stored.id, section.features[0]?.rowNo ?? 0)
    if (held && stored.change !== 'none') retold.push(held.id)
    if (stored.change !== 'none' || circuit.changed) circuitIds.add(circuit.id)
    else heldRows += section.features.length
  }
  const lines = (await sectionRows(scope, tx)).map(sectionLine)
  const structures = await loadStructures(context, lines, points, rawOf)
  context.progress('storing')
  const rebuilt = await rebuildSpans(scope, tx, [...new Set([...redrawn.keys(), ...structures.sectionIds])], redrawn)
  context.issues.addAll(rebuilt.issues, rawOf)
  const loaded = {
    ...NOTHING_LOADED, alreadyHeld: heldRows + structures.alreadyHeld, circuitIds: [...new Set([...circuitIds, ...rebuilt.circuitIds])],
    spliceIds: await splicesOfSections(scope, retold, tx),
  }
  return { loaded, lost: rebuilt.lost }
}

async function storeCircuit(context: ImportContext, section: Section, circuits: Map<string, CircuitRow>): Promise<{ id: number; changed: boolean }> {
  const key = nameKey(section.circuit)
  const held = circuits.get(key)
  const values = circuitValues(section)
  if (!held) {
    const id = await insertRow(context.tx, 'circuit', { name: section.circuit, ...values, import_id: context.importId })
    context.changes.created('circuit', id)
    circuits.set(key, { id, name: section.circuit, ...EMPTY_CIRCUIT, ...values })
    return { id, changed: true }
  }
  // Ends of a tap are not the ends of its circuit.
  const { from_name: _f, to_name: _t, ...shared } = values
  const change = differing(nameKey(section.section) === 'main' ? values : shared, held)
  if (Object.keys(change).length === 0) return { id: held.id, changed: false }
  await context.changes.changing(context.tx, 'circuit', held.id)
  await updateRow(context.tx, 'circuit', held.id, change)
  Object.assign(held, change)
  return { id: held.id, changed: true }
}

const EMPTY_CIRCUIT = { line_name: null, from_name: null, to_name: null, voltage_kv: null, region: null, radial: null, mw: null }

async function addSection(context: ImportContext, section: Section, circuitId: number): Promise<number> {
  const id = await insertRow(context.tx, 'section', {
    circuit_id: circuitId, name: section.section, ...sectionValues(section), length_m: section.lengthM, lon_lat: Array.from(section.lonLat),
    import_id: context.importId,
  })
  context.changes.created('section', id)
  return id
}

async function changeSection(context: ImportContext, section: Section, held: SectionRow, rawOf: RawOf): Promise<{ id: number; change: 'none' | 'values' | 'geometry' }> {
  const { tx, changes } = context
  const values = differing(sectionValues(section), held)
  const redrawn = held.lon_lat.length !== section.lonLat.length || held.lon_lat.some((v, i) => v !== section.lonLat[i])
  if (!redrawn && Object.keys(values).length === 0) return { id: held.id, change: 'none' }
  await changes.changing(tx, 'section', held.id)
  await updateRow(tx, 'section', held.id, { ...values, ...(redrawn ? { length_m: section.lengthM, lon_lat: Array.from(section.lonLat) } : {}) })
  if (redrawn) await restandStructures(context, section, held.id, rawOf)
  // A new offset beside the centreline moves the splices too.
  return { id: held.id, change: redrawn || 'lateral_offset_m' in values ? 'geometry' : 'values' }
}

/** The structures of a section keep their position and stand where that is on the new line; one that lies off it stands there no longer. */
async function restandStructures({ scope, tx, changes, issues }: ImportContext, section: Section, sectionId: number, rawOf: RawOf): Promise<void> {
  const standing = (await standingRows(scope, tx)).filter((row) => row.section_id === sectionId)
  const row = section.features[0]?.rowNo ?? 0
  const { attached } = attachStructures([section], standing.map((s) => ({
    rowNo: row, circuit: null, section: null, structure: s.label, lon: s.lon, lat: s.lat, lineDistanceM: null, id: s.structure_id,
    declaredM: s.declared_line_distance_m,
  })))
  await changes.changingStructures(tx, sectionId)
  await replaceStandings(scope, new Map([[sectionId, attached.map(({ structure, lineDistanceM }) => ({
    structureId: structure.id, lineDistanceM, declaredLineDistanceM: structure.declaredM,
  }))]]), tx)
  const stands = new Set(attached.map((one) => one.structure.id))
  for (const lost of standing.filter((s) => !stands.has(s.structure_id))) {
    issues.add({
      severity: 'warning', row, field: 'structure', value: lost.label, code: 'structure-off-new-line',
      message: `Structure ${lost.label} lies off the new line of circuit ${section.circuit}, section ${section.section}, and stands on it no longer.`,
      remedy: 'Import its new position with the structures file.',
    }, rawOf(row))
  }
}

function losesPlace(row: number, section: Section, lost: readonly LostSplice[]) {
  const own = lost.filter((splice) => isOf(splice, section))
  const names = own.slice(0, 5).map((one) => one.splice).join(', ') + (own.length > 5 ? ` and ${own.length - 5} more` : '')
  return {
    severity: 'error' as const, row, field: 'geometry', code: 'splices-lose-place',
    message: `The new line of circuit ${section.circuit}, section ${section.section}, leaves no place for ${names}: their structures stand on it no longer.`,
    remedy: 'The line stays as it was. Give the structures at their new positions as points of the same file, or correct the line.',
  }
}
