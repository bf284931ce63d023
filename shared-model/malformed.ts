/** Malformed input in words: where it is wrong, and what was expected there. One problem, the first, in one line. */
import type { z } from './zod.ts';

/** `path` is a JSON path ("$.blocks[2].source"), `says` what was expected there. */
export interface Malformed {
  readonly path: string;
  readonly says: string;
}
export type Parsed<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly malformed: Malformed };

const MAX_DEPTH = 64;

/** The JSON path of a place: `$`, then `.name` and `[index]`. */
export function jsonPath(path: readonly PropertyKey[]): string {
  const step = (part: PropertyKey) =>
    typeof part === 'number'
      ? `[${part}]`
      : /^[A-Za-z_][\w-]*$/.test(String(part))
        ? `.${String(part)}`
        : `[${JSON.stringify(String(part))}]`;
  return `$${path.map(step).join('')}`;
}

interface Found {
  readonly path: readonly PropertyKey[];
  readonly says: string;
}

/** How far a branch of a union is from what was given: unknown fields and a wrong kind of value weigh most. */
function distance(branch: readonly z.core.$ZodIssue[]): number {
  return branch.reduce((sum, issue) => {
    if (issue.code === 'unrecognized_keys') return sum + 10 * issue.keys.length;
    return sum + (issue.path.length === 0 ? 20 : 1);
  }, 0);
}

const quoted = (values: readonly unknown[]) => values.map((value) => JSON.stringify(value)).join(', ');

function firstOf(issue: z.core.$ZodIssue, base: readonly PropertyKey[]): Found {
  const path = [...base, ...issue.path];
  if (issue.message.startsWith('expected ')) return { path, says: issue.message };
  switch (issue.code) {
    case 'invalid_union': {
      if (issue.errors.length === 0 && 'options' in issue && Array.isArray(issue.options))
        return { path, says: `expected one of ${quoted(issue.options)}` };
      const branches = [...issue.errors].sort((one, other) => distance(one) - distance(other));
      const nearest = branches[0]?.[0];
      if (nearest !== undefined && branches[0]?.every((inner) => inner.path.length === 0)) {
        const each = branches
          .filter((branch) => branch.every((inner) => inner.path.length === 0))
          .flatMap((branch) => branch.slice(0, 1).map((inner) => firstOf(inner, path).says));
        return { path, says: [...new Set(each)].join(', or ') };
      }
      return nearest === undefined ? { path, says: issue.message } : firstOf(nearest, path);
    }
    case 'unrecognized_keys':
      return {
        path: [...path, issue.keys[0] ?? ''],
        says: `expected no such field, "${issue.keys[0]}" is unknown here`,
      };
    case 'invalid_type': {
      const missing = issue.message.endsWith('received undefined');
      const received = issue.message.replace(/^.*received /, '');
      if (issue.expected === 'int' && received === 'number') return { path, says: 'expected a whole number' };
      return {
        path,
        says: `expected ${wordFor(issue.expected)}, ${missing ? 'but it is missing' : `not ${received}`}`,
      };
    }
    case 'invalid_value':
      return { path, says: `expected ${issue.values.length === 1 ? '' : 'one of '}${quoted(issue.values)}` };
    case 'too_small':
      return {
        path,
        says: `expected ${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${unitOf(issue.origin)}`,
      };
    case 'too_big':
      return {
        path,
        says: `expected ${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${unitOf(issue.origin)}`,
      };
    case 'invalid_key': {
      const inner = issue.issues[0];
      return inner === undefined ? { path, says: issue.message } : firstOf(inner, path);
    }
    default:
      return { path, says: issue.message };
  }
}

/** The schema library's word for a kind of value, as somebody says it who writes JSON. */
const wordFor = (expected: string) =>
  expected === 'int' ? 'a whole number' : expected === 'record' ? 'object' : expected;

const unitOf = (origin: string) => (origin === 'string' ? ' characters' : origin === 'array' ? ' items' : '');

/** Everything that a schema found wrong, each as a place and a sentence. */
export function everyMalformed(error: z.core.$ZodError): readonly Malformed[] {
  return error.issues.map((issue) => {
    const found = firstOf(issue, []);
    return { path: jsonPath(found.path), says: found.says };
  });
}

/** The first thing that a schema found wrong, as a place and a sentence. */
export const firstMalformed = (error: z.core.$ZodError): Malformed =>
  everyMalformed(error)[0] ?? { path: '$', says: 'expected something else' };

/** Parses a value by a schema; the answer is the value, or the first place that is wrong. */
export function parseValue<Value>(schema: z.ZodType<Value>, value: unknown): Parsed<Value> {
  const result = schema.safeParse(value);
  return result.success
    ? { ok: true, value: result.data }
    : { ok: false, malformed: firstMalformed(result.error) };
}

/** Line and column, both from 1, of an offset in a text. */
export function lineAndColumn(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
}

/** Where a short text stops being the beginning of JSON: behind the longest first part of it of which the engine does not complain alike. */
function firstBadToken(text: string, complaint: string): number {
  const complainsOf = (part: string): boolean => {
    try {
      JSON.parse(part);
      return false;
    } catch (error) {
      return error instanceof Error && error.message.startsWith(complaint);
    }
  };
  let length = text.length - 1;
  while (length > 0 && complainsOf(text.slice(0, length))) length -= 1;
  return length;
}

/**
 * Where the engine's message says that a text is wrong: it gives an offset, or else an excerpt, which is the whole of a short text
 * and begins ten characters before the place in a long one.
 */
function offsetIn(text: string, message: string): number {
  const position = /at position (\d+)/.exec(message)?.[1];
  if (position !== undefined) return Number(position);
  const excerpt = /^(.*?), (\.\.\.)?"([\s\S]*?)"(\.\.\.)? is not valid JSON$/s.exec(message);
  if (excerpt?.[1] === undefined || excerpt[3] === undefined) return text.length;
  if (excerpt[2] === undefined) return firstBadToken(text.slice(0, excerpt[3].length), excerpt[1]);
  const start = text.indexOf(excerpt[3]);
  return start < 0 ? text.length : start + 10;
}

/**
 * Parses the text of a JSON document; a leading byte order mark is passed over.
 *
 * @param placeOf line and column of an offset, where the text is only a part of what the user knows
 * @returns the value; where the text is no JSON, `path` is "line L column C"
 */
export function parseJson(
  text: string,
  placeOf?: (offset: number) => { readonly line: number; readonly column: number },
): Parsed<unknown> {
  const bare = text.startsWith('\ufeff') ? text.slice(1) : text;
  try {
    return { ok: true, value: JSON.parse(bare) as unknown };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const cause = message.replace(/ \(line \d+ column \d+\)$/, '').replace(/ at position \d+$/, '');
    if (bare.trim() === '')
      return {
        ok: false,
        malformed: { path: 'line 1 column 1', says: 'expected a JSON document, the text is empty' },
      };
    const offset = offsetIn(bare, message);
    const { line, column } = placeOf?.(offset) ?? lineAndColumn(bare, offset);
    const oneLine = cause.replace(/\s+/g, ' ');
    return {
      ok: false,
      malformed: { path: `line ${line} column ${column}`, says: `expected valid JSON: ${oneLine}` },
    };
  }
}

/**
 * Whether a JSON value can be kept as canonical JSON (RFC 8785) and is not nested beyond reason.
 *
 * A lone surrogate has no UTF-8 form, so it could be neither hashed nor stored as it was sent.
 *
 * @returns null when it can; else the place and what was expected
 */
export function unkeepable(value: unknown): Malformed | null {
  const walk = (at: unknown, path: readonly PropertyKey[]): Malformed | null => {
    if (path.length > MAX_DEPTH)
      return { path: jsonPath(path), says: `expected at most ${MAX_DEPTH} levels of nesting` };
    if (typeof at === 'string' && /\p{Surrogate}/u.test(at))
      return { path: jsonPath(path), says: 'expected well-formed Unicode text' };
    if (Array.isArray(at)) {
      for (const [index, item] of at.entries()) {
        const bad = walk(item, [...path, index]);
        if (bad !== null) return bad;
      }
    } else if (typeof at === 'object' && at !== null)
      for (const [key, item] of Object.entries(at)) {
        const bad = walk(key, [...path, key]) ?? walk(item, [...path, key]);
        if (bad !== null) return bad;
      }
    return null;
  };
  return walk(value, []);
}
