-- While servers are being replaced, one with an older engine must not do what a newer one queued: it would judge by rules that no longer hold.

ALTER TABLE job
  ADD COLUMN engine_version TEXT,
  ADD CONSTRAINT job_engine_version_form CHECK (engine_version ~ '^[0-9]+([.][0-9]+)*$');
