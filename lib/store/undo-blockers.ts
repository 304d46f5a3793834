import { mustCoverEverything, onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

/** Something of another import that rests on what an import made. */
export interface Blocker {
  /** In words: 'splices', 'readings'…; each counted once, however it rests on it. */
  what: string
  count: number
  /** Null: made by a person. */
  import_id: number | null
  file_name: string | null
}

/** Readings of any import that lie on what an import of lines, structures or splices brought or changed. */
export async function readingsOn(scope: Scope, importId: number, db: Db = database()): Promise<number> {
  const row = await db.row<{ n: number }>(sql`
    WITH touched AS (SELECT entity, entity_id AS id FROM import_change WHERE import_id = ${importId}),
      s AS (
        SELECT id FROM touched WHERE entity = 'section'
        UNION SELECT ss.section_id FROM touched JOIN section_structure ss ON ss.structure_id = touched.id WHERE entity = 'structure')
    SELECT count(*) AS n FROM placement pl JOIN reading r ON r.id = pl.reading_id
    WHERE pl.current AND pl.state = 'placed' AND NOT r.withdrawn AND ${onEverything(scope)}
      AND (pl.section_id IN (SELECT id FROM s) OR pl.splice_id IN (SELECT id FROM touched WHERE entity = 'splice'))`)
  return row?.n ?? 0
}

/** What keeps an import of lines, structures or splices from being undone. Its own rows and those of undone imports do not count. */
export async function undoBlockers(scope: Scope, importId: number, db: Db): Promise<Blocker[]> {
  mustCoverEverything(scope)
  return db.rows<Blocker>(sql`
    WITH made AS (SELECT entity, entity_id FROM import_change WHERE import_id = ${importId} AND before IS NULL),
      c AS (SELECT entity_id AS id FROM made WHERE entity = 'circuit'),
      s AS (SELECT entity_id AS id FROM made WHERE entity = 'section'),
      x AS (SELECT t.id, t.label FROM made JOIN structure t ON t.id = made.entity_id WHERE entity = 'structure'),
      p AS (SELECT entity_id AS id FROM made WHERE entity = 'splice'),
      rests (what, import_id, id) AS (
        SELECT 'sections', import_id, id FROM section WHERE circuit_id IN (SELECT id FROM c)
        UNION ALL SELECT 'splices', import_id, id FROM splice WHERE section_id IN (SELECT id FROM s) OR circuit_id IN (SELECT id FROM c)
        UNION ALL SELECT 'splices', import_id, id FROM splice WHERE structure_back_id IN (SELECT id FROM x) AND coalesce(import_id, 2147483647) > ${importId}
        UNION ALL SELECT 'splices', import_id, id FROM splice WHERE successor_of_id IN (SELECT id FROM p)
        UNION ALL SELECT 'limits on the register', NULL, id FROM current_limit WHERE splice_id IN (SELECT id FROM p)
        UNION ALL SELECT 'entries of the log of calls', NULL, id FROM call_entry WHERE splice_id IN (SELECT id FROM p)
        UNION ALL SELECT 'phasing rows', import_id, id FROM phasing WHERE circuit_id IN (SELECT id FROM c)
        UNION ALL SELECT 'phasing rows', ph.import_id, ph.id FROM phasing ph JOIN section sec ON sec.circuit_id = ph.circuit_id
          JOIN section_structure ss ON ss.section_id = sec.id JOIN x ON x.id = ss.structure_id AND x.label IN (ph.structure_from, ph.structure_to)
        UNION ALL SELECT 'crossings', import_id, id FROM crossing WHERE circuit_id IN (SELECT id FROM c)
        UNION ALL SELECT 'loads', import_id, row_number() OVER () FROM section_load WHERE section_id IN (SELECT id FROM s)
        UNION ALL SELECT 'patrols', import_id, id FROM survey_extent WHERE section_id IN (SELECT id FROM s)
        UNION ALL SELECT 'patrols', e.import_id, e.id FROM survey_extent e
          JOIN section_structure ss ON ss.section_id = e.section_id JOIN x ON x.id = ss.structure_id AND x.label IN (e.structure_from, e.structure_to)
        UNION ALL SELECT 'readings', r.import_id, r.id FROM placement pl JOIN reading r ON r.id = pl.reading_id
          WHERE pl.current AND pl.state = 'placed' AND NOT r.withdrawn AND (pl.splice_id IN (SELECT id FROM p) OR pl.section_id IN (SELECT id FROM s))
      )
    SELECT rests.what, count(DISTINCT rests.id) AS count, rests.import_id, i.file_name
    FROM rests LEFT JOIN import i ON i.id = rests.import_id
    WHERE rests.import_id IS DISTINCT FROM ${importId} GROUP BY rests.what, rests.import_id, i.file_name ORDER BY rests.import_id NULLS LAST, rests.what`)
}
