import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contrastRatio, type Hex } from '../../renderer/theme/contrast.ts';
import { customProperties, THEME_NAMES, THEMES, type Theme, themeFor } from '../../renderer/theme/themes.ts';

/** What letters need (WCAG 2.2, 1.4.3) and what lines and controls need (1.4.11). High contrast: 1.4.6. */
const LETTERS = { dark: 4.5, light: 4.5, contrast: 7 } as const;
const LINES = 3;

interface Pair {
  readonly what: string;
  readonly over: Hex;
  readonly under: Hex;
}

/** Every pair of letters and what they stand on. */
const letterPairs = (theme: Theme): readonly Pair[] => [
  { what: 'text on the ground', over: theme.text, under: theme.ground },
  { what: 'text in a field', over: theme.text, under: theme.raised },
  { what: 'text on a pressed control', over: theme.text, under: theme.pressed },
  { what: 'text of a chosen option, of the next thing on the board', over: theme.ground, under: theme.text },
  { what: 'quiet text on the ground', over: theme.quiet, under: theme.ground },
  { what: 'quiet text in a field', over: theme.quiet, under: theme.raised },
  { what: 'quiet text on a pressed control', over: theme.quiet, under: theme.pressed },
  { what: "the name of a train that is nobody's", over: theme.ground, under: theme.track },
  ...theme.cabs.flatMap((hue, i) => [
    { what: `number and train name of cab ${i + 1}`, over: theme.onCabs[i] ?? hue, under: hue },
    { what: `number in the inverted badge of cab ${i + 1}`, over: hue, under: theme.onCabs[i] ?? hue },
  ]),
];

/** Every pair of a line, an outline or a mark and what it lies on, where no casing stands between. */
const linePairs = (theme: Theme): readonly Pair[] => [
  { what: 'open track', over: theme.track, under: theme.ground },
  { what: 'the lips of a gap, the end of track', over: theme.quiet, under: theme.ground },
  { what: 'the blade and ring of a turnout', over: theme.text, under: theme.ground },
  { what: 'a tag', over: theme.text, under: theme.ground },
  { what: 'hatching, outlines of what is wrong', over: theme.wrong, under: theme.ground },
  { what: 'the focus', over: theme.focus, under: theme.ground },
  { what: 'the focus round a field', over: theme.focus, under: theme.raised },
  { what: 'the outline of a control on the ground', over: theme.outline, under: theme.ground },
  { what: 'the outline of a control round its inside', over: theme.outline, under: theme.raised },
];

/** Cores that have a casing: each must stand out from the ground itself, or its casing must from both. */
const casedCores = (theme: Theme): readonly Pair[] => [
  ...theme.cabs.map((hue, i) => ({ what: `a line of cab ${i + 1}`, over: hue, under: theme.ground })),
  { what: "a line that is nobody's", over: theme.track, under: theme.ground },
  { what: 'a bar over a gap, a disputed block', over: theme.wrong, under: theme.ground },
];

describe.each(THEME_NAMES)('the theme %s where the system asks for more contrast', (name) => {
  const theme = themeFor(name, true);

  it('has every letter at 7 to 1 or more, and every line and mark at 3 to 1', () => {
    const weak = [
      ...letterPairs({ ...theme, cabs: [], onCabs: [] }).filter(
        ({ over, under }) => contrastRatio(over, under) < LETTERS.contrast,
      ),
      ...linePairs(theme).filter(({ over, under }) => contrastRatio(over, under) < LINES),
    ].map(({ what }) => what);
    expect(weak).toEqual([]);
  });

  it('stays light in a bright room, and says nothing quietly', () => {
    expect(theme.quiet).toBe(name === 'light' ? THEMES.light.text : THEMES.contrast.quiet);
    expect(themeFor(name, false)).toBe(THEMES[name]);
  });
});

describe.each(THEME_NAMES)('the theme %s', (name) => {
  const theme = THEMES[name];

  it.each(letterPairs(theme))(`shows $what at ${LETTERS[name]} to 1 or more`, ({ over, under }) => {
    expect(contrastRatio(over, under)).toBeGreaterThanOrEqual(LETTERS[name]);
  });

  it.each(linePairs(theme))('shows $what at 3 to 1 or more', ({ over, under }) => {
    expect(contrastRatio(over, under)).toBeGreaterThanOrEqual(LINES);
  });

  it.each(casedCores(theme))('shows $what, by itself or by its casing', ({ over, under }) => {
    const alone = contrastRatio(over, under) >= LINES;
    const cased = contrastRatio(theme.casing, under) >= LINES && contrastRatio(over, theme.casing) >= LINES;
    expect(alone || cased).toBe(true);
  });

  it('shows the two lines of a lined block apart, for each cab', () => {
    for (const hue of theme.cabs) expect(contrastRatio(hue, theme.casing)).toBeGreaterThanOrEqual(LINES);
  });

  it('has six hues for cabs, no two alike, none of them that of what is wrong', () => {
    expect(new Set([...theme.cabs, theme.wrong]).size).toBe(7);
  });
});

describe('the dark theme', () => {
  it('has no pure white, and reaches 4.5 to 1 with every cab', () => {
    const { cabs, onCabs: _, ...plain } = THEMES.dark;
    expect(Object.values(plain)).not.toContain('#ffffff');
    for (const hue of cabs) expect(contrastRatio(hue, THEMES.dark.ground)).toBeGreaterThanOrEqual(4.5);
  });
});

/** All style sheets of the screens, by name. */
const styleSheets = (): readonly (readonly [string, string])[] =>
  readdirSync('renderer', { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.css'))
    .map((file) => [file, readFileSync(join('renderer', file), 'utf8').replaceAll(/\/\*[\s\S]*?\*\//g, '')]);

const LOCAL = /--[\w-]+(?=\s*:)/g;
const USED = /var\((--[\w-]+)/g;

describe('the style sheets', () => {
  it.each(styleSheets())('%s names no colour, gradient, shadow or endless motion of its own', (_, css) => {
    expect(css).not.toMatch(/#[0-9a-f]{3,8}\b(?=[^{]*;)/i);
    expect(css).not.toMatch(
      /\b(rgba?|hsla?|oklch|color-mix)\(|gradient\(|box-shadow|text-shadow|drop-shadow|infinite/i,
    );
    expect(css).not.toMatch(/:\s*(white|black|red|green|blue|yellow|orange|grey|gray)\b/i);
  });

  it('use only custom properties that a theme, the letter sizes or a style sheet sets', () => {
    const sheets = styleSheets().map(([, css]) => css);
    const known = new Set<string>([
      ...customProperties(THEMES.dark).map(([property]) => property),
      '--far',
      '--desk',
      '--fine',
      ...sheets.flatMap((css) => [...css.matchAll(LOCAL)].map(([property]) => property)),
    ]);
    const used = sheets.flatMap((css) => [...css.matchAll(USED)].map((match) => match[1] ?? ''));
    expect(used.length).toBeGreaterThan(50);
    expect(used.filter((property) => !known.has(property))).toEqual([]);
  });
});
