import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { randomUUID } from 'node:crypto'
import pg from 'pg'
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest'
import { REVIEW_RULES, reviewCause, type PlacementReasonCode } from '@/lib/geo'
import { migrate, MIGRATIONS_DIR } from '@/lib/launch/migrate'

/** A database of the product's first version, filled by hand as that version wrote, then brought up to date. */
const FIRST = fs.readdirSync(MIGRATIONS_DIR).filter((name) => fs.statSync(path.join(MIGRATIONS_DIR, name)).isDirectory()).sort()[0] ?? ''
const OLD_REPORT = {
  import_id: 1, kind: 'readings', rows: 2, read: 1, rejected: 1, urgent: [{ reading_id: 1, class: 'urgent', ratio: 1.9 }, { reading_id: 2, class: 'critical', ratio: 4.4 }],
  issues: [{ severity: 'error', row: 2, field: 'lat', value: '95', code: 'position-out-of-range', message: 'm', remedy: 'r' }], issue_count: 1,
}
/** No placement of that time waits for it. */
const NEWER = ['names-contradict']
/** Reasons to wait as they were written, each alone and some together, with candidates of one circuit and of two. */
const WAITING = [...REVIEW_RULES.filter(({ cause }) => !NEWER.includes(cause)).flatMap(({ codes }) => codes.map((code) => [code])), ['phase-missing', 'low-probability'], ['two-splices-in-reach', 'phase-missing'], []].flatMap(
  (codes) => [[0.6, 0.39], [0.5, 0.1], [0.8]].flatMap((probabilities) => [1, 2].map((other) => ({
    reasons: codes.map((code) => ({ code, distanceM: 3 })),
    candidates: probabilities.map((probability, at) => ({ circuitId: at === 0 ? 1 : other, probability })),
  }))))
const FILLED = `
  INSERT INTO policy (version, values, actor) VALUES (1, '{}', 'tester'), (2, '{}', 'tester');
  INSERT INTO import (id, kind, file_name, sha256, size_bytes, state, report, actor) VALUES
    (1, 'readings', 'a.csv', repeat('a', 64), 10, 'done', '${JSON.stringify(OLD_REPORT)}', 'tester'),
    (2, 'readings', 'b.csv', repeat('b', 64), 10, 'done', '${JSON.stringify({ ...OLD_REPORT, import_id: 2, urgent: [], issues: [] })}', 'tester');
  INSERT INTO import (id, kind, file_name, sha256, size_bytes, state, failure, actor) VALUES (3, 'readings', 'c.csv', repeat('c', 64), 10, 'failed', 'It was broken off.', 'tester');
  INSERT INTO import_issue (import_id, severity, row, code, message, remedy) VALUES (1, 'error', 2, 'position-out-of-range', 'm', 'r');
  INSERT INTO survey (id, name, import_id) VALUES (1, 'Spring', 1);
  INSERT INTO circuit (id, name) VALUES (1, 'C1');
  INSERT INTO section (id, circuit_id, length_m, lon_lat) VALUES (1, 1, 900, '{-110,45,-110,45.008}');
  INSERT INTO span (id, section_id, ord, start_m, end_m, lon_lat) VALUES (1, 1, 0, 0, 900, '{-110,45,-110,45.008}');
  INSERT INTO splice (id, label, circuit_id, section_id, span_id, line_distance_m, offset_m, lon, lat, phase)
    SELECT n, 'S' || n, 1, 1, 1, n * 100, n * 100, -110, 45, 'A' FROM generate_series(1, 4) n;
  INSERT INTO reading (id, import_id, survey_id, row_no, reading_key, content_hash, kind, position_of, raw_row, taken_at)
    SELECT n, 1, 1, n, 'r' || n, repeat(n::text, 32), 'resistance', 'target', 'r' || n, '2024-05-01 10:00Z' FROM generate_series(1, 2) n;
  -- S1: watch, urgent, then a better reading that did not clear it; S2: critical; S3: degraded; S4: sound.
  INSERT INTO assessment (id, splice_id, assessed_at, engine_version, policy_version, cause, class, confidence, ratio, result) VALUES
    (1, 1, '2022-01-01Z', '1', 1, 'import', 'watch', 'high', 1.1, '{"class": "watch"}'), (2, 1, '2023-01-01Z', '1', 1, 'import', 'urgent', 'high', 1.9, '{}'),
    (3, 1, '2024-01-01Z', '1', 1, 'import', 'sound', 'high', 0.6, '{}'), (4, 2, '2023-02-01Z', '1', 1, 'import', 'degraded', 'high', 1.4, '{}'),
    (5, 2, '2024-02-01Z', '1', 1, 'import', 'critical', 'high', 4.4, '{}'), (6, 3, '2024-03-01Z', '1', 1, 'import', 'degraded', 'high', 1.3, '{}'),
    (7, 4, '2024-04-01Z', '1', 1, 'import', 'sound', 'high', 0.7, '{}');
  INSERT INTO splice_state (splice_id, assessment_id, circuit_id, class, measured_class, held, confidence, ratio, found_at) VALUES
    (1, 3, 1, 'urgent', 'sound', TRUE, 'high', 0.6, '2023-01-01Z'), (2, 5, 1, 'critical', 'critical', FALSE, 'high', 4.4, '2024-02-01Z'),
    (3, 6, 1, 'degraded', 'degraded', FALSE, 'high', 1.3, NULL), (4, 7, 1, 'sound', 'sound', FALSE, 'high', 0.7, NULL);
  INSERT INTO circuit_health (circuit_id, splice_count, sound_count, degraded_count, urgent_count, critical_count, span_count, span_phase_count, covered_span_phases)
    VALUES (1, 4, 1, 1, 1, 1, 1, 3, 1);
  INSERT INTO reading (id, import_id, survey_id, row_no, reading_key, content_hash, kind, position_of, raw_row, taken_at)
    SELECT 10 + n, 1, 1, 10 + n, 'w' || n, repeat(md5(n::text), 1), 'resistance', 'target', 'w' || n, '2024-05-01 10:00Z' FROM generate_series(1, ${WAITING.length}) n;
  INSERT INTO placement (reading_id, state, method, reasons, candidates) VALUES ${WAITING.map(({ reasons, candidates }, at) =>
    `(${11 + at}, 'review', 'alone', '${JSON.stringify(reasons)}', '${JSON.stringify(candidates)}')`).join(', ')};
  INSERT INTO urgent_notice (reading_id, class, ratio, circuits) VALUES (1, 'urgent', 1.9, '[]'), (2, 'critical', 4.4, '[]')`

let client: pg.Client
let admin: pg.Client
const name = `t_${randomUUID().replaceAll('-', '')}`
const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-first-'))

beforeAll(async () => {
  const url = new URL(inject('templateUrl'))
  url.pathname = '/postgres'
  admin = new pg.Client({ connectionString: url.href })
  await admin.connect()
  await admin.query(`CREATE DATABASE ${name}`)
  url.pathname = `/${name}`
  fs.cpSync(path.join(MIGRATIONS_DIR, FIRST), path.join(dir, FIRST), { recursive: true })
  expect(await migrate(url.href, dir)).toEqual([FIRST])
  client = new pg.Client({ connectionString: url.href })
  await client.connect()
  await client.query(FILLED)
  expect((await migrate(url.href)).length).toBeGreaterThan(4)
})
afterAll(async () => {
  await client.end()
  await admin.query(`DROP DATABASE ${name} WITH (FORCE)`)
  await admin.end()
  fs.rmSync(dir, { recursive: true })
})

const rows = async (text: string) => (await client.query<Record<string, unknown>>(text)).rows
const at = (text: string) => new Date(text)

describe('a filled database of the first version, brought up to date', () => {
  it('says of each assessment what was shown: the last one what stands now, earlier ones their own class', async () => {
    expect(await rows('SELECT id, class, shown_class, held FROM assessment WHERE splice_id = 1 ORDER BY id')).toEqual([
      { id: 1, class: 'watch', shown_class: 'watch', held: false }, { id: 2, class: 'urgent', shown_class: 'urgent', held: false },
      { id: 3, class: 'sound', shown_class: 'urgent', held: true },
    ])
    expect(await rows('SELECT count(*)::int AS n FROM assessment WHERE splice_id > 1 AND (held OR shown_class <> class)')).toEqual([{ n: 0 }])
  })

  it('says of each placement that waits why it does, by the rule of today', async () => {
    const kept = await rows('SELECT review_cause FROM placement ORDER BY reading_id')
    expect(kept).toHaveLength(WAITING.length)
    expect(kept).toEqual(WAITING.map(({ reasons, candidates }) => ({
      review_cause: reviewCause(reasons as { code: PlacementReasonCode }[], candidates) ?? null,
    })))
  })

  it('shows the ratio of the finding where a class is held, and keeps the measured one beside it', async () => {
    expect(await rows('SELECT splice_id, ratio, measured_ratio, found_ratio FROM splice_state ORDER BY splice_id')).toEqual([
      { splice_id: 1, ratio: 1.9, measured_ratio: 0.6, found_ratio: 1.9 }, { splice_id: 2, ratio: 4.4, measured_ratio: 4.4, found_ratio: 4.4 },
      { splice_id: 3, ratio: 1.3, measured_ratio: 1.3, found_ratio: null }, { splice_id: 4, ratio: 0.7, measured_ratio: 0.7, found_ratio: null },
    ])
  })

  it('starts each response clock when the class, or a worse one, was first shown', async () => {
    expect(await rows('SELECT splice_id, degraded_since, urgent_since, critical_since FROM splice_state ORDER BY splice_id')).toEqual([
      { splice_id: 1, degraded_since: at('2023-01-01'), urgent_since: at('2023-01-01'), critical_since: null },
      { splice_id: 2, degraded_since: at('2023-02-01'), urgent_since: at('2024-02-01'), critical_since: at('2024-02-01') },
      { splice_id: 3, degraded_since: at('2024-03-01'), urgent_since: null, critical_since: null },
      { splice_id: 4, degraded_since: null, urgent_since: null, critical_since: null },
    ])
  })

  it('gives each notice its number, its ground and the import that raised it', async () => {
    expect(await rows('SELECT reading_id, class, basis, import_id, placement_id FROM urgent_notice ORDER BY reading_id')).toEqual([
      { reading_id: 1, class: 'urgent', basis: 'reading', import_id: 1, placement_id: null },
      { reading_id: 2, class: 'critical', basis: 'reading', import_id: 1, placement_id: null },
    ])
    expect((await rows('SELECT count(DISTINCT id)::int AS n FROM urgent_notice'))[0]).toEqual({ n: 2 })
  })

  it('completes old reports by what newer ones say, and leaves what has none alone', async () => {
    const reports = await rows('SELECT report FROM import ORDER BY id')
    expect(reports[0]?.report).toEqual({
      ...OLD_REPORT, notes: [], ignored_columns: [], issues: OLD_REPORT.issues.map((issue) => ({ ...issue, line: null })),
      urgent: OLD_REPORT.urgent.map((one) => ({ notice_id: one.reading_id, basis: 'reading', withdrawn: null, ...one })),
    })
    expect(reports[1]?.report).toMatchObject({ urgent: [], issues: [], notes: [], ignored_columns: [] })
    expect(reports[2]?.report).toBeNull()
    expect(await rows('SELECT line FROM import_issue')).toEqual([{ line: null }])
    expect(await rows('SELECT DISTINCT leans_on_undone, delimiter FROM import')).toEqual([{ leans_on_undone: false, delimiter: null }])
  })

  it('has every splice looked at again by the newest policy, for only the engine knows what was conclusive', async () => {
    expect(await rows('SELECT kind, payload, state, engine_version FROM job'))
      .toEqual([{ kind: 'reassess', payload: { policyVersion: 2 }, state: 'queued', engine_version: expect.stringMatching(/^\d+\.\d+$/) }])
    expect(await rows('SELECT conclusive_span_phases FROM circuit_health')).toEqual([{ conclusive_span_phases: 0 }])
    expect(await rows('SELECT DISTINCT conclusive_at FROM splice_state')).toEqual([{ conclusive_at: null }])
  })

  it('keeps the engine\'s words as they were, and works out where each section lies', async () => {
    expect((await rows('SELECT result FROM assessment WHERE id = 1'))[0]).toEqual({ result: '{"class": "watch"}' })
    expect((await rows('SELECT bbox FROM section'))[0]).toEqual({ bbox: [-110, 45, -110, 45.008] })
  })
})
