/** Where the refusals and alarms of an evening are, and what was taken back: found at once in an evening of any length. */
export const marks = `
  CREATE INDEX events_marked ON events (session, entry, outcome) WHERE outcome <> 'done';
  CREATE INDEX events_retracting ON events (session, entry) WHERE instr(json, '"do":"retract"') > 0;
`;
