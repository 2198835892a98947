-- Version 4. Sightings of every kind, each as it came in; and all the lines that a fix could have been on.
CREATE TABLE sighting_4 (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  observed TEXT NOT NULL CHECK (json_valid(observed))
) STRICT;
INSERT INTO sighting_4 (id, entry_id, observed)
  SELECT id, entry_id, json_object('what', 'bearing', 'landmark', landmark,
    'bearing', printf('%.10f %s', bearing_deg, north), 'spread_deg', spread_deg) FROM sighting;
DROP TABLE sighting;
ALTER TABLE sighting_4 RENAME TO sighting;
CREATE INDEX sighting_of_entry ON sighting (entry_id, id);

-- Names with the walker's odds or null.
ALTER TABLE fix ADD COLUMN lines TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(lines));
UPDATE fix SET lines = json_array(json_array(line, NULL));
