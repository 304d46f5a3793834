-- Why the ratio of a notice is provisional: {conductor, conductor_uohm, expected_uohm}, where the conductor reading cannot be that of the
-- conductor on record.
ALTER TABLE urgent_notice ADD COLUMN doubt JSONB;
