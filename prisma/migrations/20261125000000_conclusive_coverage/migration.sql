-- Beside what was looked at: what a failing splice could not have passed.

ALTER TABLE splice_state ADD COLUMN conclusive_at TIMESTAMPTZ(3);

ALTER TABLE circuit_health
  ADD COLUMN conclusive_span_phases INTEGER NOT NULL DEFAULT 0,
  ADD CONSTRAINT circuit_health_conclusive_range CHECK (conclusive_span_phases BETWEEN 0 AND covered_span_phases);

-- What the readings held so far prove is for the engine to say: it looks at every splice again.
INSERT INTO job (kind, payload)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)) FROM policy WHERE EXISTS (SELECT FROM splice_state) HAVING max(version) IS NOT NULL;
