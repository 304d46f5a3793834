import { beforeAll, describe, expect, it } from 'vitest'
import { sql, type Sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report } from './utility'

useDatabase()

beforeAll(async () => {
  await buildNetwork()
  await report('readings', csv([reading('one', 450)]), { survey: 'Spring' })
})

const statement = (text: string): Sql => sql([text])
const run = (text: string) => database().run(statement(text))

/** What the database itself refuses, whoever writes. */
const REFUSED: [what: string, statement: string, constraint: string][] = [
  ['a circuit without a name', `INSERT INTO circuit (name) VALUES ('')`, 'circuit_name_given'],
  ['a circuit twice', `INSERT INTO circuit (name) VALUES ('S1')`, 'circuit_name_key'],
  ['a negative voltage', `INSERT INTO circuit (name, voltage_kv) VALUES ('X', -1)`, 'circuit_voltage_positive'],
  ['a section of one point', `INSERT INTO section (circuit_id, name, length_m, lon_lat) SELECT id, 'x', 1, '{1,2}' FROM circuit LIMIT 1`, 'section_path'],
  ['a section of no subconductor', `UPDATE section SET subconductors = 0`, 'section_subconductors_range'],
  ['a structure off the earth', `INSERT INTO structure (label, lon, lat) VALUES ('1', 181, 0)`, 'structure_lon_range'],
  ['a span that ends before it starts', `UPDATE span SET end_m = start_m - 1`, 'span_range'],
  ['an unknown phase', `UPDATE splice SET phase = 'D'`, 'splice_phase'],
  ['an unknown kind of splice', `UPDATE splice SET kind = 'knot'`, 'splice_kind'],
  ['a splice removed before it was installed', `UPDATE splice SET installed_on = '2020-01-01', removed_on = '2019-01-01'`, 'splice_removed_after_installed'],
  ['a splice without its span', `UPDATE splice SET span_id = 999999`, 'splice_span_id_fkey'],
  ['an unknown class', `UPDATE splice_state SET class = 'fine', held = TRUE`, 'splice_state_class'],
  ['a class held that was never urgent', `UPDATE splice_state SET class = 'watch', held = TRUE`, 'splice_state_held'],
  ['a class above its evidence that is not held', `UPDATE splice_state SET class = 'critical', held = FALSE`, 'splice_state_held'],
  ['a confidence of its own', `UPDATE splice_state SET confidence = 'certain'`, 'splice_state_confidence'],
  ['a chance over one', `UPDATE placement SET probability = 1.01`, 'placement_probability'],
  ['a reason to wait where nothing waits', `UPDATE placement SET state = 'placed', review_cause = 'off-the-line'`, 'placement_cause_of_review'],
  ['a placed reading without a splice', `UPDATE placement SET splice_id = NULL`, 'placement_placed_is_complete'],
  ['a person without a name', `UPDATE placement SET method = 'person'`, 'placement_person_is_named'],
  ['a placement of a reading that is not stored', `INSERT INTO placement (reading_id, state, method) VALUES (999999, 'review', 'alone')`, 'placement_reading_id_fkey'],
  ['a placement on a splice that is not stored', `UPDATE placement SET splice_id = 999999`, 'placement_splice_id_fkey'],
  ['a splice taken away from under its placements', `DELETE FROM splice`, 'placement_splice_id_fkey'],
  ['two current placements', `INSERT INTO placement (reading_id, state, method) SELECT id, 'review', 'alone' FROM reading`, 'placement_current'],
  ['health that does not add up', `UPDATE circuit_health SET splice_count = splice_count + 1`, 'circuit_health_adds_up'],
  ['more covered than there is', `UPDATE circuit_health SET covered_span_phases = span_phase_count + 1`, 'circuit_health_coverage_range'],
  ['an import of an unknown kind', `UPDATE import SET kind = 'wishes'`, 'import_kind'],
  ['an import that is done without a report', `UPDATE import SET report = NULL`, 'import_done_has_report'],
  ['an import undone without a time', `UPDATE import SET state = 'undone'`, 'import_undone_when'],
  ['the same import committed twice', `INSERT INTO import (kind, file_name, sha256, size_bytes, state, report, actor)
    SELECT kind, file_name, sha256, size_bytes, state, report, actor FROM import LIMIT 1`, 'import_once'],
  ['an issue that says nothing', `INSERT INTO import_issue (import_id, severity, row, code, message, remedy) SELECT id, 'error', 1, 'x', '', 'y' FROM import LIMIT 1`,
    'import_issue_says_what'],
  ['a second data version', `INSERT INTO data_version (one, version) VALUES (2, 1)`, 'data_version_one_row'],
  ['an unknown job', `INSERT INTO job (kind, payload) VALUES ('mow', '{}')`, 'job_kind'],
  ['a job of an engine without a number', `INSERT INTO job (kind, payload, engine_version) VALUES ('reassess', '{}', 'newest')`, 'job_engine_version_form'],
  ['an urgent notice of a sound reading', `INSERT INTO urgent_notice (reading_id, class, circuits) SELECT id, 'sound', '[]' FROM reading`, 'urgent_notice_class'],
]

describe('the database refuses by itself', () => {
  it.each(REFUSED)('%s', async (_what, text, constraint) => {
    await expect(run(text)).rejects.toMatchObject({ constraint })
  })
})

/** A reading that differs in one column from one that stands. */
const copyOfReading = (column: string, value: string) => `
  INSERT INTO reading (import_id, survey_id, row_no, reading_key, content_hash, kind, position_of, findings, after_repair, raw_row, ${column})
  SELECT import_id, survey_id, row_no, 'copy', content_hash, kind, position_of, findings, after_repair, raw_row, ${value} FROM reading`

describe('a reading the database refuses', () => {
  it.each([
    ['side_a_uohm', '0', 'reading_resistance_positive'], ['conductor_uohm', '-3', 'reading_resistance_positive'], ['lon', '-114', 'reading_position_whole'],
    ['span_fraction', '1.5', 'reading_span_fraction_range'], ['emissivity', '1.2', 'reading_camera_range'], ['platform', `'balloon'`, 'reading_platform'],
    ['test_current', `'ac'`, 'reading_test_current'], ['sun', `'bright'`, 'reading_sun'], ['band', `'xw'`, 'reading_band'], ['sigma_m', '0', 'reading_sigma_positive'],
    ['splice_temp_c', '5000', 'reading_temperature_range'], ['repeat_no', '0', 'reading_repeat_positive'], ['phase', `'N'`, 'reading_phase'],
  ])('with %s of %s', async (column, value, constraint) => {
    await expect(run(copyOfReading(column, value))).rejects.toMatchObject({ constraint })
  })

  it('with a key its survey has already', async () => {
    await expect(run(copyOfReading('note', 'NULL').replace(`'copy'`, 'reading_key'))).rejects.toMatchObject({ constraint: 'reading_once_per_survey' })
  })
})

describe('what is kept for ever', () => {
  it('is a reading as it was written: it may be withdrawn, not removed and not rewritten', async () => {
    await expect(run('DELETE FROM reading')).rejects.toThrow(/withdraw it instead/)
    await expect(run('UPDATE reading SET side_a_uohm = 1')).rejects.toThrow(/withdraw it instead/)
    await expect(run('UPDATE reading SET raw_row = raw_row')).rejects.toThrow(/withdraw it instead/)
    expect(await run('UPDATE reading SET withdrawn = withdrawn')).toBe(1)
  })

  it('is the audit trail', async () => {
    await expect(run('DELETE FROM audit_entry')).rejects.toThrow(/only ever added to/)
    await expect(run(`UPDATE audit_entry SET actor = 'nobody'`)).rejects.toThrow(/only ever added to/)
  })
})
