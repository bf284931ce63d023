/** What the user set, and named documents of any kind that are kept (rehearsals, acknowledged cautions). */
export const kept = `
  CREATE TABLE settings (
    name TEXT NOT NULL PRIMARY KEY,
    json TEXT NOT NULL
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE kept (
    kind TEXT NOT NULL,
    id TEXT NOT NULL,
    at TEXT NOT NULL,                                           -- RFC 3339
    json TEXT NOT NULL,
    PRIMARY KEY (kind, id)
  ) STRICT, WITHOUT ROWID;
`;
