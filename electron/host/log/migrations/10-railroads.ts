/** Railroad documents by content hash, and the library of railroads with its versions and drafts. */
export const railroads = `
  CREATE TABLE documents (
    hash TEXT NOT NULL PRIMARY KEY CHECK (length(hash) = 64),  -- SHA-256 of json
    json TEXT NOT NULL                                          -- canonical
  ) STRICT, WITHOUT ROWID;
  CREATE TRIGGER documents_never_change BEFORE UPDATE ON documents
    BEGIN SELECT RAISE(ABORT, 'a stored railroad document never changes'); END;

  CREATE TABLE railroads (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL,
    demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
    changed_at TEXT NOT NULL                                    -- RFC 3339
  ) STRICT;

  CREATE TABLE railroad_versions (
    railroad INTEGER NOT NULL REFERENCES railroads (id) ON DELETE CASCADE,
    version INTEGER NOT NULL CHECK (version >= 1),
    hash TEXT NOT NULL REFERENCES documents (hash),
    note TEXT NOT NULL,
    at TEXT NOT NULL,
    PRIMARY KEY (railroad, version)
  ) STRICT, WITHOUT ROWID;

  -- A draft may be broken: it is kept as it was sent, and never run.
  CREATE TABLE railroad_drafts (
    railroad INTEGER NOT NULL PRIMARY KEY REFERENCES railroads (id) ON DELETE CASCADE,
    json TEXT NOT NULL
  ) STRICT;
`;
