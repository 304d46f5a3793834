import { onCircuit, type Scope } from '../scope'
import { sql, type Sql } from './sql'

/** Spans that begin or end at a structure whose name ends so, which is more than bear it: 'STR 45' and '145' for '45'. */
export function spansNear(scope: Scope, names: readonly string[]): Sql {
  const endings = names.map((name) => `%${name.replace(/[\\%_]/g, '\\$&')}`)
  return sql`
    WITH named AS MATERIALIZED (
      SELECT id FROM structure x WHERE lower(x.label) LIKE ANY(${endings}::text[])
        OR EXISTS (SELECT FROM unnest(x.aliases) AS other(label) WHERE lower(other.label) LIKE ANY(${endings}::text[]))
    )
    SELECT sp.id, sp.end_m - sp.start_m AS length_m, c.id AS circuit_id, c.name AS circuit, c.line_name,
      b.id AS back_id, b.label AS back, b.aliases AS back_aliases, a.id AS ahead_id, a.label AS ahead, a.aliases AS ahead_aliases
    FROM span sp JOIN section sec ON sec.id = sp.section_id JOIN circuit c ON c.id = sec.circuit_id
    LEFT JOIN structure b ON b.id = sp.structure_back_id LEFT JOIN structure a ON a.id = sp.structure_ahead_id
    WHERE (sp.structure_back_id IN (SELECT id FROM named) OR sp.structure_ahead_id IN (SELECT id FROM named)) AND ${onCircuit(scope, 'c.id')}
    ORDER BY c.name, sec.name, sp.ord`
}
