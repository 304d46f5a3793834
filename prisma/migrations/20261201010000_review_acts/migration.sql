-- What one person said of many waiting readings at once, so that it can be taken back as one.
CREATE TABLE review_act (
  id SERIAL PRIMARY KEY,
  action TEXT NOT NULL,
  reason TEXT,
  choice JSONB NOT NULL,
  up_to_placement_id INTEGER NOT NULL,
  actor TEXT NOT NULL,
  created_at TIMESTAMPTZ(3) NOT NULL DEFAULT now(),
  done_at TIMESTAMPTZ(3),
  settled INTEGER,
  left_waiting INTEGER,
  undone_at TIMESTAMPTZ(3),
  undone_by TEXT,
  restored INTEGER,
  failure TEXT,
  job_id INTEGER,
  CONSTRAINT review_act_action CHECK (action IN ('set-aside', 'accept-best')),
  CONSTRAINT review_act_actor_given CHECK (actor <> ''),
  CONSTRAINT review_act_says_why CHECK (action <> 'set-aside' OR reason <> ''),
  CONSTRAINT review_act_undone_is_named CHECK ((undone_at IS NULL) = (undone_by IS NULL))
);
ALTER TABLE placement ADD COLUMN review_act_id INTEGER;
CREATE INDEX placement_review_act ON placement (review_act_id) WHERE review_act_id IS NOT NULL;
ALTER TABLE job DROP CONSTRAINT job_kind, ADD CONSTRAINT job_kind CHECK (kind IN ('import', 'reassess', 'review-act', 'review-act-undo'));
