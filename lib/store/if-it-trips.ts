import type { IfItTrips, IfItTripsBody, TripOfSplice } from '@/lib/contract/if-it-trips'
import { crossingsOfSpan } from './risk'
import { onCircuit, type Scope } from './scope'
import { iso } from './sql/iso'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

const COLUMNS = sql`t.loses_supply, t.isolated_by, t.called, t.on_site_h, t.repair_h, t.recall_h, t.noted_by, ${iso('t.noted_at')} AS noted_at`

/** What was noted of a circuit, each of it null where nobody has; undefined where there is no such circuit within the scope. */
export const ifItTripsOf = (scope: Scope, circuitId: number, db: Db = database()): Promise<IfItTrips | undefined> =>
  db.row<IfItTrips>(sql`SELECT ${COLUMNS} FROM circuit c LEFT JOIN if_it_trips t ON t.circuit_id = c.id WHERE c.id = ${circuitId} AND ${onCircuit(scope, 'c.id')}`)

/** The same for the circuit of a splice, with what lines and crossings on file say. */
export const tripOfSpliceOf = (scope: Scope, spliceId: number, db: Db = database()): Promise<TripOfSplice | undefined> =>
  db.row<TripOfSplice>(sql`
    SELECT ${COLUMNS}, c.from_name AS "from", c.to_name AS "to", c.radial, c.mw,
      (SELECT coalesce(json_agg(json_build_object('kind', x.kind, 'name', x.name, 'line_distance_m', x.line_distance_m) ORDER BY x.line_distance_m), '[]')
        FROM ${crossingsOfSpan}) AS crossings
    FROM splice s JOIN circuit c ON c.id = s.circuit_id JOIN section sec ON sec.id = s.section_id JOIN span sp ON sp.id = s.span_id
    LEFT JOIN if_it_trips t ON t.circuit_id = c.id
    WHERE s.id = ${spliceId} AND ${onCircuit(scope, 's.circuit_id')}`)

/** How many circuits within the scope it was: one or none. */
export const putIfItTrips = (scope: Scope, circuitId: number, said: IfItTripsBody, db: Db): Promise<number> => db.run(sql`
  INSERT INTO if_it_trips (circuit_id, loses_supply, isolated_by, called, on_site_h, repair_h, recall_h, noted_by)
  SELECT c.id, ${said.loses_supply}::text, ${said.isolated_by}::text, ${said.called}::text, ${said.on_site_h}::float8, ${said.repair_h}::float8,
    ${said.recall_h}::float8, ${said.noted_by}::text
  FROM circuit c WHERE c.id = ${circuitId} AND ${onCircuit(scope, 'c.id')}
  ON CONFLICT (circuit_id) DO UPDATE SET loses_supply = excluded.loses_supply, isolated_by = excluded.isolated_by, called = excluded.called,
    on_site_h = excluded.on_site_h, repair_h = excluded.repair_h, recall_h = excluded.recall_h, noted_by = excluded.noted_by, noted_at = now()`)

export const dropIfItTrips = (scope: Scope, circuitId: number, db: Db): Promise<number> =>
  db.run(sql`DELETE FROM if_it_trips t WHERE t.circuit_id = ${circuitId} AND ${onCircuit(scope, 't.circuit_id')}`)
