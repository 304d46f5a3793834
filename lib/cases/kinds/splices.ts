import type { SpliceRecord } from '@/lib/intake'
import { lengthTextOf } from '@/lib/store/position'
import { updateRow, type RowValues } from '@/lib/store/rows'
import { insertSplices, spliceRows, type NewSplice, type SpliceRow } from '@/lib/store/splice-writes'
import { gather, NOTHING_LOADED, type ImportContext, type Loader } from '../importing/context'
import { placeDeclared, type DeclaredPlace } from '../network/place-declared'
import { loadStoredLines } from '../network/stored-lines'
import { KnownSplices } from './known-splices'

/** The utility's own list of splices. One that is there already, by name or by place, is brought up to date. */
export const loadSplices: Loader<'splices'> = async (context, source) => {
  const { records, rawOf } = await gather(source)
  const { scope, tx, issues } = context
  context.progress('placing')
  const lines = await loadStoredLines(scope, tx)
  const length = lengthTextOf(context.settings.unit_system)
  const known = new KnownSplices(await spliceRows(scope, tx))
  const fresh: { splice: NewSplice; record: SpliceRecord }[] = []
  const touched = new Map<number, number>()
  let alreadyHeld = 0
  for (const record of records) {
    const place = placeDeclared(lines, record, length)
    if ('code' in place) {
      issues.add(place, rawOf(record.rowNo))
      continue
    }
    issues.addAll(place.issues, rawOf)
    const same = known.find(record, place)
    if (same === 'twice') issues.add(labelTwice(record), rawOf(record.rowNo))
    else if (!same) {
      fresh.push({ splice: newSplice(record, place), record })
      known.willBe(record)
    } else if (await bringUpToDate(context, same, record, place)) touched.set(same.id, same.circuit_id)
    else alreadyHeld++
  }
  context.progress('storing')
  const ids = await insertSplices(scope, context.importId, fresh.map((f) => f.splice), tx)
  ids.forEach((id, i) => {
    context.changes.created('splice', id)
    touched.set(id, fresh[i]?.splice.circuitId ?? 0)
    known.isNow(fresh[i]?.record, id)
  })
  await linkSuccessors(context, records, known, touched)
  return { ...NOTHING_LOADED, alreadyHeld, newSplices: ids.length, spliceIds: [...touched.keys()], circuitIds: [...new Set(touched.values())] }
}

const newSplice = (r: SpliceRecord, place: DeclaredPlace): NewSplice => ({
  label: r.spliceId, circuitId: place.line.circuitId, sectionId: place.line.id, spanId: place.spanId, lineDistanceM: place.lineDistanceM,
  structureBackId: place.structureBackId, offsetM: place.offsetM, lon: place.lon, lat: place.lat, phase: r.phase, position: r.position,
  circuitSide: r.circuitSide, subconductor: r.subconductor, kind: r.kind, fittingType: r.fittingType, barrelOdMm: r.barrelOdMm,
  barrelLengthMm: r.barrelLengthMm, installedOn: r.installedOn, batch: r.batch, removedOn: r.removedOn, foundBySurvey: false,
})

const SAME_M = 0.01

/** What the file says replaces what stood there; an empty cell leaves it. True where anything changed. */
async function bringUpToDate({ tx, changes, issues }: ImportContext, held: SpliceRow, r: SpliceRecord, place: DeclaredPlace): Promise<boolean> {
  const said: RowValues = {
    label: r.spliceId, phase: r.phase, position: r.position, circuit_side: r.circuitSide, subconductor: r.subconductor, kind: r.kind,
    fitting_type: r.fittingType, barrel_od_mm: r.barrelOdMm, barrel_length_mm: r.barrelLengthMm, installed_on: r.installedOn, batch: r.batch,
    removed_on: r.removedOn,
  }
  const row = held as unknown as Record<string, unknown>
  const values: RowValues = Object.fromEntries(Object.entries(said).filter(([column, value]) => value !== null && row[column] !== value))
  const saysWhere = place.issues.length === 0
  if (saysWhere && (held.section_id !== place.line.id || Math.abs(held.line_distance_m - place.lineDistanceM) > SAME_M)) {
    Object.assign(values, {
      circuit_id: place.line.circuitId, section_id: place.line.id, span_id: place.spanId, line_distance_m: place.lineDistanceM,
      structure_back_id: place.structureBackId, offset_m: place.offsetM, lon: place.lon, lat: place.lat,
    })
  }
  if (held.found_by_survey) {
    values.found_by_survey = false
    if (held.label === null) issues.add(adopted(r, held.id))
  }
  if (Object.keys(values).length === 0) return false
  await changes.changing(tx, 'splice', held.id)
  await updateRow(tx, 'splice', held.id, values)
  Object.assign(held, values)
  return true
}

/** Once every splice of the file has its number. */
async function linkSuccessors(context: ImportContext, records: readonly SpliceRecord[], known: KnownSplices, touched: Map<number, number>): Promise<void> {
  for (const r of records) {
    if (r.successorOf === null || context.issues.rejectedRows.has(r.rowNo)) continue
    const id = known.idOf(r)
    const before = known.byLabel(r.circuit, r.successorOf)
    if (id === undefined || before === undefined || id === before) {
      context.issues.add({
        severity: 'warning', row: r.rowNo, field: 'successor_of', value: r.successorOf, code: 'unknown-splice',
        message: `Splice ${r.successorOf}, which this one is to succeed, is not known on circuit ${r.circuit}.`,
        remedy: 'Import that splice too, or correct its name; this splice was read without its predecessor.',
      })
      continue
    }
    if (known.successorOf(id) === before) continue
    await context.changes.changing(context.tx, 'splice', id)
    await updateRow(context.tx, 'splice', id, { successor_of_id: before })
    if (!touched.has(id)) touched.set(id, 0)
  }
}

const labelTwice = (r: SpliceRecord) => ({
  severity: 'error' as const, row: r.rowNo, field: 'splice_id', value: r.spliceId ?? '', code: 'splice-id-twice',
  message: `Splice ${r.spliceId} of circuit ${r.circuit} stands in the file twice.`, remedy: 'Give each splice of a circuit a name of its own.',
})

const adopted = (r: SpliceRecord, id: number) => ({
  severity: 'warning' as const, row: r.rowNo, field: 'splice_id', value: r.spliceId ?? '', code: 'found-splice-named',
  message: `A survey found a splice at this place before (found ${id}); it is taken for this one.`,
  remedy: 'Where they are two, move the readings of the one to the other from its sheet.',
})
