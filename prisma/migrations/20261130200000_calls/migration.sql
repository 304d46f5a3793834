-- The log of calls about a splice, and of looks at it in a peak-load period: what the next shift reads. Rows are never removed; a wrong one is
-- struck with a reason and stays readable.
CREATE TABLE call_entry (
  id SERIAL PRIMARY KEY,
  splice_id INTEGER NOT NULL REFERENCES splice (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  kind TEXT NOT NULL,
  -- As the splice was shown when it was noted.
  class TEXT NOT NULL,
  by_name TEXT NOT NULL,
  whom TEXT,
  at TIMESTAMPTZ(3) NOT NULL,
  decided TEXT[] NOT NULL DEFAULT '{}',
  nothing_why TEXT,
  note TEXT,
  noted_at TIMESTAMPTZ(3) NOT NULL DEFAULT now(),
  noted_by TEXT NOT NULL,
  struck_at TIMESTAMPTZ(3),
  struck_by TEXT,
  struck_why TEXT,
  CONSTRAINT call_entry_kind CHECK (kind IN ('call', 'look')),
  CONSTRAINT call_entry_class CHECK (class IN ('sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown')),
  CONSTRAINT call_entry_texts_given CHECK (btrim(by_name) <> '' AND btrim(whom) <> '' AND btrim(nothing_why) <> '' AND btrim(note) <> '' AND btrim(noted_by) <> ''
    AND btrim(struck_by) <> '' AND btrim(struck_why) <> ''),
  -- A call is of somebody and decides something, be it nothing yet; a look does neither.
  CONSTRAINT call_entry_whole CHECK (CASE kind WHEN 'call' THEN whom IS NOT NULL AND cardinality(decided) > 0 ELSE whom IS NULL AND cardinality(decided) = 0 END),
  CONSTRAINT call_entry_decided CHECK (decided <@ ARRAY['load-relief', 'outage', 'reclosing-blocked', 'reclosing-left-on', 'patrol-first', 'confirming-reading',
    'repair', 'nothing-yet'] AND array_position(decided, NULL) IS NULL),
  CONSTRAINT call_entry_reclosing_one_way CHECK (NOT decided @> ARRAY['reclosing-blocked', 'reclosing-left-on']),
  CONSTRAINT call_entry_nothing_alone_with_why CHECK (('nothing-yet' = ANY(decided)) = (nothing_why IS NOT NULL) AND ('nothing-yet' <> ALL(decided) OR cardinality(decided) = 1)),
  -- Clocks differ by this much at most.
  CONSTRAINT call_entry_not_to_come CHECK (at <= noted_at + INTERVAL '5 minutes'),
  CONSTRAINT call_entry_struck_whole CHECK ((struck_at IS NULL) = (struck_by IS NULL) AND (struck_at IS NULL) = (struck_why IS NULL))
);
CREATE INDEX call_entry_splice_id_idx ON call_entry (splice_id, at DESC);
CREATE INDEX call_entry_newest ON call_entry (at DESC, id DESC);

CREATE FUNCTION call_entry_kept() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' OR OLD.struck_at IS NOT NULL OR (to_jsonb(NEW) - '{struck_at,struck_by,struck_why}'::text[]) <> (to_jsonb(OLD) - '{struck_at,struck_by,struck_why}'::text[]) THEN
    RAISE EXCEPTION 'An entry of the log is kept as it was written.' USING ERRCODE = 'check_violation', CONSTRAINT = 'call_entry_kept';
  END IF;
  RETURN NEW;
END
$$;
CREATE TRIGGER call_entry_kept BEFORE UPDATE OR DELETE ON call_entry FOR EACH ROW EXECUTE FUNCTION call_entry_kept();

-- A call to the control room that is on the log by itself: the notice then has no entry of its own.
ALTER TABLE urgent_notice
  ADD COLUMN call_id INTEGER REFERENCES call_entry (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  ADD CONSTRAINT urgent_notice_call_when_noted CHECK (acknowledged_at IS NOT NULL OR call_id IS NULL);
CREATE INDEX urgent_notice_call_id_idx ON urgent_notice (call_id);
CREATE INDEX urgent_notice_told_newest ON urgent_notice ((coalesce(told_at, acknowledged_at)) DESC) WHERE acknowledged_at IS NOT NULL AND call_id IS NULL;

-- What comes back at each peak-load period.
CREATE INDEX splice_state_acute ON splice_state (circuit_id) WHERE class IN ('urgent', 'critical');
