-- The flow after a contingency counts in the order of the watch list as the peak does: see lib/condition/risk.ts. What is kept beside the class is
-- reckoned again here, from the same columns, so that no splice has to be assessed for it.
UPDATE splice_state st SET load_share = now.share, risk = st.risk % 100 + 100 * CASE
  WHEN now.share >= 1 THEN 4 WHEN now.share >= 0.8 THEN 3 WHEN now.share >= 0.5 THEN 1 ELSE 0 END
FROM (
  SELECT x.splice_id, greatest(x.load_share, CASE WHEN lim.a = 0 THEN 99 ELSE least(flow.a / lim.a, 99) END) AS share
  FROM splice_state x JOIN splice s ON s.id = x.splice_id
  CROSS JOIN LATERAL (SELECT least(x.limit_line_a, (
    SELECT l.line_a FROM current_limit l WHERE l.splice_id = s.id AND l.lifted_at IS NULL AND l.accepted_at IS NOT NULL)) AS a) lim
  CROSS JOIN LATERAL (
    SELECT f.current_a AS a FROM section_load f WHERE f.section_id = s.section_id AND f.flow = 'post-contingency' ORDER BY f.taken_at DESC LIMIT 1) flow
  WHERE x.class IN ('degraded', 'urgent', 'critical') AND lim.a IS NOT NULL
) now
WHERE st.splice_id = now.splice_id AND st.load_share IS DISTINCT FROM now.share;
