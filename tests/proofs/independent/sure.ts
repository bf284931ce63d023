/** What is there by the way the tables are made; a hole in them is a fault of this implementation and ends it. */
export function sure<T>(value: T | null | undefined): T {
  if (value === null || value === undefined) throw new Error('a hole in the tables');
  return value;
}
