-- Beside what a section carried: what it is expected to carry at most, and after the worst single outage elsewhere.

ALTER TABLE section_load
  ADD COLUMN flow TEXT NOT NULL DEFAULT 'carried',
  ADD CONSTRAINT section_load_flow CHECK (flow IN ('carried', 'expected-peak', 'post-contingency')),
  ADD CONSTRAINT section_load_quality_of_carried CHECK (flow = 'carried' OR quality IS NULL),
  DROP CONSTRAINT section_load_pkey,
  ADD PRIMARY KEY (section_id, flow, taken_at);
