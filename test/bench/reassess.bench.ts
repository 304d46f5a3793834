import path from 'node:path'
import { assess, defaultPolicy } from '@/lib/condition'
import { reassessNetwork } from '@/lib/cases/reassess-network'
import { startEmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate } from '@/lib/launch/migrate'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'
import { loadSubjects } from '@/lib/store/evidence'
import { name as written, sql } from '@/lib/store/sql/sql'
import { database, inTransaction } from '@/lib/store/transaction'

/**
 * Every one of 1,000,000 splices assessed anew from the store, as after a change of the policy: read, judged, written and rolled up as one
 * act. Beside it, in the same run, what the engine alone takes for the same evidence, and PostgreSQL for copying the same assessments.
 * `BENCH_SPLICES=200000` (whole thousands) takes fewer where time or disk are short; the figure that is told is that of a million.
 */
const SPANS_EACH = 100
const SPLICES_EACH = 1000
const CIRCUITS = Math.max(20, Math.round(Number(process.env.BENCH_SPLICES ?? 1_000_000) / SPLICES_EACH))
const SPLICES = CIRCUITS * SPLICES_EACH
const DIR = path.join('.bench', `reassess-${SPLICES}`)
const SAMPLE = 20_000
/** Indexes that no constraint needs: they are dropped for the fill and made again as they were. */
const FREE_INDEXES = sql`
  SELECT i.indexrelid::regclass::text AS index, pg_get_indexdef(i.indexrelid) AS made FROM pg_index i
  WHERE i.indrelid = ANY(ARRAY['splice', 'reading', 'placement', 'assessment', 'splice_state']::regclass[]) AND NOT EXISTS (SELECT FROM pg_constraint WHERE conindid = i.indexrelid)`
const say = (text: string) => process.stdout.write(`${text}\n`)
const perS = (n: number, ms: number) => Math.round(n / (ms / 1000)).toLocaleString('en-US')

const server = await startEmbeddedPostgres({ dataDir: path.join(DIR, 'pg'), database: 'network' })
process.env.DATABASE_URL = server.url
try {
  await migrate(server.url)
  await fill()
  const engineMs = await engineAlone() * (SPLICES / SAMPLE)
  let mostBytes = 0
  const watch = setInterval(() => { mostBytes = Math.max(mostBytes, process.memoryUsage.rss()) }, 200)
  const wholeMs = await timed(() => reassessNetwork(allScope(), async () => undefined))
  clearInterval(watch)
  const counted = await database().row<{ n: number }>(sql`
    SELECT count(*)::int AS n FROM splice_state st JOIN assessment a ON a.id = st.assessment_id WHERE a.cause = 'policy' AND st.ratio IS NOT NULL`)
  if (counted?.n !== SPLICES) throw new Error(`${counted?.n} splices have a new ratio instead of ${SPLICES}.`)
  const copyMs = await timed(() => inTransaction(async (tx) => {
    await tx.run(sql`CREATE TEMPORARY TABLE copied (LIKE assessment INCLUDING INDEXES) ON COMMIT DROP`)
    await tx.run(sql`INSERT INTO copied SELECT a.* FROM splice_state st JOIN assessment a ON a.id = st.assessment_id`)
  }))
  await database().run(sql`DELETE FROM assessment a WHERE cause = 'policy' AND NOT EXISTS (SELECT FROM splice_state st WHERE st.assessment_id = a.id)`)
  say(`${SPLICES.toLocaleString('en-US')} splices reassessed from the store in ${(wholeMs / 1000).toFixed(0)} s: ${perS(SPLICES, wholeMs)}/s, process at most ${Math.round(mostBytes / 1e6)} MB`)
  say(`engine alone ${perS(SPLICES, engineMs)}/s (${(wholeMs / engineMs).toFixed(1)} times as long whole), the database copying its assessments ${perS(SPLICES, copyMs)}/s (${(wholeMs / copyMs).toFixed(1)} times)`)
} finally {
  await closeDatabase()
  await server.stop()
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const startedMs = performance.now()
  await work()
  return performance.now() - startedMs
}

/** Milliseconds for a sample of the same splices, already read. */
async function engineAlone(): Promise<number> {
  const ids = Array.from({ length: SAMPLE }, (_, i) => 1 + i * (SPLICES / SAMPLE))
  const subjects = (await loadSubjects(allScope(), ids, database())).map((read) => read())
  if (subjects.length !== SAMPLE || subjects.some(({ evidence }) => evidence.length !== 1)) throw new Error('The sample is not what was filled in.')
  const asOfMs = Date.now()
  const judgeAll = async () => subjects.forEach(({ facts, evidence }) => assess({ facts, evidence, policy: defaultPolicy, asOfMs }))
  await judgeAll()
  return timed(judgeAll)
}

/** Built once and kept: each splice with one reading of both sides, placed on it, most of them good. */
async function fill(): Promise<void> {
  const db = database()
  if (((await db.row<{ n: number }>(sql`SELECT count(*)::int AS n FROM splice_state`))?.n ?? 0) === SPLICES) return
  say(`Filling the store with ${SPLICES.toLocaleString('en-US')} splices`)
  const fillMs = await timed(fillOnce)
  say(`Filled in ${(fillMs / 1000).toFixed(0)} s`)
}

async function fillOnce(): Promise<void> {
  await inTransaction(async (tx) => {
    // Rows that fit by construction: neither foreign keys nor triggers are asked a million times. What is measured comes after, with both.
    await tx.run(sql`SET LOCAL session_replication_role = replica`)
    await tx.run(sql`SET LOCAL maintenance_work_mem = '256MB'`)
    const indexes = await tx.rows<{ index: string; made: string }>(FREE_INDEXES)
    for (const { index } of indexes) await tx.run(written(`DROP INDEX ${index}`))
    await tx.run(sql`INSERT INTO policy (version, values, actor) VALUES (1, '{}', 'bench') ON CONFLICT DO NOTHING`)
    await tx.run(sql`INSERT INTO import (id, kind, file_name, sha256, size_bytes, state, report, actor) VALUES (1, 'readings', 'x', repeat('0', 64), 1, 'done', '{}', 'bench')`)
    await tx.run(sql`INSERT INTO survey (id, name) VALUES (1, 'Spring')`)
    await tx.run(sql`INSERT INTO circuit (id, name, voltage_kv) SELECT c, 'C' || c, 230 FROM generate_series(1, ${CIRCUITS}::int) c`)
    await tx.run(sql`INSERT INTO section (id, circuit_id, length_m, lon_lat, conductor_code, rating_a, max_operating_c)
      SELECT c, c, 30000, ARRAY[-110, 40 + c / 200.0, -109.6, 40 + c / 200.0], 'Drake', 900, 75 FROM generate_series(1, ${CIRCUITS}::int) c`)
    await tx.run(sql`INSERT INTO span (id, section_id, ord, start_m, end_m, lon_lat)
      SELECT (c - 1) * ${SPANS_EACH}::int + s + 1, c, s, s * 300, (s + 1) * 300,
        ARRAY[-110 + s / 250.0, 40 + c / 200.0, -110 + (s + 1) / 250.0, 40 + c / 200.0]
      FROM generate_series(1, ${CIRCUITS}::int) c, generate_series(0, ${SPANS_EACH}::int - 1) s ORDER BY c, s`)
    await tx.run(sql`INSERT INTO splice (id, circuit_id, section_id, span_id, line_distance_m, offset_m, lon, lat, phase)
      SELECT (c - 1) * ${SPLICES_EACH}::int + n, c, c, (c - 1) * ${SPANS_EACH}::int + n % ${SPANS_EACH}::int + 1, n, n, -110, 45, (ARRAY['A', 'B', 'C'])[1 + n % 3]
      FROM generate_series(1, ${CIRCUITS}::int) c, generate_series(1, ${SPLICES_EACH}::int) n ORDER BY c, n`)
    await tx.run(sql`INSERT INTO reading (id, import_id, survey_id, row_no, reading_key, content_hash, kind, taken_at, position_of, phase, side_a_uohm, side_b_uohm,
        conductor_uohm, electrode_span_m, line_current_a, ambient_c, raw_row)
      SELECT id, 1, 1, id, 'r' || id, 'h' || id, 'resistance', TIMESTAMPTZ '2026-06-01 10:00Z', 'target', phase, 10 + (id * 7) % 12, 10 + (id * 13) % 24, 21.8, 0.3048,
        400, 15, 'r' || id FROM splice ORDER BY id`)
    await tx.run(sql`INSERT INTO placement (id, reading_id, state, circuit_id, section_id, span_id, splice_id, line_distance_m, lon, lat, offset_m, probability, method, import_id)
      SELECT id, id, 'placed', circuit_id, section_id, span_id, id, line_distance_m, lon, lat, 0, 1, 'track', 1 FROM splice ORDER BY id`)
    await tx.run(sql`INSERT INTO assessment (id, splice_id, engine_version, policy_version, cause, class, shown_class, confidence, result)
      SELECT id, id, '0', 1, 'import', 'unknown', 'unknown', 'low', '{}' FROM splice ORDER BY id`)
    await tx.run(sql`SELECT setval(pg_get_serial_sequence('assessment', 'id'), ${SPLICES}::int)`)
    await tx.run(sql`INSERT INTO splice_state (splice_id, assessment_id, circuit_id, class, measured_class, confidence, reading_count)
      SELECT id, id, circuit_id, 'unknown', 'unknown', 'low', 1 FROM splice ORDER BY id`)
    for (const { made } of indexes) await tx.run(written(made))
  })
  await database().run(sql`VACUUM ANALYZE`)
}
