import path from 'node:path'
import { defaultPolicy } from '@/lib/condition'
import { startEmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate } from '@/lib/launch/migrate'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'
import { rollUpCircuits } from '@/lib/store/health'
import { sql } from '@/lib/store/sql/sql'
import { database, inTransaction, type Db } from '@/lib/store/transaction'

/** The roll-up after 10,000 changed splices over 50 circuits, in a store of 500 circuits and 200,000 splices. Goal: under 100 ms. */
const DIR = path.join('.bench', 'roll-up')
const CIRCUITS = 500
const SPLICES_EACH = 400
const TOUCHED = 50
const CHANGED_EACH = 200
const RUNS = 30
const say = (text: string) => process.stdout.write(`${text}\n`)

const server = await startEmbeddedPostgres({ dataDir: path.join(DIR, 'pg'), database: 'by_circuit' })
process.env.DATABASE_URL = server.url
try {
  await migrate(server.url)
  await fill()
  const touched = Array.from({ length: TOUCHED }, (_, i) => 1 + i * (CIRCUITS / TOUCHED))
  const times: number[] = []
  const plainTimes: number[] = []
  for (let run = 0; run < RUNS; run++) {
    await inTransaction(async (tx) => {
      const changed = await tx.run(sql`
        UPDATE splice_state SET class = c.class, measured_class = c.class, ratio = c.ratio
        FROM (SELECT splice_id, (ARRAY['sound', 'watch', 'degraded', 'urgent', 'critical'])[1 + (splice_id + ${run}::int) % 5] AS class,
            0.4 + ((splice_id * 7 + ${run}::int) % 300) / 100.0 AS ratio,
            row_number() OVER (PARTITION BY circuit_id ORDER BY splice_id) AS n
          FROM splice_state WHERE circuit_id = ANY(${touched}::int[])) c
        WHERE c.splice_id = splice_state.splice_id AND c.n <= ${CHANGED_EACH}`)
      if (changed !== TOUCHED * CHANGED_EACH) throw new Error(`${changed} splices were changed instead of ${TOUCHED * CHANGED_EACH}.`)
      times.push(await timed(() => rollUpCircuits(allScope(), touched, defaultPolicy, tx)))
      plainTimes.push(await timed(() => plainCounts(touched, tx)))
    })
  }
  await mustAddUp()
  say(`${TOUCHED * CHANGED_EACH} changed splices over ${TOUCHED} of ${CIRCUITS} circuits, ${CIRCUITS * SPLICES_EACH} splices in all, ${RUNS} runs`)
  const [median, p95, longest] = [0.5, 0.95, 1].map((share) => quantile(times, share))
  say(`classes and coverage of ${TOUCHED * 250} spans: median ${median} ms, 95 % within ${p95} ms, longest ${longest} ms, first ${times[0]} ms (goal under 100)`)
  const plain = quantile(plainTimes, 0.5)
  say(`the plainest counts of the same rows, splices and looks by circuit: median ${plain} ms; the roll-up takes ${((median ?? NaN) / (plain ?? NaN)).toFixed(1)} times as long`)
  if ((median ?? NaN) >= 100) process.exitCode = 1
} finally {
  await closeDatabase()
  await server.stop()
}

async function timed(work: () => Promise<void>): Promise<number> {
  const startedMs = performance.now()
  await work()
  return Math.round(performance.now() - startedMs)
}

/** What any roll-up has to read, and no more: the peer that is as slow as the machine is. */
async function plainCounts(circuitIds: readonly number[], tx: Db): Promise<void> {
  await tx.rows(sql`SELECT circuit_id, class, count(*) FROM splice_state WHERE circuit_id = ANY(${circuitIds}::int[]) GROUP BY circuit_id, class`)
  await tx.rows(sql`
    SELECT sec.circuit_id, count(*) FROM section sec JOIN span sp ON sp.section_id = sec.id JOIN span_coverage v ON v.span_id = sp.id
    WHERE sec.circuit_id = ANY(${circuitIds}::int[]) GROUP BY sec.circuit_id`)
}

function quantile(values: readonly number[], share: number): number | undefined {
  return [...values].sort((a, b) => a - b)[Math.ceil(values.length * share) - 1]
}

/** Counts of the roll-up against a plain count of the splices. */
async function mustAddUp(): Promise<void> {
  const wrong = await database().rows<{ circuit_id: number }>(sql`
    SELECT h.circuit_id FROM circuit_health h JOIN (
      SELECT circuit_id, count(*) AS n, count(*) FILTER (WHERE class = 'critical') AS critical FROM splice_state GROUP BY circuit_id
    ) s ON s.circuit_id = h.circuit_id JOIN (
      SELECT circuit_id, count(*) AS conclusive FROM (
        SELECT s.circuit_id FROM splice s JOIN splice_state st ON st.splice_id = s.id
        GROUP BY s.circuit_id, s.span_id, s.phase HAVING bool_and(st.conclusive_at IS NOT NULL)
      ) proved GROUP BY circuit_id
    ) p ON p.circuit_id = h.circuit_id
    WHERE h.splice_count <> s.n OR h.critical_count <> s.critical OR h.conclusive_span_phases <> p.conclusive OR h.covered_span_phases <> 750`)
  if (wrong.length > 0) throw new Error(`The roll-up of ${wrong.length} circuits does not add up.`)
}

/** Built once and kept. Rows lie circuit by circuit, as imports write them. */
async function fill(): Promise<void> {
  const db = database()
  if ((await db.row<{ n: number }>(sql`SELECT count(*) AS n FROM splice_state`))?.n === CIRCUITS * SPLICES_EACH) return
  say('Filling the store')
  await inTransaction(async (tx) => {
    await tx.run(sql`INSERT INTO policy (version, values, actor) VALUES (1, '{}', 'bench') ON CONFLICT DO NOTHING`)
    await tx.run(sql`INSERT INTO import (id, kind, file_name, sha256, size_bytes, state, report, actor) VALUES (1, 'lines', 'x', repeat('0', 64), 1, 'done', '{}', 'bench')`)
    await tx.run(sql`INSERT INTO survey (id, name) VALUES (1, 'Spring')`)
    await tx.run(sql`INSERT INTO circuit (id, name) SELECT c, 'C' || c FROM generate_series(1, ${CIRCUITS}::int) c`)
    await tx.run(sql`INSERT INTO section (id, circuit_id, length_m, lon_lat) SELECT c, c, 75000, ARRAY[-110, 40 + c / 100.0, -109, 40 + c / 100.0]
      FROM generate_series(1, ${CIRCUITS}::int) c`)
    await tx.run(sql`INSERT INTO span (id, section_id, ord, start_m, end_m, lon_lat)
      SELECT (c - 1) * 250 + s + 1, c, s, s * 300, (s + 1) * 300, ARRAY[-110 + s / 250.0, 40 + c / 100.0, -110 + (s + 1) / 250.0, 40 + c / 100.0]
      FROM generate_series(1, ${CIRCUITS}::int) c, generate_series(0, 249) s ORDER BY c, s`)
    await tx.run(sql`INSERT INTO splice (id, circuit_id, section_id, span_id, line_distance_m, offset_m, lon, lat, phase)
      SELECT (c - 1) * ${SPLICES_EACH}::int + n, c, c, (c - 1) * 250 + n % 250 + 1, n, n, -110, 45, (ARRAY['A', 'B', 'C'])[1 + n % 3]
      FROM generate_series(1, ${CIRCUITS}::int) c, generate_series(1, ${SPLICES_EACH}::int) n ORDER BY c, n`)
    await tx.run(sql`INSERT INTO assessment (id, splice_id, engine_version, policy_version, cause, class, shown_class, confidence, result)
      SELECT id, id, '0', 1, 'import', 'sound', 'sound', 'high', '{}' FROM splice`)
    await tx.run(sql`INSERT INTO splice_state (splice_id, assessment_id, circuit_id, class, measured_class, confidence, ratio, conclusive_at)
      SELECT id, id, circuit_id, 'sound', 'sound', 'high', 0.5, CASE WHEN id % 3 > 0 THEN TIMESTAMPTZ '2026-06-01 10:00Z' END FROM splice`)
    await tx.run(sql`INSERT INTO span_coverage (span_id, phase, method, surveyed_on, survey_id, import_id)
      SELECT id, p, 'infrared', '2026-06-01', 1, 1 FROM span, unnest(ARRAY['A', 'B', 'C']) p`)
  })
  await db.run(sql`VACUUM ANALYZE`)
  await inTransaction((tx) => rollUpCircuits(allScope(), Array.from({ length: CIRCUITS }, (_, i) => i + 1), defaultPolicy, tx))
}
