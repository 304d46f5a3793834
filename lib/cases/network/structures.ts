import { attachStructures, declaredDistanceIssues, nameKey, shortDistanceM, structureKey, type AttachedStructure } from '@/lib/geo'
import type { StructureRecord } from '@/lib/intake'
import { standingRows, structureRows, type StandingRow, type StructureRow } from '@/lib/store/network-rows'
import { insertStructures, replaceStandings, type Standing } from '@/lib/store/network-writes'
import { updateRow } from '@/lib/store/rows'
import type { ImportContext } from '../importing/context'
import type { SectionLine } from './conductor'

/** The same name this close is the same structure, with several circuits on it. */
const SAME_STRUCTURE_M = 25
const SAME_PLACE_M = 1e-3

interface Held { row: StructureRow; moved: boolean }

/** Structures of a file on the sections they stand on. */
export interface StructuresLoaded {
  /** Sections whose list of structures changed. */
  sectionIds: number[]
  alreadyHeld: number
}

/**
 * Brings structures onto stored sections. A structure of a name that a section has already is that one, moved where the file
 * says so; one of the same name within 25 m on another section is the same structure with several circuits; else it is new.
 */
export async function loadStructures(
  context: ImportContext, lines: readonly SectionLine[], records: readonly StructureRecord[], rawOf: (row: number) => string | undefined,
): Promise<StructuresLoaded> {
  if (records.length === 0) return { sectionIds: [], alreadyHeld: 0 }
  const { scope, tx, issues } = context
  const { attached, issues: found } = attachStructures(lines, records)
  issues.addAll(found, rawOf)
  for (const [index, line] of lines.entries()) {
    issues.addAll(declaredDistanceIssues(line, attached.filter((one) => one.section === index)), rawOf)
  }
  const known = new KnownStructures(await structureRows(scope, tx), await standingRows(scope, tx))
  const before = known.standings
  const ids = await identify(context, known, lines, attached)
  const changedRows = new Set(ids.changedRows)
  const sectionIds: number[] = []
  const lists = new Map<number, Standing[]>()
  for (const [index, line] of lines.entries()) {
    const own = attached.filter((one) => one.section === index)
    if (own.length === 0) continue
    const list = merged(before.get(line.id) ?? [], own, (one) => ids.idOf.get(one) ?? 0)
    for (const row of list.changedRows) changedRows.add(row)
    if (list.changedRows.length === 0) continue
    sectionIds.push(line.id)
    lists.set(line.id, list.standings)
    await context.changes.changingStructures(tx, line.id)
  }
  await replaceStandings(scope, lists, tx)
  return { sectionIds, alreadyHeld: records.filter((r) => !issues.rejectedRows.has(r.rowNo) && !changedRows.has(r.rowNo)).length }
}

class KnownStructures {
  readonly standings = new Map<number, StandingRow[]>()
  private readonly byKey = new Map<string, Held[]>()
  private readonly onSection = new Map<string, number>()
  private readonly byId = new Map<number, Held>()

  constructor(structures: readonly StructureRow[], standings: readonly StandingRow[]) {
    for (const row of structures) this.add(row)
    for (const s of standings) {
      for (const label of [s.label, ...s.aliases]) this.onSection.set(`${s.section_id} ${structureKey(label)}`, s.structure_id)
      const list = this.standings.get(s.section_id)
      if (list) list.push(s)
      else this.standings.set(s.section_id, [s])
    }
  }

  add(row: StructureRow): void {
    const held = { row, moved: false }
    this.byId.set(row.id, held)
    const key = structureKey(row.label)
    const same = this.byKey.get(key)
    if (same) same.push(held)
    else this.byKey.set(key, [held])
  }

  find(sectionId: number, label: string, lon: number, lat: number): StructureRow | undefined {
    const own = this.onSection.get(`${sectionId} ${structureKey(label)}`)
    if (own !== undefined) return this.byId.get(own)?.row
    return this.byKey.get(structureKey(label))?.find(({ row }) => shortDistanceM(row.lon, row.lat, lon, lat) <= SAME_STRUCTURE_M)?.row
  }
}

interface Identified { idOf: Map<AttachedStructure<StructureRecord>, number>; changedRows: number[] }

/** Which stored structure each one is; the new are written. */
async function identify(
  context: ImportContext, known: KnownStructures, lines: readonly SectionLine[], attached: readonly AttachedStructure<StructureRecord>[],
): Promise<Identified> {
  const idOf = new Map<AttachedStructure<StructureRecord>, number>()
  const changedRows: number[] = []
  const fresh: { row: StructureRow; of: AttachedStructure<StructureRecord>[] }[] = []
  const pending = new KnownStructures([], [])
  for (const one of attached) {
    const sectionId = lines[one.section]?.id ?? 0
    const found = known.find(sectionId, one.structure.structure, one.lon, one.lat)
    if (found) {
      idOf.set(one, found.id)
      if (await updateStructure(context, found, one)) changedRows.push(one.structure.rowNo)
      continue
    }
    changedRows.push(one.structure.rowNo)
    const twin = pending.find(sectionId, one.structure.structure, one.lon, one.lat)
    if (twin) {
      fresh[-1 - twin.id]?.of.push(one)
      continue
    }
    const row = {
      id: -1 - fresh.length, label: one.structure.structure, lon: one.lon, lat: one.lat, structure_type: one.structure.structureType,
      aliases: one.structure.aliases,
    }
    fresh.push({ row, of: [one] })
    pending.add(row)
  }
  const ids = await insertStructures(context.scope, context.importId, fresh.map(({ row }) => ({ ...row, structureType: row.structure_type })), context.tx)
  fresh.forEach(({ of }, i) => {
    const id = ids[i] ?? 0
    context.changes.created('structure', id)
    for (const one of of) idOf.set(one, id)
  })
  return { idOf, changedRows }
}

async function updateStructure({ changes, tx }: ImportContext, held: StructureRow, { structure, lon, lat }: AttachedStructure<StructureRecord>): Promise<boolean> {
  const moved = structure.lon !== null && shortDistanceM(held.lon, held.lat, lon, lat) > SAME_PLACE_M
  const type = structure.structureType !== null && structure.structureType !== held.structure_type
  const label = structureKey(structure.structure) === structureKey(held.label) ? [] : [structure.structure]
  const aliases = [...structure.aliases, ...label].filter((alias) => alias !== held.label && !held.aliases.some((a) => nameKey(a) === nameKey(alias)))
  if (!moved && !type && aliases.length === 0) return false
  await changes.changing(tx, 'structure', held.id)
  await updateRow(tx, 'structure', held.id, {
    ...(moved ? { lon, lat } : {}), ...(type ? { structure_type: structure.structureType } : {}),
    ...(aliases.length > 0 ? { aliases: [...held.aliases, ...aliases] } : {}),
  })
  return true
}

/** The structures of one section with those of the file put in, ordered along it. */
function merged(
  held: readonly StandingRow[], attached: readonly AttachedStructure<StructureRecord>[], idOf: (one: AttachedStructure<StructureRecord>) => number,
): { standings: Standing[]; changedRows: number[] } {
  const list = new Map<number, Standing>(held.map((s) => [s.structure_id, {
    structureId: s.structure_id, lineDistanceM: s.line_distance_m, declaredLineDistanceM: s.declared_line_distance_m,
  }]))
  const changedRows: number[] = []
  for (const one of attached) {
    const id = idOf(one)
    const old = list.get(id)
    const declaredLineDistanceM = one.declaredLineDistanceM ?? old?.declaredLineDistanceM ?? null
    if (old && Math.abs(old.lineDistanceM - one.lineDistanceM) <= SAME_PLACE_M && old.declaredLineDistanceM === declaredLineDistanceM) continue
    list.set(id, { structureId: id, lineDistanceM: one.lineDistanceM, declaredLineDistanceM })
    changedRows.push(one.structure.rowNo)
  }
  return { standings: [...list.values()].sort((a, b) => a.lineDistanceM - b.lineDistanceM), changedRows }
}
