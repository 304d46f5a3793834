-- The line of the file beside the number of the row: they differ where a quoted cell breaks over lines.
ALTER TABLE "import_issue" ADD COLUMN "line" INTEGER;
ALTER TABLE "import_issue" ADD CONSTRAINT import_issue_line_positive CHECK (line > 0);

-- What parted the cells, to read raw rows by.
ALTER TABLE "import" ADD COLUMN "delimiter" TEXT;

-- Reports kept from before say nothing of these.
UPDATE "import" SET report = report || '{"notes": [], "ignored_columns": []}'::jsonb
  || jsonb_build_object('issues', (SELECT coalesce(jsonb_agg(i || '{"line": null}'::jsonb), '[]'::jsonb) FROM jsonb_array_elements(report->'issues') i))
WHERE report IS NOT NULL;
