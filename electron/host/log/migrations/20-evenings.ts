/** Sessions (evenings), their events as hash chains that only grow, and checkpoints of the folded state. */
export const evenings = `
  CREATE TABLE sessions (
    id INTEGER PRIMARY KEY AUTOINCREMENT,                       -- the number that a user names
    uid TEXT NOT NULL UNIQUE,                                   -- the same in every installation that has it
    railroad INTEGER REFERENCES railroads (id) ON DELETE SET NULL,
    railroad_hash TEXT NOT NULL REFERENCES documents (hash),
    opened_at TEXT NOT NULL,                                    -- RFC 3339
    initial TEXT NOT NULL,                                      -- state before the first event, canonical JSON
    first_link TEXT NOT NULL CHECK (length(first_link) = 64),   -- of uid, railroad_hash, opened_at, initial
    ended_at TEXT,
    name TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT '',
    archived INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1)),
    entries INTEGER NOT NULL DEFAULT 0,                         -- kept by the trigger below, with head
    refusals INTEGER NOT NULL DEFAULT 0,
    alarms INTEGER NOT NULL DEFAULT 0,
    people TEXT NOT NULL DEFAULT '[]',                          -- who had a cab, JSON
    head TEXT NOT NULL CHECK (length(head) = 64)                -- link of the newest event
  ) STRICT;
  CREATE TRIGGER sessions_keep_their_header
    BEFORE UPDATE OF id, uid, railroad_hash, opened_at, initial, first_link ON sessions
    BEGIN SELECT RAISE(ABORT, 'the header of an evening never changes'); END;

  CREATE TABLE events (
    session INTEGER NOT NULL REFERENCES sessions (id),
    entry INTEGER NOT NULL CHECK (entry >= 1),
    at REAL NOT NULL,                                           -- seconds since opened_at
    outcome TEXT NOT NULL CHECK (outcome IN ('done', 'refused', 'alarm')),
    json TEXT NOT NULL,                                         -- canonical JSON of the whole event
    previous TEXT NOT NULL CHECK (length(previous) = 64),
    hash TEXT NOT NULL CHECK (length(hash) = 64),               -- SHA-256 (previous || json)
    PRIMARY KEY (session, entry)
  ) STRICT;
  CREATE TRIGGER events_follow_on BEFORE INSERT ON events
    WHEN NEW.entry <> (SELECT entries + 1 FROM sessions WHERE id = NEW.session)
      OR NEW.previous <> (SELECT head FROM sessions WHERE id = NEW.session)
    BEGIN SELECT RAISE(ABORT, 'an event follows on the one before it'); END;
  CREATE TRIGGER events_move_the_head AFTER INSERT ON events
    BEGIN
      UPDATE sessions SET entries = NEW.entry, head = NEW.hash,
        refusals = refusals + (NEW.outcome = 'refused'), alarms = alarms + (NEW.outcome = 'alarm')
      WHERE id = NEW.session;
    END;
  CREATE TRIGGER events_never_change BEFORE UPDATE ON events
    BEGIN SELECT RAISE(ABORT, 'the log is only added to'); END;

  -- An evening is removed whole or not at all, and that it was is kept.
  CREATE TABLE removed_sessions (
    session INTEGER NOT NULL PRIMARY KEY,
    uid TEXT NOT NULL,
    entries INTEGER NOT NULL,
    head TEXT NOT NULL,
    removed_at TEXT NOT NULL
  ) STRICT;
  CREATE TRIGGER events_never_go BEFORE DELETE ON events
    WHEN NOT EXISTS (SELECT 1 FROM removed_sessions WHERE session = OLD.session)
    BEGIN SELECT RAISE(ABORT, 'the log is only added to'); END;

  -- A cache: the log can always be folded from the start to the same state.
  CREATE TABLE checkpoints (
    session INTEGER NOT NULL REFERENCES sessions (id) ON DELETE CASCADE,
    entry INTEGER NOT NULL,
    state TEXT NOT NULL,                                        -- canonical JSON
    hash TEXT NOT NULL CHECK (length(hash) = 64),               -- SHA-256 of state
    PRIMARY KEY (session, entry)
  ) STRICT, WITHOUT ROWID;
`;
