-- What a splice was advised to carry as it was assessed, also of a held one at the finding that holds it: so that a change of it can be told, with its
-- cause. What was said before this has none; of it the engine's own figure counts where the class was not held.
ALTER TABLE assessment ADD COLUMN advised_a DOUBLE PRECISION;
ALTER TABLE assessment ADD CONSTRAINT assessment_advised_a_positive CHECK (advised_a > 0);

-- Who stands behind the values of a version: `actor` is the account that sent them.
ALTER TABLE policy ADD COLUMN set_by TEXT;
ALTER TABLE policy ADD CONSTRAINT policy_set_by_said CHECK (btrim(set_by) <> '');
