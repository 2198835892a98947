-- Version 6. Whether heights are counted from the ellipsoid (1) and not from the sea (0): an altimeter cannot be held against them then.
ALTER TABLE heights ADD COLUMN ellipsoidal INTEGER NOT NULL DEFAULT 0 CHECK (ellipsoidal IN (0, 1));
