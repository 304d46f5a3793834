-- A barrel electrode within the crimp leaves part of the interface out: such a side is never called sound and gives no current, and a conductor reading
-- somewhat off its table never gives high confidence. The engine looks at every splice again. Where that is queued already, the newer engine does it.
UPDATE job SET engine_version = '10.0' WHERE kind = 'reassess' AND state = 'queued';
INSERT INTO job (kind, payload, engine_version)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)), '10.0' FROM policy
WHERE EXISTS (SELECT FROM splice_state) AND NOT EXISTS (SELECT FROM job WHERE kind = 'reassess' AND state = 'queued') HAVING max(version) IS NOT NULL;
