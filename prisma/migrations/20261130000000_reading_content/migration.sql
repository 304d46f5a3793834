-- The same reading in another survey's file is looked for by what it says.
CREATE INDEX reading_content_hash_idx ON reading (content_hash);

-- An import that found rows held already says nothing of them any more once the import that held them is undone: its file may come again.
ALTER TABLE import ADD COLUMN leans_on_undone BOOLEAN NOT NULL DEFAULT FALSE;
DROP INDEX import_once;
CREATE UNIQUE INDEX import_once ON import (sha256) WHERE state = 'done' AND NOT dry_run AND NOT leans_on_undone;
