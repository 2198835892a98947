-- Version 1. Everything observed; what is computed can be computed again.
CREATE TABLE sheet (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  draft TEXT NOT NULL CHECK (json_valid(draft)),
  carried_unix_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE trip (
  id INTEGER PRIMARY KEY,
  sheet_id INTEGER NOT NULL REFERENCES sheet (id),
  opened_unix_ms INTEGER NOT NULL
) STRICT;

-- One line of the field book. A correction strikes it (strike) and adds another.
CREATE TABLE entry (
  id INTEGER PRIMARY KEY,
  trip_id INTEGER NOT NULL REFERENCES trip (id),
  at_unix_ms INTEGER NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('pace', 'fix', 'check', 'keep', 'leg', 'turn-round', 'reached', 'close'))
) STRICT;
CREATE INDEX entry_of_trip ON entry (trip_id, id);

CREATE TABLE strike (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  at_unix_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE pace (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  double_per_100_m REAL NOT NULL,
  spread_share REAL NOT NULL
) STRICT;

-- The place is what the sightings gave on the day; it can be computed again from them.
CREATE TABLE fix (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  line TEXT NOT NULL,
  instrument TEXT NOT NULL,
  lat_deg REAL NOT NULL,
  lon_deg REAL NOT NULL,
  along_m REAL NOT NULL,
  spread_along_m REAL NOT NULL
) STRICT;

CREATE TABLE sighting (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  landmark TEXT NOT NULL,
  bearing_deg REAL NOT NULL,
  north TEXT NOT NULL CHECK (north IN ('mag', 'grid', 'true')),
  spread_deg REAL
) STRICT;
CREATE INDEX sighting_of_entry ON sighting (entry_id, id);

-- An independent place held against the fix before it: a witness, not mixed in.
CREATE TABLE witness (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  lat_deg REAL NOT NULL,
  lon_deg REAL NOT NULL,
  spread_m REAL NOT NULL
) STRICT;

CREATE TABLE kept (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  fix_entry_id INTEGER NOT NULL REFERENCES entry (id),
  stretch INTEGER NOT NULL CHECK (stretch >= 1)
) STRICT;

CREATE TABLE leg (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  bearing_deg REAL NOT NULL,
  north TEXT NOT NULL CHECK (north IN ('mag', 'grid', 'true')),
  distance REAL NOT NULL CHECK (distance > 0),
  unit TEXT NOT NULL CHECK (unit IN ('m', 'single', 'double')),
  detour_side TEXT CHECK (detour_side IN ('left', 'right')),
  detour_distance REAL CHECK (detour_distance > 0),
  detour_unit TEXT CHECK (detour_unit IN ('m', 'single', 'double')),
  met TEXT
) STRICT;

-- What is half typed, so that it is there again after a kill. Not an entry of the field book: it is replaced.
CREATE TABLE draft (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  text TEXT NOT NULL
) STRICT;
