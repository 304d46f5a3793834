import type { CircuitStrip, StripSplice } from '@/lib/contract/strip'
import { coverageOfCircuit } from './coverage'
import { onCircuit, type Scope } from './scope'
import { structuresOfLine } from './sql/line-joints'
import { sql } from './sql/sql'
import { spanCourses, stripCrossings, stripSections, stripSplices } from './sql/strip'
import { database, type Db } from './transaction'

type Section = CircuitStrip['sections'][number]

/** A circuit straightened: what stands along it, in line order. Undefined where there is no such circuit within the scope. */
export async function stripOfCircuit(scope: Scope, circuitId: number, db: Db = database()): Promise<CircuitStrip | undefined> {
  const circuit = await db.row<{ name: string; line_name: string | null }>(
    sql`SELECT name, line_name FROM circuit WHERE id = ${circuitId} AND ${onCircuit(scope, 'id')}`)
  if (!circuit) return undefined
  const [sections, structures, coverage, courses, splices, crossings] = await Promise.all([
    db.rows<Omit<Section, 'structures'>>(stripSections(scope, circuitId)),
    db.rows<Section['structures'][number] & { section_id: number }>(structuresOfLine(scope, circuitId)),
    coverageOfCircuit(scope, circuitId, db),
    db.rows<{ id: number; section_id: number; lon_lat: number[] }>(spanCourses(scope, circuitId)),
    db.rows<StripSplice>(stripSplices(scope, circuitId)),
    db.rows<CircuitStrip['crossings'][number]>(stripCrossings(scope, circuitId)),
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
    splices, crossings,
  }
}
