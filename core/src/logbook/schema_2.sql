-- Version 2. A compass that was checked. Which kinds of entry there are is held by the program from here on, so that a new
-- kind needs no new table of entries.
CREATE TABLE entry_2 (
  id INTEGER PRIMARY KEY,
  trip_id INTEGER NOT NULL REFERENCES trip (id),
  at_unix_ms INTEGER NOT NULL,
  kind TEXT NOT NULL
) STRICT;
INSERT INTO entry_2 (id, trip_id, at_unix_ms, kind) SELECT id, trip_id, at_unix_ms, kind FROM entry;
DROP TABLE entry;
ALTER TABLE entry_2 RENAME TO entry;
CREATE INDEX entry_of_trip ON entry (trip_id, id);

-- What was read stands in observed as it came in; the rest is what it gave on the day.
CREATE TABLE compass (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  instrument TEXT NOT NULL,
  error_deg REAL NOT NULL,
  error_spread_deg REAL NOT NULL CHECK (error_spread_deg > 0),
  reading_spread_deg REAL CHECK (reading_spread_deg > 0),
  observed TEXT NOT NULL CHECK (json_valid(observed))
) STRICT;
