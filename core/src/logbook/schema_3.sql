-- Version 3. Heights of the ground for a sheet. A newer grid stands beside the older one; the newest is the one to use.
-- lattice is empty for degrees of WGS 84, else the definition of the grid; the steps run east and south from the north-western post.
CREATE TABLE heights (
  id INTEGER PRIMARY KEY,
  sheet_id INTEGER NOT NULL REFERENCES sheet (id),
  lattice TEXT NOT NULL,
  column_count INTEGER NOT NULL CHECK (column_count >= 2),
  row_count INTEGER NOT NULL CHECK (row_count >= 2),
  west REAL NOT NULL,
  north REAL NOT NULL,
  step_east REAL NOT NULL CHECK (step_east > 0),
  step_south REAL NOT NULL CHECK (step_south > 0),
  sigma_m REAL NOT NULL CHECK (sigma_m >= 0),
  correlation_m REAL NOT NULL CHECK (correlation_m >= 0),
  source TEXT NOT NULL,
  credit TEXT NOT NULL,
  stored_unix_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX heights_of_sheet ON heights (sheet_id, id);

-- Squares of 256 posts, those at the eastern and southern edge smaller. Deflated (RFC 1950); without loss.
-- whole: 16-bit numbers, lowest byte first, each less its western neighbour, -32768 where there is no height.
-- float: 32-bit decimals, lowest byte first, parted into four planes of bytes, each byte less the one before it.
CREATE TABLE height_tile (
  id INTEGER PRIMARY KEY,
  heights_id INTEGER NOT NULL REFERENCES heights (id),
  tile_row INTEGER NOT NULL,
  tile_column INTEGER NOT NULL,
  coding TEXT NOT NULL CHECK (coding IN ('whole', 'float')),
  posts BLOB NOT NULL
) STRICT;
CREATE UNIQUE INDEX tile_of_heights ON height_tile (heights_id, tile_row, tile_column);
