-- A repair makes the metal new for the pictures taken after it too, repeats do not take an instrument's own error away, and heat that the published
-- table calls a probable deficiency counts by itself: the engine looks at every splice again. Where that is queued already, the newer engine does it.
UPDATE job SET engine_version = '9.0' WHERE kind = 'reassess' AND state = 'queued';
INSERT INTO job (kind, payload, engine_version)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)), '9.0' FROM policy
WHERE EXISTS (SELECT FROM splice_state) AND NOT EXISTS (SELECT FROM job WHERE kind = 'reassess' AND state = 'queued') HAVING max(version) IS NOT NULL;
