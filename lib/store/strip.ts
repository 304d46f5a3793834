import type { SpliceFilter } from '@/lib/contract/filter'
import type { CircuitStrip, StripBeside, StripSplice } from '@/lib/contract/strip'
import { abreastOf, sharedStretches, type StructureInCommon } from '@/lib/geo'
import { coverageOfCircuit } from './coverage'
import { onCircuit, type Scope } from './scope'
import { structuresOfLine } from './sql/line-joints'
import { sql } from './sql/sql'
import { spanCourses, stripCrossings, stripSections, stripSplices, structuresInCommon } from './sql/strip'
import { database, type Db } from './transaction'

type Section = CircuitStrip['sections'][number]

/** A circuit straightened: what stands along it, in line order, each splice with whether the filter lets it through. Undefined where there is no such circuit within the scope. */
export async function stripOfCircuit(scope: Scope, circuitId: number, filter: SpliceFilter = {}, db: Db = database()): Promise<CircuitStrip | undefined> {
  const circuit = await db.row<{ name: string; line_name: string | null }>(
    sql`SELECT name, line_name FROM circuit WHERE id = ${circuitId} AND ${onCircuit(scope, 'id')}`)
  if (!circuit) return undefined
  const [sections, structures, coverage, courses, splices, crossings, beside] = await Promise.all([
    db.rows<Omit<Section, 'structures'>>(stripSections(scope, circuitId)),
    db.rows<Section['structures'][number] & { section_id: number }>(structuresOfLine(scope, circuitId)),
    coverageOfCircuit(scope, circuitId, db),
    db.rows<{ id: number; section_id: number; lon_lat: number[] }>(spanCourses(scope, circuitId)),
    db.rows<StripSplice>(stripSplices(scope, circuitId, filter)),
    db.rows<CircuitStrip['crossings'][number]>(stripCrossings(scope, circuitId)),
    besideCircuit(scope, circuitId, filter, db),
  ])
  const courseOf = new Map(courses.map((course) => [course.id, course]))
  return {
    circuit_id: circuitId, circuit: circuit.name, line_name: circuit.line_name,
    sections: sections.map((section) => ({
      ...section,
      structures: structures.flatMap(({ section_id: sectionId, ...of }) => (sectionId === section.id ? [of] : [])),
    })),
    // A span that came or went between two questions is left to the next answer.
    spans: coverage.flatMap((span) => {
      const course = courseOf.get(span.span_id)
      return course ? [{ ...span, section_id: course.section_id, lon_lat: course.lon_lat }] : []
    }),
    splices, beside, crossings,
  }
}

type InCommon = StructureInCommon & Pick<StripBeside, 'circuit' | 'line_name'>

/** Circuits on the same structures with the splices they have there. */
async function besideCircuit(scope: Scope, circuitId: number, filter: SpliceFilter, db: Db): Promise<StripBeside[]> {
  const circuits = new Map<number, InCommon[]>()
  for (const row of await db.rows<InCommon>(structuresInCommon(scope, circuitId))) circuits.set(row.besideCircuitId, [...(circuits.get(row.besideCircuitId) ?? []), row])
  const found = await Promise.all([...circuits].map(async ([id, shared]): Promise<StripBeside[]> => {
    const stretches = sharedStretches(shared)
    const [first] = shared
    if (!first || stretches.length === 0) return []
    const splices = await db.rows<StripSplice>(stripSplices(scope, id, filter))
    return [{
      circuit_id: id, circuit: first.circuit, line_name: first.line_name,
      stretches: stretches.map(({ sectionId, fromM, toM }) => ({ section_id: sectionId, from_m: fromM, to_m: toM })),
      splices: splices.flatMap((splice) => {
        const place = abreastOf(stretches, splice.section_id, splice.line_distance_m)
        return place ? [{ ...splice, abreast: { section_id: place.sectionId, line_distance_m: place.lineDistanceM } }] : []
      }),
    }]
  }))
  return found.flat()
}
