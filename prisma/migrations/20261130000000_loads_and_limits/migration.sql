-- What each section carried, and the register of current limits in force.

ALTER TABLE import
  DROP CONSTRAINT import_kind,
  ADD CONSTRAINT import_kind CHECK (kind IN ('lines', 'structures', 'splices', 'readings', 'phasing', 'crossings', 'extents', 'loads'));

CREATE TABLE section_load (
  section_id INTEGER NOT NULL REFERENCES section (id) ON DELETE CASCADE ON UPDATE CASCADE,
  taken_at TIMESTAMPTZ(3) NOT NULL,
  current_a DOUBLE PRECISION NOT NULL,
  quality TEXT,
  import_id INTEGER NOT NULL REFERENCES import (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  PRIMARY KEY (section_id, taken_at),
  CONSTRAINT section_load_current_range CHECK (current_a BETWEEN 0 AND 20000),
  CONSTRAINT section_load_quality CHECK (quality IN ('measured', 'estimated', 'suspect'))
);
CREATE INDEX section_load_import_id_idx ON section_load (import_id);

-- Who proposed, who agreed (another person), who in the control room accepted and read back, and who lifted it and why. Rows are never removed.
CREATE TABLE current_limit (
  id SERIAL PRIMARY KEY,
  splice_id INTEGER NOT NULL REFERENCES splice (id) ON DELETE RESTRICT ON UPDATE CASCADE,
  line_a DOUBLE PRECISION NOT NULL,
  -- What the engine said when it was proposed; null where it had no figure.
  advised_a DOUBLE PRECISION,
  reason TEXT NOT NULL,
  proposed_by TEXT NOT NULL,
  proposed_at TIMESTAMPTZ(3) NOT NULL DEFAULT now(),
  review_by TIMESTAMPTZ(3) NOT NULL,
  agreed_by TEXT,
  agreed_at TIMESTAMPTZ(3),
  accepted_by TEXT,
  accepted_at TIMESTAMPTZ(3),
  read_back BOOLEAN NOT NULL DEFAULT FALSE,
  in_force_from TIMESTAMPTZ(3),
  lifted_by TEXT,
  lifted_at TIMESTAMPTZ(3),
  lifted_why TEXT,
  CONSTRAINT current_limit_positive CHECK (line_a > 0 AND line_a <= 20000),
  CONSTRAINT current_limit_advised_positive CHECK (advised_a > 0),
  CONSTRAINT current_limit_names_given CHECK (btrim(reason) <> '' AND btrim(proposed_by) <> '' AND btrim(agreed_by) <> '' AND btrim(accepted_by) <> ''
    AND btrim(lifted_by) <> '' AND btrim(lifted_why) <> ''),
  CONSTRAINT current_limit_reviewed_later CHECK (review_by > proposed_at),
  CONSTRAINT current_limit_agreed_whole CHECK ((agreed_by IS NULL) = (agreed_at IS NULL)),
  CONSTRAINT current_limit_agreed_by_another CHECK (lower(btrim(agreed_by)) <> lower(btrim(proposed_by))),
  CONSTRAINT current_limit_accepted_whole CHECK (
    (accepted_by IS NULL) = (accepted_at IS NULL) AND (accepted_by IS NULL) = (in_force_from IS NULL) AND (accepted_by IS NOT NULL) = read_back),
  CONSTRAINT current_limit_agreed_before_accepted CHECK (accepted_at IS NULL OR agreed_at <= accepted_at),
  CONSTRAINT current_limit_lifted_whole CHECK ((lifted_by IS NULL) = (lifted_at IS NULL) AND (lifted_by IS NULL) = (lifted_why IS NULL))
);
-- One at a time is on its way to being in force.
CREATE UNIQUE INDEX current_limit_one_open ON current_limit (splice_id) WHERE lifted_at IS NULL;
CREATE INDEX current_limit_splice_id_idx ON current_limit (splice_id);

-- A limit is never above what its section is rated for when it is set or changed.
CREATE FUNCTION current_limit_under_rating() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.line_a > (SELECT sec.rating_a FROM splice s JOIN section sec ON sec.id = s.section_id WHERE s.id = NEW.splice_id) THEN
    RAISE EXCEPTION 'A limit lies above the rating of its section.' USING ERRCODE = 'check_violation', CONSTRAINT = 'current_limit_under_rating';
  END IF;
  RETURN NEW;
END
$$;
CREATE TRIGGER current_limit_under_rating BEFORE INSERT OR UPDATE OF line_a, splice_id ON current_limit
  FOR EACH ROW EXECUTE FUNCTION current_limit_under_rating();

-- What was agreed and accepted stays as it was said.
CREATE FUNCTION current_limit_kept() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' OR OLD.lifted_at IS NOT NULL OR NEW.splice_id <> OLD.splice_id OR NEW.line_a <> OLD.line_a OR NEW.proposed_by <> OLD.proposed_by
    OR (OLD.agreed_by IS NOT NULL AND NEW.agreed_by IS DISTINCT FROM OLD.agreed_by)
    OR (OLD.accepted_by IS NOT NULL AND (NEW.accepted_by IS DISTINCT FROM OLD.accepted_by OR NEW.in_force_from IS DISTINCT FROM OLD.in_force_from)) THEN
    RAISE EXCEPTION 'A limit on the register is kept as it was said.' USING ERRCODE = 'check_violation', CONSTRAINT = 'current_limit_kept';
  END IF;
  RETURN NEW;
END
$$;
CREATE TRIGGER current_limit_kept BEFORE UPDATE OR DELETE ON current_limit FOR EACH ROW EXECUTE FUNCTION current_limit_kept();
