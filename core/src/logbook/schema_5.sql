-- Version 5. A place held against a fix, as it was typed: what may be wrong with it can be weighed again.
ALTER TABLE witness ADD COLUMN typed TEXT NOT NULL DEFAULT '';
