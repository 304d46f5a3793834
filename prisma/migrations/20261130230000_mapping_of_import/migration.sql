-- A mapping is remembered with the import it was said at, so that what was said at one that is undone counts no more and what was
-- said before it counts again. Of those from before it is the last import that was read so; where none was found it still counts.
ALTER TABLE mapping_profile DROP CONSTRAINT mapping_profile_pkey;
ALTER TABLE mapping_profile
  ADD COLUMN id SERIAL PRIMARY KEY,
  ADD COLUMN import_id INTEGER REFERENCES import (id) ON DELETE CASCADE ON UPDATE CASCADE;
CREATE INDEX mapping_profile_header_hash_idx ON mapping_profile (header_hash);
CREATE INDEX mapping_profile_import_id_idx ON mapping_profile (import_id);
UPDATE mapping_profile p SET import_id = (
  SELECT max(i.id) FROM import i WHERE i.kind = p.kind AND i.mapping - 'values' = p.mapping AND NOT i.dry_run AND i.state IN ('done', 'undone')
);
