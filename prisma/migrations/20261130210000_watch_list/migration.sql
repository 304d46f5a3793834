-- What the watch list is ordered by, kept beside the class so that an index has it: see lib/condition/risk.ts for the rule.
ALTER TABLE splice_state
  -- What the latest assessment advises the line to carry at most, A per phase; null where it gives no figure.
  ADD COLUMN limit_line_a DOUBLE PRECISION,
  -- The greater of last known and expected peak load over the lower of advised limit and limit in force; null where one of them is not known.
  ADD COLUMN load_share DOUBLE PRECISION,
  ADD COLUMN consequence INTEGER NOT NULL DEFAULT 0,
  ADD COLUMN risk INTEGER NOT NULL DEFAULT 0,
  ADD CONSTRAINT splice_state_limit_not_negative CHECK (limit_line_a >= 0),
  ADD CONSTRAINT splice_state_load_share_not_negative CHECK (load_share >= 0),
  ADD CONSTRAINT splice_state_consequence_range CHECK (consequence BETWEEN 0 AND 4),
  ADD CONSTRAINT splice_state_risk_range CHECK (risk BETWEEN 0 AND 424);

-- The calendar year of the last reading, 0 where there is none: what was not read for longer stands first among equals.
CREATE FUNCTION read_year(at TIMESTAMPTZ) RETURNS INTEGER LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT coalesce(extract(year FROM at AT TIME ZONE 'UTC')::int, 0)
$$;

CREATE INDEX splice_state_by_risk ON splice_state ((-class_rank(class)), (-risk), (read_year(last_reading_at)), (-coalesce(ratio, 0)), splice_id);

-- What a class rests on.
CREATE FUNCTION evidence_of(flags TEXT[], measured_ratio DOUBLE PRECISION) RETURNS TEXT LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT CASE WHEN flags && '{conflict,infrared-conflict}' THEN 'conflict'
    WHEN 'infrared-only' = ANY(flags) OR (measured_ratio IS NULL AND 'infrared-hot' = ANY(flags)) THEN 'infrared'
    WHEN measured_ratio IS NOT NULL THEN 'resistance' ELSE 'none' END
$$;

-- Who has taken a splice: a person by name. Who had it before stands in the audit trail.
CREATE TABLE splice_owner (
  splice_id INTEGER PRIMARY KEY REFERENCES splice (id) ON DELETE CASCADE ON UPDATE CASCADE,
  owner TEXT NOT NULL,
  taken_at TIMESTAMPTZ(3) NOT NULL DEFAULT now(),
  noted_by TEXT NOT NULL,
  CONSTRAINT splice_owner_given CHECK (btrim(owner) <> '')
);

-- A filter under a name, for everybody of the scope.
CREATE TABLE saved_view (
  id SERIAL PRIMARY KEY,
  scope TEXT NOT NULL,
  name TEXT NOT NULL,
  query TEXT NOT NULL,
  created_at TIMESTAMPTZ(3) NOT NULL DEFAULT now(),
  created_by TEXT NOT NULL,
  CONSTRAINT saved_view_name_given CHECK (btrim(name) <> '')
);
CREATE UNIQUE INDEX saved_view_name ON saved_view (scope, lower(name));

-- Figures of splices that were assessed before come with a reassessment, of the engine that is here.
UPDATE splice_state st SET limit_line_a = greatest((a.result::json->'limit'->>'lineA')::float8, 0)
FROM assessment a WHERE a.id = st.assessment_id AND NOT st.held AND st.class IN ('degraded', 'urgent', 'critical');
INSERT INTO job (kind, payload, engine_version)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)), '9.0' FROM policy
WHERE EXISTS (SELECT FROM splice_state) AND NOT EXISTS (SELECT FROM job WHERE kind = 'reassess' AND state = 'queued') HAVING max(version) IS NOT NULL;
