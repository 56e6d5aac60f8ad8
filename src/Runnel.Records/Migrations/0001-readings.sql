-- A channel is known to the outside by its id; inside, a small number keeps every row short.
CREATE TABLE channel (
  number INTEGER PRIMARY KEY,
  id     TEXT NOT NULL UNIQUE
) STRICT;

-- Closed hours, packed. A block begins in the hour of its key and reaches to the next block of its channel.
-- key = channel number * 2^32 + hour, the hour counted from 1970 and raised by 2^31 so that it is never negative.
-- Not WITHOUT ROWID: rows of this length would spill into overflow pages there.
CREATE TABLE block (
  key       INTEGER PRIMARY KEY,
  last_time INTEGER NOT NULL,   -- of its last reading, in 100 ns since 1970, UTC
  count     INTEGER NOT NULL,
  low       REAL NOT NULL,
  high      REAL NOT NULL,
  total     REAL NOT NULL,
  readings  BLOB NOT NULL
) STRICT;

-- The newest readings of each channel, one row each, until their hours are closed and packed.
CREATE TABLE fresh (
  channel INTEGER NOT NULL REFERENCES channel (number),
  time    INTEGER NOT NULL,     -- 100 ns since 1970, UTC
  value   REAL NOT NULL,
  PRIMARY KEY (channel, time)
) WITHOUT ROWID, STRICT;
