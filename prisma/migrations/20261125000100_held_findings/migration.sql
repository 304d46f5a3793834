-- The finding behind a held class, its response clocks, and notices that outlive their reading or come from an assessment.

ALTER TABLE assessment ADD COLUMN shown_class TEXT, ADD COLUMN held BOOLEAN NOT NULL DEFAULT FALSE;
UPDATE assessment SET shown_class = class;
UPDATE assessment a SET shown_class = st.class, held = st.held FROM splice_state st WHERE st.assessment_id = a.id;
ALTER TABLE assessment
  ALTER COLUMN shown_class SET NOT NULL,
  ADD CONSTRAINT assessment_shown_class CHECK (shown_class IN ('sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown')),
  ADD CONSTRAINT assessment_held CHECK (held = (shown_class <> class) AND (NOT held OR shown_class IN ('urgent', 'critical')));

-- `ratio` goes with `class`, what is shown; `measured_ratio` with `measured_class`.
ALTER TABLE splice_state
  ADD COLUMN measured_ratio DOUBLE PRECISION,
  ADD COLUMN found_ratio DOUBLE PRECISION,
  ADD COLUMN found_reading_id INTEGER REFERENCES reading (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  ADD COLUMN degraded_since TIMESTAMPTZ(3),
  ADD COLUMN urgent_since TIMESTAMPTZ(3),
  ADD COLUMN critical_since TIMESTAMPTZ(3);
-- Where a class is held, the assessment that last measured it has the finding's ratio.
UPDATE splice_state st SET measured_ratio = ratio,
  found_ratio = CASE WHEN class IN ('urgent', 'critical') THEN (
    SELECT a.ratio FROM assessment a WHERE a.splice_id = st.splice_id AND class_rank(a.class) >= class_rank(st.class) ORDER BY a.id DESC LIMIT 1) END,
  degraded_since = CASE WHEN class IN ('degraded', 'urgent', 'critical') THEN (
    SELECT min(a.assessed_at) FROM assessment a WHERE a.splice_id = st.splice_id AND class_rank(a.shown_class) >= class_rank('degraded')) END,
  urgent_since = CASE WHEN class IN ('urgent', 'critical') THEN (
    SELECT min(a.assessed_at) FROM assessment a WHERE a.splice_id = st.splice_id AND class_rank(a.shown_class) >= class_rank('urgent')) END,
  critical_since = CASE WHEN class = 'critical' THEN (
    SELECT min(a.assessed_at) FROM assessment a WHERE a.splice_id = st.splice_id AND a.shown_class = 'critical') END;
UPDATE splice_state SET ratio = found_ratio WHERE held;
ALTER TABLE splice_state
  ADD CONSTRAINT splice_state_measured_ratio_positive CHECK (measured_ratio > 0),
  ADD CONSTRAINT splice_state_found_ratio_positive CHECK (found_ratio > 0),
  ADD CONSTRAINT splice_state_clocks CHECK (
    (critical_since IS NULL OR urgent_since <= critical_since) AND (urgent_since IS NULL OR degraded_since <= urgent_since));

-- One reading may raise two: urgent first, and critical after that was told.
ALTER TABLE urgent_notice
  DROP CONSTRAINT urgent_notice_pkey,
  ADD COLUMN id SERIAL PRIMARY KEY,
  ADD COLUMN basis TEXT NOT NULL DEFAULT 'reading',
  ADD COLUMN import_id INTEGER REFERENCES import (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  ADD COLUMN placement_id INTEGER REFERENCES placement (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  ADD CONSTRAINT urgent_notice_basis CHECK (basis IN ('reading', 'assessment'));
UPDATE urgent_notice u SET import_id = r.import_id FROM reading r WHERE r.id = u.reading_id;
CREATE UNIQUE INDEX urgent_notice_reading_id_class_key ON urgent_notice (reading_id, class);
CREATE INDEX urgent_notice_import_id_idx ON urgent_notice (import_id);
-- Reports that were stored before say of their notices what the new fields say by default.
UPDATE import SET report = jsonb_set(report, '{urgent}', (
  SELECT jsonb_agg(jsonb_build_object('notice_id', e.value->'reading_id', 'basis', 'reading', 'withdrawn', NULL) || e.value ORDER BY e.ordinality)
  FROM jsonb_array_elements(report->'urgent') WITH ORDINALITY e))
WHERE jsonb_typeof(report->'urgent') = 'array' AND jsonb_array_length(report->'urgent') > 0;
