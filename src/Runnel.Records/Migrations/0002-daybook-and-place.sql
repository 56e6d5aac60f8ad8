CREATE TABLE daybook (
  number INTEGER PRIMARY KEY,
  time   INTEGER NOT NULL,      -- 100 ns since 1970, UTC
  entry  TEXT NOT NULL,
  of     TEXT NOT NULL DEFAULT '',
  litres REAL,
  by     TEXT NOT NULL DEFAULT '',
  note   TEXT NOT NULL DEFAULT ''
) STRICT;

-- The same entry read in again is the same entry. A null amount would never equal another, hence the stand-in.
CREATE UNIQUE INDEX daybook_once ON daybook (time, entry, of, by, note, ifnull(litres, 'none'));

-- Each text of the place file that was in force, so that old findings can be understood later.
CREATE TABLE place (
  number INTEGER PRIMARY KEY,
  since  INTEGER NOT NULL,      -- 100 ns since 1970, UTC
  text   TEXT NOT NULL
) STRICT;
