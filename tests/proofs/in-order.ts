/** A value with the keys of its records in order, so that two of them can be compared as text. */
export function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, one]) => [key, inOrder(one)]),
  );
}

/** What is compared of a state: the answer of `rehearse`, standing alarms in any order. */
export function shownState(
  answer: object & { readonly alarms: readonly { code: string; about: readonly string[] }[] },
): Record<string, unknown> {
  const alarms = answer.alarms.map(({ code, about }) => `${code} ${about.join(' ')}`).sort();
  return inOrder({ ...answer, alarms }) as Record<string, unknown>;
}
