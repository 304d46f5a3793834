-- What operations asks of a circuit when it trips, as a named person noted it: who loses supply, what isolates it, who is called, how soon
-- somebody is there, how long it takes and within what it can be handed back. A row holds what is known now; what it held before stands in the
-- audit trail. What nobody knows is null and never an empty text.
CREATE TABLE if_it_trips (
  circuit_id INTEGER PRIMARY KEY REFERENCES circuit (id) ON DELETE CASCADE ON UPDATE CASCADE,
  loses_supply TEXT,
  isolated_by TEXT,
  called TEXT,
  on_site_h DOUBLE PRECISION,
  repair_h DOUBLE PRECISION,
  recall_h DOUBLE PRECISION,
  noted_by TEXT NOT NULL,
  noted_at TIMESTAMPTZ(3) NOT NULL DEFAULT now(),
  CONSTRAINT if_it_trips_texts_given CHECK (btrim(loses_supply) <> '' AND btrim(isolated_by) <> '' AND btrim(called) <> '' AND btrim(noted_by) <> ''),
  CONSTRAINT if_it_trips_texts_short CHECK (greatest(length(loses_supply), length(isolated_by), length(called)) <= 300 AND length(noted_by) <= 200),
  CONSTRAINT if_it_trips_hours CHECK (on_site_h BETWEEN 0 AND 168 AND repair_h > 0 AND repair_h <= 1000 AND recall_h >= 0 AND recall_h <= 168),
  CONSTRAINT if_it_trips_says_something CHECK (num_nonnulls(loses_supply, isolated_by, called, on_site_h, repair_h, recall_h) > 0)
);
