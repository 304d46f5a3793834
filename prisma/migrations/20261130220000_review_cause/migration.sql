-- Why a placement waits for a person, written when it is placed: counted by its words of reasons, a queue of a hundred thousand took seconds to open.
ALTER TABLE placement ADD COLUMN review_cause TEXT;
UPDATE placement p SET review_cause = CASE
  WHEN p.reasons::text LIKE ANY (ARRAY['%"code":"no-position"%', '%"code":"position-zero"%']) THEN 'no-position'
  WHEN p.reasons::text LIKE '%"code":"nothing-in-reach"%' THEN 'nothing-in-reach'
  WHEN p.reasons::text LIKE '%"code":"declared-contradicts-position"%' THEN 'contradicts'
  WHEN p.reasons::text LIKE '%"code":"declared-unknown"%' THEN 'not-on-file'
  WHEN p.reasons::text LIKE '%"code":"same-pass-different-label"%' THEN 'one-pass'
  WHEN p.reasons::text LIKE '%"code":"shared-structures-no-offset"%' THEN 'several-circuits'
  WHEN p.reasons::text LIKE '%"code":"low-probability"%' AND p.candidates->1->>'circuitId' <> p.candidates->0->>'circuitId'
    AND (p.candidates->1->>'probability')::float8 > 1 - (p.candidates->0->>'probability')::float8 - (p.candidates->1->>'probability')::float8 THEN 'several-circuits'
  WHEN p.reasons::text LIKE '%"code":"low-probability"%' THEN 'off-the-line'
  WHEN p.reasons::text LIKE '%"code":"phase-missing"%' THEN 'phase-missing'
  WHEN p.reasons::text LIKE '%"code":"two-splices-in-reach"%' THEN 'several-splices' END
WHERE p.state = 'review';
ALTER TABLE placement ADD CONSTRAINT placement_cause_of_review CHECK (review_cause IS NULL OR state = 'review');
