/** Who says so when the Desk does: a tag that anybody placed may be taken off by them. */
export const DISPATCHER = 'dispatcher';
