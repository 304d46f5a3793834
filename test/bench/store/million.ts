import path from 'node:path'
import { name as written, sql } from '@/lib/store/sql/sql'
import { database, inTransaction } from '@/lib/store/transaction'

/** Each circuit has so many, on a hundred spans. */
export const SPLICES_EACH = 1000
const SPANS_EACH = 100
/** `BENCH_SPLICES=200000` (whole thousands) takes fewer where time or disk are short. */
export const MILLION = Math.max(20, Math.round(Number(process.env.BENCH_SPLICES ?? 1_000_000) / SPLICES_EACH)) * SPLICES_EACH

/** Where a store of so many splices is kept: it is built once. */
export const storeOf = (splices: number) => ({ dataDir: path.join('.bench', `splices-${splices}`, 'pg'), database: 'network' })

/** Indexes that no constraint needs: they are dropped for the fill and made again as they were. */
const FREE_INDEXES = sql`
  SELECT i.indexrelid::regclass::text AS index, pg_get_indexdef(i.indexrelid) AS made FROM pg_index i
  WHERE i.indrelid = ANY(ARRAY['splice', 'reading', 'placement', 'assessment', 'splice_state']::regclass[]) AND NOT EXISTS (SELECT FROM pg_constraint WHERE conindid = i.indexrelid)`
const say = (text: string) => process.stdout.write(`${text}\n`)

/** Each splice with one reading of both sides, placed on it, most of them good. Whole thousands. */
export async function fillStore(splices: number): Promise<void> {
  const db = database()
  if (((await db.row<{ n: number }>(sql`SELECT count(*)::int AS n FROM splice_state`))?.n ?? 0) === splices) return
  say(`Filling a store with ${splices.toLocaleString('en-US')} splices`)
  const startedMs = performance.now()
  await fillOnce(splices, splices / SPLICES_EACH)
  say(`Filled in ${((performance.now() - startedMs) / 1000).toFixed(0)} s`)
}

async function fillOnce(splices: number, circuits: number): Promise<void> {
  await inTransaction(async (tx) => {
    // Rows that fit by construction: neither foreign keys nor triggers are asked a million times. What is measured comes after, with both.
    await tx.run(sql`SET LOCAL session_replication_role = replica`)
    await tx.run(sql`SET LOCAL maintenance_work_mem = '256MB'`)
    const indexes = await tx.rows<{ index: string; made: string }>(FREE_INDEXES)
    for (const { index } of indexes) await tx.run(written(`DROP INDEX ${index}`))
    await tx.run(sql`INSERT INTO policy (version, values, actor) VALUES (1, '{}', 'bench') ON CONFLICT DO NOTHING`)
    await tx.run(sql`INSERT INTO import (id, kind, file_name, sha256, size_bytes, state, report, actor) VALUES (1, 'readings', 'x', repeat('0', 64), 1, 'done', '{}', 'bench')`)
    await tx.run(sql`INSERT INTO survey (id, name) VALUES (1, 'Spring')`)
    await tx.run(sql`INSERT INTO circuit (id, name, voltage_kv) SELECT c, 'C' || c, 230 FROM generate_series(1, ${circuits}::int) c`)
    await tx.run(sql`INSERT INTO section (id, circuit_id, length_m, lon_lat, conductor_code, rating_a, max_operating_c)
      SELECT c, c, 30000, ARRAY[-110, 40 + c / 200.0, -109.6, 40 + c / 200.0], 'Drake', 900, 75 FROM generate_series(1, ${circuits}::int) c`)
    await tx.run(sql`INSERT INTO structure (id, label, lon, lat)
      SELECT (c - 1) * (${SPANS_EACH}::int + 1) + s + 1, (s + 1)::text, -110 + s / 250.0, 40 + c / 200.0
      FROM generate_series(1, ${circuits}::int) c, generate_series(0, ${SPANS_EACH}::int) s ORDER BY c, s`)
    await tx.run(sql`INSERT INTO section_structure (section_id, structure_id, ord, line_distance_m)
      SELECT c, (c - 1) * (${SPANS_EACH}::int + 1) + s + 1, s, s * 300 FROM generate_series(1, ${circuits}::int) c, generate_series(0, ${SPANS_EACH}::int) s ORDER BY c, s`)
    await tx.run(sql`INSERT INTO span (id, section_id, ord, structure_back_id, structure_ahead_id, start_m, end_m, lon_lat)
      SELECT (c - 1) * ${SPANS_EACH}::int + s + 1, c, s, (c - 1) * (${SPANS_EACH}::int + 1) + s + 1, (c - 1) * (${SPANS_EACH}::int + 1) + s + 2, s * 300, (s + 1) * 300,
        ARRAY[-110 + s / 250.0, 40 + c / 200.0, -110 + (s + 1) / 250.0, 40 + c / 200.0]
      FROM generate_series(1, ${circuits}::int) c, generate_series(0, ${SPANS_EACH}::int - 1) s ORDER BY c, s`)
    await tx.run(sql`INSERT INTO splice (id, circuit_id, section_id, span_id, line_distance_m, offset_m, lon, lat, phase)
      SELECT (c - 1) * ${SPLICES_EACH}::int + n, c, c, (c - 1) * ${SPANS_EACH}::int + n % ${SPANS_EACH}::int + 1, 
        n % ${SPANS_EACH}::int * 300 + 30 + n / ${SPANS_EACH}::int * 20, 30 + n / ${SPANS_EACH}::int * 20,
        -110 + (n % ${SPANS_EACH}::int + 0.1 + n / ${SPANS_EACH}::int / 15.0) / 250.0, 40 + c / 200.0, (ARRAY['A', 'B', 'C'])[1 + n % 3]
      FROM generate_series(1, ${circuits}::int) c, generate_series(1, ${SPLICES_EACH}::int) n ORDER BY c, n`)
    await tx.run(sql`INSERT INTO span_coverage (span_id, phase, method, surveyed_on, survey_id, import_id)
      SELECT id, p, 'resistance', '2026-06-01', 1, 1 FROM span, unnest(ARRAY['A', 'B', 'C']) p WHERE id % 17 > 0`)
    await tx.run(sql`INSERT INTO reading (id, import_id, survey_id, row_no, reading_key, content_hash, kind, taken_at, position_of, phase, side_a_uohm, side_b_uohm,
        conductor_uohm, electrode_span_m, line_current_a, ambient_c, raw_row)
      SELECT id, 1, 1, id, 'r' || id, 'h' || id, 'resistance', TIMESTAMPTZ '2026-06-01 10:00Z', 'target', phase, 10 + (id * 7) % 10,
        10 + (id * 13) % 10 + CASE WHEN id % 1000 = 7 THEN 40 WHEN id % 300 = 7 THEN 18 WHEN id % 60 = 7 THEN 7 ELSE 0 END, 21.8, 0.3048,
        400, 15, 'r' || id FROM splice ORDER BY id`)
    await tx.run(sql`INSERT INTO placement (id, reading_id, state, circuit_id, section_id, span_id, splice_id, line_distance_m, lon, lat, offset_m, probability, method, import_id)
      SELECT id, id, 'placed', circuit_id, section_id, span_id, id, line_distance_m, lon, lat, 0, 1, 'track', 1 FROM splice ORDER BY id`)
    await tx.run(sql`INSERT INTO assessment (id, splice_id, engine_version, policy_version, cause, class, shown_class, confidence, result)
      SELECT id, id, '0', 1, 'import', 'unknown', 'unknown', 'low', '{}' FROM splice ORDER BY id`)
    await tx.run(sql`SELECT setval(pg_get_serial_sequence('assessment', 'id'), ${splices}::int)`)
    await tx.run(sql`INSERT INTO splice_state (splice_id, assessment_id, circuit_id, class, measured_class, confidence, reading_count)
      SELECT id, id, circuit_id, 'unknown', 'unknown', 'low', 1 FROM splice ORDER BY id`)
    for (const { made } of indexes) await tx.run(written(made))
  })
  await database().run(sql`VACUUM ANALYZE`)
}
