-- A row that was not read may be urgent by its own numbers all the same: its notice has no reading until the row was corrected and read.
ALTER TABLE urgent_notice
  ALTER COLUMN reading_id DROP NOT NULL,
  -- The conductor of the table that the ratio stands against, where none was measured: {conductor, uohm, typed}.
  ADD COLUMN by_table JSONB,
  DROP CONSTRAINT urgent_notice_basis,
  ADD CONSTRAINT urgent_notice_basis CHECK (basis IN ('reading', 'assessment', 'row')),
  ADD CONSTRAINT urgent_notice_of_something CHECK (reading_id IS NOT NULL OR basis = 'row'),
  ADD CONSTRAINT urgent_notice_place_of_reading CHECK (placement_id IS NULL OR reading_id IS NOT NULL);

-- CreateTable
CREATE TABLE "unread_row" (
    "id" SERIAL NOT NULL,
    "notice_id" INTEGER NOT NULL,
    "import_id" INTEGER NOT NULL,
    "row_no" INTEGER NOT NULL,
    "line" INTEGER,
    "survey" TEXT NOT NULL,
    "reading_key" TEXT,
    "says" JSONB NOT NULL,
    "why" TEXT[],

    CONSTRAINT "unread_row_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "unread_row_import_id_row_no_key" ON "unread_row"("import_id", "row_no");

-- CreateIndex
CREATE INDEX "unread_row_notice_id_idx" ON "unread_row"("notice_id");

-- CreateIndex
CREATE INDEX "unread_row_survey_reading_key_idx" ON "unread_row"("survey", "reading_key");

-- AddForeignKey
ALTER TABLE "unread_row" ADD CONSTRAINT "unread_row_notice_id_fkey" FOREIGN KEY ("notice_id") REFERENCES "urgent_notice"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unread_row" ADD CONSTRAINT "unread_row_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE unread_row
  ADD CONSTRAINT unread_row_number CHECK (row_no > 0 AND line > 0),
  ADD CONSTRAINT unread_row_named CHECK (survey <> '' AND reading_key <> ''),
  ADD CONSTRAINT unread_row_says CHECK (jsonb_typeof(says) = 'object'),
  ADD CONSTRAINT unread_row_why CHECK (cardinality(why) > 0);

-- Checked as the transaction ends: the notice is written before its row.
CREATE FUNCTION notice_has_its_row() RETURNS TRIGGER LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM urgent_notice u WHERE u.id = NEW.id AND u.reading_id IS NULL)
    AND NOT EXISTS (SELECT FROM unread_row WHERE notice_id = NEW.id) THEN
    RAISE EXCEPTION 'A notice without a reading needs the row that it is about.' USING ERRCODE = 'check_violation', CONSTRAINT = 'urgent_notice_has_its_row';
  END IF;
  RETURN NULL;
END
$$;
CREATE CONSTRAINT TRIGGER urgent_notice_has_its_row AFTER INSERT OR UPDATE OF reading_id ON urgent_notice
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW WHEN (NEW.reading_id IS NULL) EXECUTE FUNCTION notice_has_its_row();

-- What was typed for the conductor where it cannot be a reading: the sides are judged against the table, provisionally.
ALTER TABLE reading
  ADD COLUMN conductor_unusable TEXT,
  ADD CONSTRAINT reading_conductor_unusable CHECK (conductor_unusable IS NULL OR conductor_uohm IS NULL AND conductor_b_uohm IS NULL);
CREATE TRIGGER reading_conductor_is_not_rewritten BEFORE UPDATE OF conductor_unusable ON reading FOR EACH ROW EXECUTE FUNCTION keep_reading();
