-- By when a splice is to be measured again, as its assessment reckons it: a class that nobody measured again by then is of then, not of now.
ALTER TABLE splice_state ADD COLUMN measure_by TIMESTAMPTZ(3);

UPDATE splice_state st SET measure_by = to_timestamp((a.result::json->>'nextReadingDueMs')::float8 / 1000)
FROM assessment a WHERE a.id = st.assessment_id AND NOT st.held AND a.result::json->>'nextReadingDueMs' IS NOT NULL;

-- {day: how many sound splices are past that moment after it}: rolled up, so that a list of circuits counts no splices. A reading without a date
-- is past it from the first.
ALTER TABLE circuit_health ADD COLUMN sound_until JSONB NOT NULL DEFAULT '{}';

UPDATE circuit_health h SET sound_until = days.until FROM (
  SELECT circuit_id, jsonb_object_agg(day, n) AS until FROM (
    SELECT circuit_id, CASE WHEN measure_by IS NOT NULL THEN (measure_by AT TIME ZONE 'UTC')::date ELSE DATE '0001-01-01' END AS day, count(*) AS n
    FROM splice_state WHERE class = 'sound' AND (measure_by IS NOT NULL OR 'stale' = ANY(flags)) GROUP BY 1, 2
  ) each_day GROUP BY circuit_id
) days WHERE days.circuit_id = h.circuit_id;
