import type { ExtentRecord } from '@/lib/intake'
import { rebuildCoverage } from '@/lib/store/coverage'
import { extentRows } from '@/lib/store/network-rows'
import { insertRow } from '@/lib/store/rows'
import { openSurvey } from '@/lib/store/surveys'
import { gather, NOTHING_LOADED, type ImportContext, type Loader } from '../importing/context'
import type { Issue } from '../importing/issue-log'
import { loadStoredLines, standingOf, type StoredLine, type StoredLines } from '../network/stored-lines'
import { unknownCircuit, unknownStructure } from './unknown-names'

interface Range { line: StoredLine; from: string | null; to: string | null; startM: number; endM: number }

const SAME_M = 1

/** 'Patrolled, no exception' between structures: it sets coverage, never a class. */
export const loadExtents: Loader<'extents'> = async (context, source) => {
  const { records, rawOf } = await gather(source)
  const lines = await loadStoredLines(context.scope, context.tx)
  const held = await extentRows(context.scope, context.tx)
  let alreadyHeld = 0
  for (const record of records) {
    const ranges = rangesOf(lines, record)
    if (!Array.isArray(ranges)) {
      context.issues.add(ranges, rawOf(record.rowNo))
      continue
    }
    const survey = await openSurvey(context.scope, record.survey ?? context.survey, context.importId, context.tx)
    const fresh = ranges.filter((range) => !held.some((row) => row.survey_id === survey.id && row.section_id === range.line.id
      && Math.abs(row.start_m - range.startM) < SAME_M && Math.abs(row.end_m - range.endM) < SAME_M
      && row.surveyed_on === record.surveyedOn && row.method === record.method))
    if (fresh.length === 0) alreadyHeld++
    for (const range of fresh) held.push({ ...await insertExtent(context, record, range, survey.id) })
  }
  context.progress('storing')
  return { ...NOTHING_LOADED, alreadyHeld, circuitIds: await rebuildCoverage(context.scope, [context.importId], context.tx) }
}

async function insertExtent(context: ImportContext, r: ExtentRecord, range: Range, surveyId: number) {
  const place = { survey_id: surveyId, section_id: range.line.id, start_m: range.startM, end_m: range.endM, surveyed_on: r.surveyedOn, method: r.method }
  const id = await insertRow(context.tx, 'survey_extent', {
    ...place, circuit_id: range.line.circuitId, structure_from: range.from, structure_to: range.to, result: r.result, line_current_a: r.lineCurrentA,
    ambient_c: r.ambientC, wind_m_s: r.windMS, import_id: context.importId,
  })
  context.changes.created('survey_extent', id)
  return place
}

/** The stretch of each section that was patrolled: the section with both structures, or every section where none is named. */
function rangesOf(lines: StoredLines, r: ExtentRecord): Range[] | Issue {
  const own = lines.find(r.circuit, null)
  if (own.length === 0) return unknownCircuit(r.rowNo, r.circuit, lines.circuits)
  if (r.structureFrom === null && r.structureTo === null) {
    return own.map((line) => ({ line, from: null, to: null, startM: 0, endM: line.lengthM }))
  }
  for (const line of own) {
    const from = r.structureFrom === null ? null : standingOf(line, r.structureFrom)
    const to = r.structureTo === null ? null : standingOf(line, r.structureTo)
    if (from === undefined || to === undefined) continue
    const ends = [from?.line_distance_m ?? 0, to?.line_distance_m ?? line.lengthM]
    return [{ line, from: from?.label ?? null, to: to?.label ?? null, startM: Math.min(...ends), endM: Math.max(...ends) }]
  }
  const fromKnown = r.structureFrom === null || own.some((line) => standingOf(line, r.structureFrom ?? ''))
  return fromKnown ? unknownStructure(r.rowNo, 'structure_to', r.structureTo ?? '', `circuit ${r.circuit}`)
    : unknownStructure(r.rowNo, 'structure_from', r.structureFrom ?? '', `circuit ${r.circuit}`)
}
