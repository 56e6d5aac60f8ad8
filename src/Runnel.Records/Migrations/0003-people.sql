-- How an entry read before it was changed, who changed it and when. The entry itself keeps its number.
CREATE TABLE daybook_before (
  number     INTEGER PRIMARY KEY,
  of_entry   INTEGER NOT NULL REFERENCES daybook (number),
  changed    INTEGER NOT NULL,  -- 100 ns since 1970, UTC
  changed_by TEXT NOT NULL DEFAULT '',
  time       INTEGER NOT NULL,
  entry      TEXT NOT NULL,
  of         TEXT NOT NULL DEFAULT '',
  litres     REAL,
  by         TEXT NOT NULL DEFAULT '',
  note       TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX daybook_before_entry ON daybook_before (of_entry);

-- A log that is read in again must not bring back what was corrected.
CREATE INDEX daybook_before_time ON daybook_before (time);

ALTER TABLE daybook ADD COLUMN struck INTEGER NOT NULL DEFAULT 0;  -- 1: taken back; it stays to be seen
ALTER TABLE daybook ADD COLUMN written INTEGER;                    -- when it was written down; null: read in from a file
ALTER TABLE daybook ADD COLUMN until INTEGER;                      -- of work: when it was meant to end

-- What people said about a notice or a question. The last word holds; the others stay.
CREATE TABLE said (
  number INTEGER PRIMARY KEY,
  about  TEXT NOT NULL,          -- key of the notice or question
  at     INTEGER NOT NULL,       -- 100 ns since 1970, UTC
  word   TEXT NOT NULL,          -- acknowledged, answered
  was    TEXT NOT NULL DEFAULT '',
  by     TEXT NOT NULL DEFAULT '',
  note   TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX said_about ON said (about);
