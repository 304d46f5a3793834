import { iso } from './iso'
import { name, sql, type Sql } from './sql'

/** The last known load of a section as the API has it: the latest that nobody suspects; null where none is. */
export const lastLoadOf = (sectionId: string): Sql => sql`(
  SELECT json_build_object('current_a', x.current_a, 'taken_at', to_char(x.taken_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), 'quality', x.quality)
  FROM section_load x WHERE x.section_id = ${name(sectionId)} AND x.flow = 'carried' AND x.quality IS DISTINCT FROM 'suspect' ORDER BY x.taken_at DESC LIMIT 1)`

/** The greatest last known load of a circuit's sections, A per phase; null where none is known. */
export const greatestLoadOf = (circuitId: string): Sql => sql`(
  SELECT max((${lastLoadOf('of_circuit.id')}->>'current_a')::float8) FROM section of_circuit WHERE of_circuit.circuit_id = ${name(circuitId)})`

/** What the planner last said of a flow of the section `sec`; null where nobody did. */
export const plannedOf = (flow: 'expected-peak' | 'post-contingency'): Sql => sql`(
  SELECT json_build_object('current_a', x.current_a, 'taken_at', ${iso('x.taken_at')})
  FROM section_load x WHERE x.section_id = sec.id AND x.flow = ${flow} ORDER BY x.taken_at DESC LIMIT 1)`
