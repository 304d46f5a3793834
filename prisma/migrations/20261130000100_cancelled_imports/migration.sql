-- An import may be called off while it waits or runs; nothing of it is stored then.
ALTER TABLE "import" DROP CONSTRAINT import_state;
ALTER TABLE "import" ADD CONSTRAINT import_state
  CHECK (state IN ('receiving', 'queued', 'running', 'done', 'failed', 'undone', 'cancelled'));

-- Splices are counted while they are assessed; rows are counted before that.
ALTER TABLE "import" ADD COLUMN "splices_done" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "import" ADD COLUMN "splices_total" INTEGER;
ALTER TABLE "import" ADD CONSTRAINT import_splices CHECK (splices_done >= 0 AND splices_total >= 0);
