-- How old the conclusive looks are, and when each of them is past the re-survey interval of its class.

ALTER TABLE circuit_health
  ADD COLUMN conclusive_oldest_on DATE,
  ADD COLUMN conclusive_newest_on DATE,
  ADD COLUMN conclusive_until JSONB NOT NULL DEFAULT '{}',
  ADD CONSTRAINT circuit_health_conclusive_in_order CHECK (conclusive_oldest_on <= conclusive_newest_on);

-- The roll-up knows it after every splice was looked at again, which a new engine asks for anyway.
INSERT INTO job (kind, payload)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)) FROM policy
WHERE EXISTS (SELECT FROM circuit_health) AND NOT EXISTS (SELECT FROM job WHERE kind = 'reassess' AND state = 'queued')
HAVING max(version) IS NOT NULL;
