-- Whom of the control room was told of a notice, and when the call was. Null where only the noting is known: notices of before, and programs.
ALTER TABLE urgent_notice
  ADD COLUMN told_to TEXT,
  ADD COLUMN told_at TIMESTAMPTZ(3),
  ADD CONSTRAINT urgent_notice_told_when_noted CHECK (acknowledged_at IS NOT NULL OR (told_to IS NULL AND told_at IS NULL)),
  ADD CONSTRAINT urgent_notice_told_to CHECK (told_to IS NULL OR btrim(told_to) <> '');
