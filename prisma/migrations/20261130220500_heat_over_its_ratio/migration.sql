-- When every interface was last read, since infrared sees the mean of a splice and may pass one bad side, and by circuit how many spans and phases are
-- conclusive by that, counted by the day after which it is too old. It stays empty until the engine has looked again.
ALTER TABLE splice_state ADD COLUMN every_interface_at TIMESTAMPTZ(3);
ALTER TABLE circuit_health ADD COLUMN every_interface_until JSONB NOT NULL DEFAULT '{}';

-- Where a picture or broken strands raise a class above what its ratio gives, that ratio is no longer shown, and neither current nor temperature is drawn
-- from it: the engine looks at every splice again. Where that is queued already, the newer engine does it.
UPDATE job SET engine_version = '9.1' WHERE kind = 'reassess' AND state = 'queued';
INSERT INTO job (kind, payload, engine_version)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)), '9.1' FROM policy
WHERE EXISTS (SELECT FROM splice_state) AND NOT EXISTS (SELECT FROM job WHERE kind = 'reassess' AND state = 'queued') HAVING max(version) IS NOT NULL;
