-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateTable
CREATE TABLE "circuit" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "line_name" TEXT,
    "from_name" TEXT,
    "to_name" TEXT,
    "voltage_kv" DOUBLE PRECISION,
    "region" TEXT,
    "radial" BOOLEAN,
    "mw" DOUBLE PRECISION,
    "import_id" INTEGER,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "circuit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "section" (
    "id" SERIAL NOT NULL,
    "circuit_id" INTEGER NOT NULL,
    "name" TEXT NOT NULL DEFAULT 'main',
    "from_name" TEXT,
    "to_name" TEXT,
    "conductor_code" TEXT,
    "subconductors" INTEGER NOT NULL DEFAULT 1,
    "rating_a" DOUBLE PRECISION,
    "rating_emergency_a" DOUBLE PRECISION,
    "max_operating_c" DOUBLE PRECISION,
    "lateral_offset_m" DOUBLE PRECISION,
    "length_m" DOUBLE PRECISION NOT NULL,
    "declared_length_m" DOUBLE PRECISION,
    "lon_lat" DOUBLE PRECISION[],
    "import_id" INTEGER,

    CONSTRAINT "section_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "structure" (
    "id" SERIAL NOT NULL,
    "label" TEXT NOT NULL,
    "lon" DOUBLE PRECISION NOT NULL,
    "lat" DOUBLE PRECISION NOT NULL,
    "structure_type" TEXT,
    "aliases" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "import_id" INTEGER,

    CONSTRAINT "structure_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "section_structure" (
    "section_id" INTEGER NOT NULL,
    "structure_id" INTEGER NOT NULL,
    "ord" INTEGER NOT NULL,
    "line_distance_m" DOUBLE PRECISION NOT NULL,
    "declared_line_distance_m" DOUBLE PRECISION,

    CONSTRAINT "section_structure_pkey" PRIMARY KEY ("section_id","structure_id")
);

-- CreateTable
CREATE TABLE "span" (
    "id" SERIAL NOT NULL,
    "section_id" INTEGER NOT NULL,
    "ord" INTEGER NOT NULL,
    "structure_back_id" INTEGER,
    "structure_ahead_id" INTEGER,
    "start_m" DOUBLE PRECISION NOT NULL,
    "end_m" DOUBLE PRECISION NOT NULL,
    "lon_lat" DOUBLE PRECISION[],

    CONSTRAINT "span_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "phasing" (
    "id" SERIAL NOT NULL,
    "circuit_id" INTEGER NOT NULL,
    "structure_from" TEXT NOT NULL,
    "structure_to" TEXT NOT NULL,
    "position" TEXT NOT NULL,
    "phase" TEXT NOT NULL,
    "import_id" INTEGER,

    CONSTRAINT "phasing_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "crossing" (
    "id" SERIAL NOT NULL,
    "circuit_id" INTEGER NOT NULL,
    "line_distance_m" DOUBLE PRECISION NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT,
    "import_id" INTEGER,

    CONSTRAINT "crossing_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "splice" (
    "id" SERIAL NOT NULL,
    "label" TEXT,
    "circuit_id" INTEGER NOT NULL,
    "section_id" INTEGER NOT NULL,
    "span_id" INTEGER NOT NULL,
    "line_distance_m" DOUBLE PRECISION NOT NULL,
    "structure_back_id" INTEGER,
    "offset_m" DOUBLE PRECISION NOT NULL,
    "lon" DOUBLE PRECISION NOT NULL,
    "lat" DOUBLE PRECISION NOT NULL,
    "phase" TEXT,
    "position" TEXT,
    "circuit_side" TEXT,
    "subconductor" TEXT,
    "kind" TEXT NOT NULL DEFAULT 'full-tension splice',
    "fitting_type" TEXT,
    "barrel_od_mm" DOUBLE PRECISION,
    "barrel_length_mm" DOUBLE PRECISION,
    "installed_on" DATE,
    "batch" TEXT,
    "removed_on" DATE,
    "successor_of_id" INTEGER,
    "found_by_survey" BOOLEAN NOT NULL DEFAULT false,
    "import_id" INTEGER,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "splice_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "survey" (
    "id" SERIAL NOT NULL,
    "name" TEXT NOT NULL,
    "import_id" INTEGER,

    CONSTRAINT "survey_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "survey_extent" (
    "id" SERIAL NOT NULL,
    "survey_id" INTEGER NOT NULL,
    "circuit_id" INTEGER NOT NULL,
    "section_id" INTEGER NOT NULL,
    "structure_from" TEXT,
    "structure_to" TEXT,
    "start_m" DOUBLE PRECISION NOT NULL,
    "end_m" DOUBLE PRECISION NOT NULL,
    "surveyed_on" DATE NOT NULL,
    "method" TEXT NOT NULL,
    "result" TEXT,
    "line_current_a" DOUBLE PRECISION,
    "ambient_c" DOUBLE PRECISION,
    "wind_m_s" DOUBLE PRECISION,
    "import_id" INTEGER,

    CONSTRAINT "survey_extent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "reading" (
    "id" SERIAL NOT NULL,
    "import_id" INTEGER NOT NULL,
    "survey_id" INTEGER NOT NULL,
    "row_no" INTEGER NOT NULL,
    "reading_key" TEXT NOT NULL,
    "content_hash" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "taken_at" TIMESTAMPTZ(3),
    "lon" DOUBLE PRECISION,
    "lat" DOUBLE PRECISION,
    "sigma_m" DOUBLE PRECISION,
    "gnss_accuracy_m" DOUBLE PRECISION,
    "position_of" TEXT NOT NULL,
    "platform" TEXT,
    "circuit_label" TEXT,
    "section_label" TEXT,
    "structure_back" TEXT,
    "structure_ahead" TEXT,
    "offset_from_structure_m" DOUBLE PRECISION,
    "span_fraction" DOUBLE PRECISION,
    "phase" TEXT,
    "position" TEXT,
    "circuit_side" TEXT,
    "subconductor" TEXT,
    "splice_label" TEXT,
    "side_a_uohm" DOUBLE PRECISION,
    "side_b_uohm" DOUBLE PRECISION,
    "conductor_uohm" DOUBLE PRECISION,
    "conductor_b_uohm" DOUBLE PRECISION,
    "electrode_span_m" DOUBLE PRECISION,
    "conductor_span_m" DOUBLE PRECISION,
    "barrel_electrode_m" DOUBLE PRECISION,
    "repeat_no" INTEGER,
    "test_current" TEXT,
    "line_current_a" DOUBLE PRECISION,
    "current_30min_a" DOUBLE PRECISION,
    "splice_temp_c" DOUBLE PRECISION,
    "conductor_temp_c" DOUBLE PRECISION,
    "reference_kind" TEXT,
    "ambient_c" DOUBLE PRECISION,
    "wind_m_s" DOUBLE PRECISION,
    "sun" TEXT,
    "rain_1h" BOOLEAN,
    "emissivity" DOUBLE PRECISION,
    "reflected_c" DOUBLE PRECISION,
    "distance_m" DOUBLE PRECISION,
    "view_angle_deg" DOUBLE PRECISION,
    "ifov_mrad" DOUBLE PRECISION,
    "band" TEXT,
    "findings" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "after_repair" BOOLEAN NOT NULL DEFAULT false,
    "crew" TEXT,
    "instrument" TEXT,
    "photo" TEXT,
    "note" TEXT,
    "raw_row" TEXT NOT NULL,
    "withdrawn" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "reading_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "placement" (
    "id" SERIAL NOT NULL,
    "reading_id" INTEGER NOT NULL,
    "current" BOOLEAN NOT NULL DEFAULT true,
    "state" TEXT NOT NULL,
    "circuit_id" INTEGER,
    "section_id" INTEGER,
    "span_id" INTEGER,
    "splice_id" INTEGER,
    "line_distance_m" DOUBLE PRECISION,
    "lon" DOUBLE PRECISION,
    "lat" DOUBLE PRECISION,
    "offset_m" DOUBLE PRECISION,
    "probability" DOUBLE PRECISION,
    "method" TEXT NOT NULL,
    "reasons" JSON NOT NULL DEFAULT '[]',
    "candidates" JSON NOT NULL DEFAULT '[]',
    "import_id" INTEGER,
    "supersedes_id" INTEGER,
    "decided_by" TEXT,
    "decided_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "placement_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "assessment" (
    "id" SERIAL NOT NULL,
    "splice_id" INTEGER NOT NULL,
    "assessed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "engine_version" TEXT NOT NULL,
    "policy_version" INTEGER NOT NULL,
    "cause" TEXT NOT NULL,
    "import_id" INTEGER,
    "class" TEXT NOT NULL,
    "confidence" TEXT NOT NULL,
    "ratio" DOUBLE PRECISION,
    "result" JSON NOT NULL,

    CONSTRAINT "assessment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "splice_state" (
    "splice_id" INTEGER NOT NULL,
    "assessment_id" INTEGER NOT NULL,
    "circuit_id" INTEGER NOT NULL,
    "class" TEXT NOT NULL,
    "measured_class" TEXT NOT NULL,
    "held" BOOLEAN NOT NULL DEFAULT false,
    "found_at" TIMESTAMPTZ(3),
    "confidence" TEXT NOT NULL,
    "ratio" DOUBLE PRECISION,
    "governing_side" TEXT,
    "flags" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "last_reading_at" TIMESTAMPTZ(3),
    "reading_count" INTEGER NOT NULL DEFAULT 0,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "splice_state_pkey" PRIMARY KEY ("splice_id")
);

-- CreateTable
CREATE TABLE "span_coverage" (
    "span_id" INTEGER NOT NULL,
    "phase" TEXT NOT NULL,
    "method" TEXT NOT NULL,
    "surveyed_on" DATE NOT NULL,
    "survey_id" INTEGER NOT NULL,
    "import_id" INTEGER NOT NULL,

    CONSTRAINT "span_coverage_pkey" PRIMARY KEY ("span_id","phase","method","survey_id","import_id")
);

-- CreateTable
CREATE TABLE "circuit_health" (
    "circuit_id" INTEGER NOT NULL,
    "splice_count" INTEGER NOT NULL DEFAULT 0,
    "sound_count" INTEGER NOT NULL DEFAULT 0,
    "watch_count" INTEGER NOT NULL DEFAULT 0,
    "degraded_count" INTEGER NOT NULL DEFAULT 0,
    "urgent_count" INTEGER NOT NULL DEFAULT 0,
    "critical_count" INTEGER NOT NULL DEFAULT 0,
    "unknown_count" INTEGER NOT NULL DEFAULT 0,
    "worst_splice_id" INTEGER,
    "span_count" INTEGER NOT NULL DEFAULT 0,
    "span_phase_count" INTEGER NOT NULL DEFAULT 0,
    "covered_span_phases" INTEGER NOT NULL DEFAULT 0,
    "last_surveyed_on" DATE,
    "updated_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "circuit_health_pkey" PRIMARY KEY ("circuit_id")
);

-- CreateTable
CREATE TABLE "urgent_notice" (
    "reading_id" INTEGER NOT NULL,
    "class" TEXT NOT NULL,
    "ratio" DOUBLE PRECISION,
    "circuits" JSONB NOT NULL,
    "raised_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "acknowledged_at" TIMESTAMPTZ(3),
    "acknowledged_by" TEXT,

    CONSTRAINT "urgent_notice_pkey" PRIMARY KEY ("reading_id")
);

-- CreateTable
CREATE TABLE "import" (
    "id" SERIAL NOT NULL,
    "kind" TEXT NOT NULL,
    "file_name" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "size_bytes" BIGINT NOT NULL,
    "state" TEXT NOT NULL,
    "mapping" JSONB,
    "header" JSONB,
    "survey_name" TEXT,
    "dry_run" BOOLEAN NOT NULL DEFAULT false,
    "rows_total" INTEGER,
    "rows_done" INTEGER NOT NULL DEFAULT 0,
    "phase" TEXT,
    "report" JSONB,
    "failure" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finished_at" TIMESTAMPTZ(3),
    "undone_at" TIMESTAMPTZ(3),
    "actor" TEXT NOT NULL,

    CONSTRAINT "import_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "import_change" (
    "id" SERIAL NOT NULL,
    "import_id" INTEGER NOT NULL,
    "entity" TEXT NOT NULL,
    "entity_id" INTEGER NOT NULL,
    "before" JSONB,

    CONSTRAINT "import_change_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "import_chunk" (
    "import_id" INTEGER NOT NULL,
    "seq" INTEGER NOT NULL,
    "bytes" BYTEA NOT NULL,

    CONSTRAINT "import_chunk_pkey" PRIMARY KEY ("import_id","seq")
);

-- CreateTable
CREATE TABLE "import_issue" (
    "id" SERIAL NOT NULL,
    "import_id" INTEGER NOT NULL,
    "severity" TEXT NOT NULL,
    "row" INTEGER NOT NULL,
    "field" TEXT,
    "value" TEXT,
    "code" TEXT NOT NULL,
    "message" TEXT NOT NULL,
    "remedy" TEXT NOT NULL,
    "raw_row" TEXT,

    CONSTRAINT "import_issue_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job" (
    "id" SERIAL NOT NULL,
    "kind" TEXT NOT NULL,
    "payload" JSONB NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'queued',
    "failure" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finished_at" TIMESTAMPTZ(3),

    CONSTRAINT "job_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job_attempt" (
    "id" SERIAL NOT NULL,
    "job_id" INTEGER NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "progress" JSONB,
    "failure" TEXT,

    CONSTRAINT "job_attempt_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mapping_profile" (
    "header_hash" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "mapping" JSONB NOT NULL,
    "used_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "mapping_profile_pkey" PRIMARY KEY ("header_hash")
);

-- CreateTable
CREATE TABLE "policy" (
    "version" SERIAL NOT NULL,
    "values" JSONB NOT NULL,
    "procedure_no" TEXT,
    "note" TEXT,
    "actor" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "policy_pkey" PRIMARY KEY ("version")
);

-- CreateTable
CREATE TABLE "setting" (
    "key" TEXT NOT NULL,
    "value" JSONB NOT NULL,

    CONSTRAINT "setting_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "audit_entry" (
    "id" SERIAL NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "actor" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "subject_kind" TEXT NOT NULL,
    "subject_id" INTEGER,
    "detail" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "audit_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "data_version" (
    "one" INTEGER NOT NULL DEFAULT 1,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "data_version_pkey" PRIMARY KEY ("one")
);

-- CreateIndex
CREATE UNIQUE INDEX "circuit_name_key" ON "circuit"("name");

-- CreateIndex
CREATE UNIQUE INDEX "section_circuit_id_name_key" ON "section"("circuit_id", "name");

-- CreateIndex
CREATE INDEX "structure_label_idx" ON "structure"("label");

-- CreateIndex
CREATE INDEX "section_structure_structure_id_idx" ON "section_structure"("structure_id");

-- CreateIndex
CREATE UNIQUE INDEX "span_section_id_ord_key" ON "span"("section_id", "ord");

-- CreateIndex
CREATE UNIQUE INDEX "phasing_circuit_id_structure_from_structure_to_position_key" ON "phasing"("circuit_id", "structure_from", "structure_to", "position");

-- CreateIndex
CREATE UNIQUE INDEX "crossing_circuit_id_line_distance_m_kind_key" ON "crossing"("circuit_id", "line_distance_m", "kind");

-- CreateIndex
CREATE INDEX "splice_section_id_line_distance_m_idx" ON "splice"("section_id", "line_distance_m");

-- CreateIndex
CREATE INDEX "splice_span_id_idx" ON "splice"("span_id");

-- CreateIndex
CREATE UNIQUE INDEX "splice_circuit_id_label_key" ON "splice"("circuit_id", "label");

-- CreateIndex
CREATE UNIQUE INDEX "survey_name_key" ON "survey"("name");

-- CreateIndex
CREATE UNIQUE INDEX "survey_extent_survey_id_section_id_start_m_end_m_surveyed_o_key" ON "survey_extent"("survey_id", "section_id", "start_m", "end_m", "surveyed_on", "method");

-- CreateIndex
CREATE INDEX "reading_survey_id_reading_key_idx" ON "reading"("survey_id", "reading_key");

-- CreateIndex
CREATE INDEX "reading_import_id_idx" ON "reading"("import_id");

-- CreateIndex
CREATE INDEX "placement_splice_id_idx" ON "placement"("splice_id");

-- CreateIndex
CREATE INDEX "assessment_splice_id_assessed_at_idx" ON "assessment"("splice_id", "assessed_at");

-- CreateIndex
CREATE UNIQUE INDEX "splice_state_assessment_id_key" ON "splice_state"("assessment_id");

-- CreateIndex
CREATE INDEX "splice_state_circuit_id_class_idx" ON "splice_state"("circuit_id", "class");

-- CreateIndex
CREATE INDEX "span_coverage_import_id_idx" ON "span_coverage"("import_id");

-- CreateIndex
CREATE INDEX "import_sha256_idx" ON "import"("sha256");

-- CreateIndex
CREATE INDEX "import_change_import_id_idx" ON "import_change"("import_id");

-- CreateIndex
CREATE INDEX "import_change_entity_entity_id_idx" ON "import_change"("entity", "entity_id");

-- CreateIndex
CREATE INDEX "import_issue_import_id_row_idx" ON "import_issue"("import_id", "row");

-- CreateIndex
CREATE INDEX "job_state_id_idx" ON "job"("state", "id");

-- CreateIndex
CREATE INDEX "job_attempt_job_id_idx" ON "job_attempt"("job_id");

-- CreateIndex
CREATE INDEX "audit_entry_subject_kind_subject_id_idx" ON "audit_entry"("subject_kind", "subject_id");

-- AddForeignKey
ALTER TABLE "circuit" ADD CONSTRAINT "circuit_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "section" ADD CONSTRAINT "section_circuit_id_fkey" FOREIGN KEY ("circuit_id") REFERENCES "circuit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "section_structure" ADD CONSTRAINT "section_structure_section_id_fkey" FOREIGN KEY ("section_id") REFERENCES "section"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "section_structure" ADD CONSTRAINT "section_structure_structure_id_fkey" FOREIGN KEY ("structure_id") REFERENCES "structure"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "span" ADD CONSTRAINT "span_section_id_fkey" FOREIGN KEY ("section_id") REFERENCES "section"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "phasing" ADD CONSTRAINT "phasing_circuit_id_fkey" FOREIGN KEY ("circuit_id") REFERENCES "circuit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "crossing" ADD CONSTRAINT "crossing_circuit_id_fkey" FOREIGN KEY ("circuit_id") REFERENCES "circuit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "splice" ADD CONSTRAINT "splice_circuit_id_fkey" FOREIGN KEY ("circuit_id") REFERENCES "circuit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "splice" ADD CONSTRAINT "splice_section_id_fkey" FOREIGN KEY ("section_id") REFERENCES "section"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "splice" ADD CONSTRAINT "splice_span_id_fkey" FOREIGN KEY ("span_id") REFERENCES "span"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "splice" ADD CONSTRAINT "splice_successor_of_id_fkey" FOREIGN KEY ("successor_of_id") REFERENCES "splice"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "survey_extent" ADD CONSTRAINT "survey_extent_survey_id_fkey" FOREIGN KEY ("survey_id") REFERENCES "survey"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "survey_extent" ADD CONSTRAINT "survey_extent_circuit_id_fkey" FOREIGN KEY ("circuit_id") REFERENCES "circuit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "survey_extent" ADD CONSTRAINT "survey_extent_section_id_fkey" FOREIGN KEY ("section_id") REFERENCES "section"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_survey_id_fkey" FOREIGN KEY ("survey_id") REFERENCES "survey"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "placement" ADD CONSTRAINT "placement_reading_id_fkey" FOREIGN KEY ("reading_id") REFERENCES "reading"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "placement" ADD CONSTRAINT "placement_splice_id_fkey" FOREIGN KEY ("splice_id") REFERENCES "splice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "assessment" ADD CONSTRAINT "assessment_splice_id_fkey" FOREIGN KEY ("splice_id") REFERENCES "splice"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "assessment" ADD CONSTRAINT "assessment_policy_version_fkey" FOREIGN KEY ("policy_version") REFERENCES "policy"("version") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "splice_state" ADD CONSTRAINT "splice_state_splice_id_fkey" FOREIGN KEY ("splice_id") REFERENCES "splice"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "splice_state" ADD CONSTRAINT "splice_state_assessment_id_fkey" FOREIGN KEY ("assessment_id") REFERENCES "assessment"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "splice_state" ADD CONSTRAINT "splice_state_circuit_id_fkey" FOREIGN KEY ("circuit_id") REFERENCES "circuit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "span_coverage" ADD CONSTRAINT "span_coverage_span_id_fkey" FOREIGN KEY ("span_id") REFERENCES "span"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "circuit_health" ADD CONSTRAINT "circuit_health_circuit_id_fkey" FOREIGN KEY ("circuit_id") REFERENCES "circuit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "urgent_notice" ADD CONSTRAINT "urgent_notice_reading_id_fkey" FOREIGN KEY ("reading_id") REFERENCES "reading"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "import_change" ADD CONSTRAINT "import_change_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "import_chunk" ADD CONSTRAINT "import_chunk_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "import_issue" ADD CONSTRAINT "import_issue_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_attempt" ADD CONSTRAINT "job_attempt_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE CASCADE ON UPDATE CASCADE;
