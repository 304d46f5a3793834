-- What the Prisma schema cannot say: enumerations, ranges, partial and expression indexes, records that are kept for ever.

-- Worst highest; unknown stands below everything because it is neither good nor bad.
CREATE FUNCTION class_rank(class TEXT) RETURNS INTEGER LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT CASE class WHEN 'critical' THEN 5 WHEN 'urgent' THEN 4 WHEN 'degraded' THEN 3 WHEN 'watch' THEN 2 WHEN 'sound' THEN 1 ELSE 0 END
$$;

-- Flat lon,lat,lon,lat…: at least two points, none half.
CREATE FUNCTION is_path(lon_lat DOUBLE PRECISION[]) RETURNS BOOLEAN LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT cardinality(lon_lat) >= 4 AND cardinality(lon_lat) % 2 = 0
$$;

-- West, south, east, north. A section across the 180th meridian gets the wide box, which only makes a view too large.
CREATE FUNCTION path_bbox(lon_lat DOUBLE PRECISION[]) RETURNS DOUBLE PRECISION[] LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT ARRAY[min(v) FILTER (WHERE n % 2 = 1), min(v) FILTER (WHERE n % 2 = 0), max(v) FILTER (WHERE n % 2 = 1), max(v) FILTER (WHERE n % 2 = 0)]
  FROM unnest(lon_lat) WITH ORDINALITY AS t (v, n)
$$;

-- ------------------------------------------------------------------ network

ALTER TABLE circuit
  ADD CONSTRAINT circuit_name_given CHECK (name <> ''),
  ADD CONSTRAINT circuit_voltage_positive CHECK (voltage_kv > 0 AND voltage_kv <= 1500),
  ADD CONSTRAINT circuit_mw_not_negative CHECK (mw >= 0);

ALTER TABLE section
  ALTER COLUMN lon_lat SET NOT NULL,
  ADD COLUMN bbox DOUBLE PRECISION[] NOT NULL GENERATED ALWAYS AS (path_bbox(lon_lat)) STORED,
  ADD CONSTRAINT section_name_given CHECK (name <> ''),
  ADD CONSTRAINT section_subconductors_range CHECK (subconductors BETWEEN 1 AND 12),
  ADD CONSTRAINT section_rating_positive CHECK (rating_a > 0),
  ADD CONSTRAINT section_rating_emergency_positive CHECK (rating_emergency_a > 0),
  ADD CONSTRAINT section_max_operating_range CHECK (max_operating_c BETWEEN 20 AND 400),
  ADD CONSTRAINT section_lateral_offset_range CHECK (lateral_offset_m BETWEEN -200 AND 200),
  ADD CONSTRAINT section_length_not_negative CHECK (length_m >= 0),
  ADD CONSTRAINT section_path CHECK (is_path(lon_lat));

ALTER TABLE structure
  ADD CONSTRAINT structure_label_given CHECK (label <> ''),
  ADD CONSTRAINT structure_lon_range CHECK (lon BETWEEN -180 AND 180),
  ADD CONSTRAINT structure_lat_range CHECK (lat BETWEEN -90 AND 90);
CREATE INDEX structure_lon_lat ON structure (lon, lat);
CREATE INDEX structure_label_lower ON structure (lower(label) text_pattern_ops);

ALTER TABLE section_structure
  ADD CONSTRAINT section_structure_distance_not_negative CHECK (line_distance_m >= 0),
  ADD CONSTRAINT section_structure_order_not_negative CHECK (ord >= 0);

ALTER TABLE span
  ALTER COLUMN lon_lat SET NOT NULL,
  ADD CONSTRAINT span_range CHECK (start_m >= 0 AND end_m >= start_m),
  ADD CONSTRAINT span_path CHECK (is_path(lon_lat));

ALTER TABLE phasing
  ADD CONSTRAINT phasing_phase CHECK (phase IN ('A', 'B', 'C')),
  ADD CONSTRAINT phasing_position CHECK (position IN ('top', 'middle', 'bottom', 'left', 'right', 'centre'));

ALTER TABLE crossing
  ADD CONSTRAINT crossing_kind CHECK (kind IN ('road', 'rail', 'river', 'line', 'building', 'recreation', 'other')),
  ADD CONSTRAINT crossing_distance_not_negative CHECK (line_distance_m >= 0);

-- ------------------------------------------------------------------ splices

ALTER TABLE splice
  ADD CONSTRAINT splice_label_given CHECK (label <> ''),
  ADD CONSTRAINT splice_kind CHECK (kind IN ('full-tension splice', 'jumper splice', 'repair sleeve', 'dead-end', 't-tap', 'bolted pad',
    'parallel-groove', 'wedge', 'shield-wire splice', 'other')),
  ADD CONSTRAINT splice_phase CHECK (phase IN ('A', 'B', 'C')),
  ADD CONSTRAINT splice_position CHECK (position IN ('top', 'middle', 'bottom', 'left', 'right', 'centre')),
  ADD CONSTRAINT splice_lon_range CHECK (lon BETWEEN -180 AND 180),
  ADD CONSTRAINT splice_lat_range CHECK (lat BETWEEN -90 AND 90),
  ADD CONSTRAINT splice_distance_not_negative CHECK (line_distance_m >= 0),
  ADD CONSTRAINT splice_offset_not_negative CHECK (offset_m >= 0),
  ADD CONSTRAINT splice_barrel_od_range CHECK (barrel_od_mm > 0 AND barrel_od_mm <= 300),
  ADD CONSTRAINT splice_barrel_length_range CHECK (barrel_length_mm > 0 AND barrel_length_mm <= 5000),
  ADD CONSTRAINT splice_removed_after_installed CHECK (removed_on >= installed_on),
  ADD CONSTRAINT splice_not_its_own_successor CHECK (successor_of_id <> id);
CREATE INDEX splice_lon_lat ON splice (lon, lat);
CREATE INDEX splice_label_lower ON splice (lower(label) text_pattern_ops);
CREATE INDEX splice_successor_of ON splice (successor_of_id) WHERE successor_of_id IS NOT NULL;

-- ------------------------------------------------------------------ surveys and readings

ALTER TABLE survey ADD CONSTRAINT survey_name_given CHECK (name <> '');

ALTER TABLE survey_extent
  ADD CONSTRAINT survey_extent_range CHECK (start_m >= 0 AND end_m >= start_m),
  ADD CONSTRAINT survey_extent_method_given CHECK (method <> ''),
  ADD CONSTRAINT survey_extent_current_not_negative CHECK (line_current_a >= 0),
  ADD CONSTRAINT survey_extent_ambient_range CHECK (ambient_c BETWEEN -70 AND 70),
  ADD CONSTRAINT survey_extent_wind_range CHECK (wind_m_s BETWEEN 0 AND 100);

ALTER TABLE reading
  ADD CONSTRAINT reading_row_positive CHECK (row_no > 0),
  ADD CONSTRAINT reading_key_given CHECK (reading_key <> ''),
  ADD CONSTRAINT reading_kind CHECK (kind IN ('resistance', 'infrared', 'visual')),
  ADD CONSTRAINT reading_position_range CHECK (lon BETWEEN -180 AND 180 AND lat BETWEEN -90 AND 90),
  ADD CONSTRAINT reading_position_whole CHECK ((lon IS NULL) = (lat IS NULL)),
  ADD CONSTRAINT reading_sigma_positive CHECK (sigma_m > 0),
  ADD CONSTRAINT reading_accuracy_positive CHECK (gnss_accuracy_m > 0),
  ADD CONSTRAINT reading_position_of CHECK (position_of IN ('target', 'platform')),
  ADD CONSTRAINT reading_platform CHECK (platform IN ('helicopter', 'uncrewed', 'bucket', 'ladder', 'line_platform', 'line_robot', 'ground')),
  ADD CONSTRAINT reading_span_fraction_range CHECK (span_fraction BETWEEN 0 AND 1),
  ADD CONSTRAINT reading_phase CHECK (phase IN ('A', 'B', 'C')),
  ADD CONSTRAINT reading_position CHECK (position IN ('top', 'middle', 'bottom', 'left', 'right', 'centre')),
  ADD CONSTRAINT reading_resistance_positive CHECK (side_a_uohm > 0 AND side_b_uohm > 0 AND conductor_uohm > 0 AND conductor_b_uohm > 0),
  ADD CONSTRAINT reading_electrodes_positive CHECK (electrode_span_m > 0 AND conductor_span_m > 0 AND barrel_electrode_m >= 0),
  ADD CONSTRAINT reading_repeat_positive CHECK (repeat_no > 0),
  ADD CONSTRAINT reading_test_current CHECK (test_current IN ('live-ac', 'dead-dc')),
  ADD CONSTRAINT reading_current_not_negative CHECK (line_current_a >= 0 AND current_30min_a >= 0),
  ADD CONSTRAINT reading_temperature_range CHECK (splice_temp_c BETWEEN -90 AND 1000 AND conductor_temp_c BETWEEN -90 AND 1000
    AND ambient_c BETWEEN -90 AND 90 AND reflected_c BETWEEN -273.15 AND 1000),
  ADD CONSTRAINT reading_reference_kind CHECK (reference_kind IN ('own-conductor', 'same-fitting', 'air')),
  ADD CONSTRAINT reading_wind_range CHECK (wind_m_s BETWEEN 0 AND 100),
  ADD CONSTRAINT reading_sun CHECK (sun IN ('none', 'diffuse', 'direct')),
  ADD CONSTRAINT reading_camera_range CHECK (emissivity > 0 AND emissivity <= 1 AND distance_m > 0 AND view_angle_deg BETWEEN 0 AND 90 AND ifov_mrad > 0),
  ADD CONSTRAINT reading_band CHECK (band IN ('lw', 'mw')),
  ADD CONSTRAINT reading_findings CHECK (findings <@ ARRAY['none', 'discolouration', 'bulging', 'cracks', 'strands-lifted', 'bent-barrel',
    'rust-bleed', 'broken-strands', 'slip', 'bow', 'bird-caging', 'gap', 'radiograph']);
DROP INDEX reading_survey_id_reading_key_idx;
CREATE UNIQUE INDEX reading_once_per_survey ON reading (survey_id, reading_key) WHERE NOT withdrawn;

-- What the file said is kept for ever: a reading may be withdrawn, never removed or rewritten.
CREATE FUNCTION keep_reading() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'A reading is kept as it was written; withdraw it instead.' USING ERRCODE = 'restrict_violation';
END
$$;
CREATE TRIGGER reading_is_kept BEFORE DELETE ON reading FOR EACH ROW EXECUTE FUNCTION keep_reading();
CREATE TRIGGER reading_is_not_rewritten BEFORE UPDATE OF
  id, import_id, survey_id, row_no, reading_key, content_hash, kind, taken_at, lon, lat, sigma_m, gnss_accuracy_m, position_of,
  platform, circuit_label, section_label, structure_back, structure_ahead, offset_from_structure_m, span_fraction, phase, position,
  circuit_side, subconductor, splice_label, side_a_uohm, side_b_uohm, conductor_uohm, conductor_b_uohm, electrode_span_m,
  conductor_span_m, barrel_electrode_m, repeat_no, test_current, line_current_a, current_30min_a, splice_temp_c, conductor_temp_c,
  reference_kind, ambient_c, wind_m_s, sun, rain_1h, emissivity, reflected_c, distance_m, view_angle_deg, ifov_mrad, band, findings,
  after_repair, crew, instrument, photo, note, raw_row
  ON reading FOR EACH ROW EXECUTE FUNCTION keep_reading();

-- ------------------------------------------------------------------ placements and assessments

ALTER TABLE placement
  ADD CONSTRAINT placement_state CHECK (state IN ('placed', 'review', 'rejected')),
  ADD CONSTRAINT placement_method CHECK (method IN ('declared', 'track', 'alone', 'person')),
  ADD CONSTRAINT placement_probability CHECK (probability BETWEEN 0 AND 1),
  ADD CONSTRAINT placement_position_range CHECK (lon BETWEEN -180 AND 180 AND lat BETWEEN -90 AND 90),
  ADD CONSTRAINT placement_distance_not_negative CHECK (line_distance_m >= 0),
  ADD CONSTRAINT placement_placed_is_complete CHECK (state <> 'placed' OR NOT current OR
    (circuit_id IS NOT NULL AND section_id IS NOT NULL AND span_id IS NOT NULL AND splice_id IS NOT NULL AND line_distance_m IS NOT NULL)),
  ADD CONSTRAINT placement_person_is_named CHECK (method <> 'person' OR decided_by IS NOT NULL);
CREATE UNIQUE INDEX placement_current ON placement (reading_id) WHERE current;

-- What a placement points at is checked by the set instead of row by row, which halves the time of a long import. A reading is never
-- removed. A splice may be: whoever writes placements holds its row as a foreign key would, and it is not removed while one points at it.
ALTER TABLE placement DROP CONSTRAINT placement_reading_id_fkey, DROP CONSTRAINT placement_splice_id_fkey;
CREATE FUNCTION placement_points_at_rows() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM fresh WHERE NOT EXISTS (SELECT FROM reading WHERE reading.id = fresh.reading_id)) THEN
    RAISE EXCEPTION 'A placement names a reading that is not stored.' USING ERRCODE = 'foreign_key_violation', CONSTRAINT = 'placement_reading_id_fkey';
  END IF;
  IF (SELECT count(DISTINCT splice_id) FROM fresh) <> (SELECT count(*) FROM (
    SELECT FROM splice WHERE id IN (SELECT splice_id FROM fresh) ORDER BY id FOR KEY SHARE) held) THEN
    RAISE EXCEPTION 'A placement names a splice that is not stored.' USING ERRCODE = 'foreign_key_violation', CONSTRAINT = 'placement_splice_id_fkey';
  END IF;
  RETURN NULL;
END
$$;
CREATE TRIGGER placement_inserted AFTER INSERT ON placement REFERENCING NEW TABLE AS fresh
  FOR EACH STATEMENT EXECUTE FUNCTION placement_points_at_rows();
CREATE TRIGGER placement_updated AFTER UPDATE ON placement REFERENCING NEW TABLE AS fresh
  FOR EACH STATEMENT EXECUTE FUNCTION placement_points_at_rows();
CREATE FUNCTION splice_is_placed_on() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM placement WHERE splice_id = OLD.id) THEN
    RAISE EXCEPTION 'Placements point at splice %.', OLD.id USING ERRCODE = 'foreign_key_violation', CONSTRAINT = 'placement_splice_id_fkey';
  END IF;
  RETURN OLD;
END
$$;
CREATE TRIGGER splice_with_placements BEFORE DELETE ON splice FOR EACH ROW EXECUTE FUNCTION splice_is_placed_on();
CREATE INDEX placement_review ON placement (reading_id) WHERE current AND state = 'review';

ALTER TABLE assessment
  ADD CONSTRAINT assessment_class CHECK (class IN ('sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown')),
  ADD CONSTRAINT assessment_confidence CHECK (confidence IN ('high', 'medium', 'low')),
  ADD CONSTRAINT assessment_cause CHECK (cause IN ('import', 'undo', 'review', 'policy', 'engineer')),
  ADD CONSTRAINT assessment_ratio_positive CHECK (ratio > 0);

-- Whole assessments are long: the quicker compression where this PostgreSQL has it.
DO $$ BEGIN
  ALTER TABLE assessment ALTER COLUMN result SET COMPRESSION lz4;
EXCEPTION WHEN OTHERS THEN RAISE NOTICE 'no lz4 here: assessments are compressed as usual';
END $$;

ALTER TABLE splice_state
  ADD CONSTRAINT splice_state_class CHECK (class IN ('sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown')),
  ADD CONSTRAINT splice_state_measured_class CHECK (measured_class IN ('sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown')),
  ADD CONSTRAINT splice_state_confidence CHECK (confidence IN ('high', 'medium', 'low')),
  ADD CONSTRAINT splice_state_side CHECK (governing_side IN ('A', 'B')),
  ADD CONSTRAINT splice_state_ratio_positive CHECK (ratio > 0),
  ADD CONSTRAINT splice_state_count_not_negative CHECK (reading_count >= 0),
  -- A class is held above the evidence only where it was urgent or critical.
  ADD CONSTRAINT splice_state_held CHECK (held = (class <> measured_class) AND (NOT held OR class IN ('urgent', 'critical')));
CREATE INDEX splice_state_worst_first ON splice_state ((-class_rank(class)), (-coalesce(ratio, 0)), splice_id);

ALTER TABLE span_coverage
  ADD CONSTRAINT span_coverage_phase CHECK (phase IN ('', 'A', 'B', 'C')),
  ADD CONSTRAINT span_coverage_method_given CHECK (method <> '');

ALTER TABLE circuit_health
  ADD CONSTRAINT circuit_health_adds_up CHECK (splice_count = sound_count + watch_count + degraded_count + urgent_count + critical_count + unknown_count),
  ADD CONSTRAINT circuit_health_not_negative CHECK (least(sound_count, watch_count, degraded_count, urgent_count, critical_count, unknown_count, span_count) >= 0),
  ADD CONSTRAINT circuit_health_coverage_range CHECK (covered_span_phases BETWEEN 0 AND span_phase_count);

ALTER TABLE urgent_notice
  ADD CONSTRAINT urgent_notice_class CHECK (class IN ('urgent', 'critical')),
  ADD CONSTRAINT urgent_notice_ratio_positive CHECK (ratio > 0),
  ADD CONSTRAINT urgent_notice_acknowledged_by_somebody CHECK ((acknowledged_at IS NULL) = (acknowledged_by IS NULL));
CREATE INDEX urgent_notice_waiting ON urgent_notice (raised_at) WHERE acknowledged_at IS NULL;

-- ------------------------------------------------------------------ intake and background work

ALTER TABLE import
  ADD CONSTRAINT import_kind CHECK (kind IN ('lines', 'structures', 'splices', 'readings', 'phasing', 'crossings', 'extents')),
  ADD CONSTRAINT import_state CHECK (state IN ('receiving', 'queued', 'running', 'done', 'failed', 'undone')),
  ADD CONSTRAINT import_phase CHECK (phase IN ('reading', 'placing', 'assessing', 'storing')),
  ADD CONSTRAINT import_sha256 CHECK (sha256 ~ '^[0-9a-f]{64}$' OR sha256 = '' AND state IN ('receiving', 'running', 'failed')),
  ADD CONSTRAINT import_size_not_negative CHECK (size_bytes >= 0),
  ADD CONSTRAINT import_done_has_report CHECK (state <> 'done' OR report IS NOT NULL),
  ADD CONSTRAINT import_failed_says_why CHECK (state <> 'failed' OR failure IS NOT NULL),
  ADD CONSTRAINT import_undone_when CHECK ((state = 'undone') = (undone_at IS NOT NULL));
-- One committed import of the same file, kind, survey and mapping, until it is undone.
CREATE UNIQUE INDEX import_once ON import (sha256) WHERE state = 'done' AND NOT dry_run;

ALTER TABLE import_issue
  ADD CONSTRAINT import_issue_severity CHECK (severity IN ('error', 'warning')),
  ADD CONSTRAINT import_issue_row_not_negative CHECK (row >= 0),
  ADD CONSTRAINT import_issue_says_what CHECK (code <> '' AND message <> '' AND remedy <> '');

ALTER TABLE import_change
  ADD CONSTRAINT import_change_entity CHECK (entity IN ('circuit', 'section', 'structure', 'section_structure', 'splice', 'phasing', 'crossing', 'survey_extent'));

ALTER TABLE job
  ADD CONSTRAINT job_kind CHECK (kind IN ('import', 'reassess')),
  ADD CONSTRAINT job_state CHECK (state IN ('queued', 'done', 'failed')),
  ADD CONSTRAINT job_failed_says_why CHECK (state <> 'failed' OR failure IS NOT NULL);

-- ------------------------------------------------------------------ policy, settings, audit

ALTER TABLE policy
  ADD CONSTRAINT policy_version_positive CHECK (version > 0),
  ADD CONSTRAINT policy_values_object CHECK (jsonb_typeof(values) = 'object'),
  ADD CONSTRAINT policy_actor_given CHECK (actor <> '');

ALTER TABLE setting ADD CONSTRAINT setting_key_given CHECK (key <> '');

ALTER TABLE audit_entry
  ADD CONSTRAINT audit_entry_actor_given CHECK (actor <> ''),
  ADD CONSTRAINT audit_entry_action_given CHECK (action <> '');

CREATE FUNCTION keep_audit() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'The audit trail is only ever added to.' USING ERRCODE = 'restrict_violation';
END
$$;
CREATE TRIGGER audit_entry_is_kept BEFORE UPDATE OR DELETE ON audit_entry FOR EACH ROW EXECUTE FUNCTION keep_audit();

ALTER TABLE data_version ADD CONSTRAINT data_version_one_row CHECK (one = 1);
INSERT INTO data_version (one, version) VALUES (1, 1);
