/** Evenings that are on their way into the log or out of it, in pieces: in no list, and taken out whole where they were left half-way. */
export const partial = `
  CREATE TABLE partial_sessions (
    session INTEGER NOT NULL PRIMARY KEY REFERENCES sessions (id) ON DELETE CASCADE
  ) STRICT;
`;
