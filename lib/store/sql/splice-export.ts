import { iso } from './iso'
import { spliceColumns, spliceTables } from './splice-summary'
import { sql, type Sql } from './sql'

/**
 * Splices in the order of their numbers, which nothing changes while a long list is written; `label` is null for one that nobody has named. The
 * advised current of a held one is that of the finding that holds it, as its sheet has it. The
 * standard uncertainty is that of the side, or of the visit that holds the class, with which the ratio on show was measured.
 */
export const splicesToExport = (condition: Sql, afterId: number, limit: number): Sql => sql`
  SELECT ${spliceColumns}, s.label, l.line_a AS limit_line_a, ${iso('l.in_force_from')} AS limit_in_force_from, ${iso('l.review_by')} AS limit_review_by,
    CASE WHEN st.held THEN a.advised_a ELSE st.limit_line_a END AS advised_line_a, u.ratio_u
  FROM ${spliceTables}
  LEFT JOIN LATERAL (
    SELECT * FROM current_limit l WHERE l.splice_id = s.id AND l.accepted_at IS NOT NULL AND l.lifted_at IS NULL ORDER BY l.line_a, l.id LIMIT 1
  ) l ON TRUE
  LEFT JOIN assessment a ON a.id = st.assessment_id
  LEFT JOIN LATERAL (
    SELECT (side->>'uRatio')::float8 AS ratio_u FROM (
      SELECT jsonb_array_elements(coalesce(a.result::jsonb->'sides', '[]')) AS side
      UNION ALL SELECT jsonb_array_elements(coalesce(visit->'sides', '[]')) FROM jsonb_array_elements(coalesce(a.result::jsonb->'visits', '[]')) AS visit
    ) sides WHERE (side->>'ratio')::float8 = st.ratio LIMIT 1
  ) u ON TRUE
  WHERE ${condition} AND s.id > ${afterId} ORDER BY s.id LIMIT ${limit}`
