-- A utility's lines do not all lie at one height: thinner air cools less, and clear sun is stronger in it.

ALTER TABLE section
  ADD COLUMN elevation_m DOUBLE PRECISION,
  ADD CONSTRAINT section_elevation_range CHECK (elevation_m BETWEEN -100 AND 5000);

-- Pictures are judged at the policy's elevation from here on, and without the sun's share: the engine looks at every splice
-- again. Where that is queued already, the newer engine does it.
UPDATE job SET engine_version = '6.1' WHERE kind = 'reassess' AND state = 'queued';
INSERT INTO job (kind, payload, engine_version)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)), '6.1' FROM policy
WHERE EXISTS (SELECT FROM splice_state) AND NOT EXISTS (SELECT FROM job WHERE kind = 'reassess' AND state = 'queued') HAVING max(version) IS NOT NULL;
