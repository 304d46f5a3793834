-- Beside the pictures with too few pixels over the barrel those that had enough: which of them are most says from how far a patrol looked.

ALTER TABLE splice_state ADD COLUMN near_picture_ids INTEGER[] NOT NULL DEFAULT '{}';

-- Only the engine knows which they are: it looks at every splice again, unless it is about to.
INSERT INTO job (kind, payload)
SELECT 'reassess', jsonb_build_object('policyVersion', max(version)) FROM policy
WHERE EXISTS (SELECT FROM splice_state) AND NOT EXISTS (SELECT FROM job WHERE kind = 'reassess' AND state = 'queued') HAVING max(version) IS NOT NULL;
