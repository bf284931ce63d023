/** The three themes as data: every colour that the screens use, by the job it does. Nothing else names a colour. */
import { CAB_HUES, huesOn, WRONG_HUE } from './cabs.ts';
import { contrastRatio, type Hex, lightenedUntil } from './contrast.ts';

export const THEME_NAMES = ['dark', 'light', 'contrast'] as const;
export type ThemeName = (typeof THEME_NAMES)[number];

export interface Theme {
  /** What everything lies on. */
  readonly ground: Hex;
  /** A field one can type into, a control at rest. */
  readonly raised: Hex;
  /** A control under the pointer or pressed. */
  readonly pressed: Hex;
  readonly text: Hex;
  /** Words that are looked for, not looked at. */
  readonly quiet: Hex;
  /** Lines between zones: they part, and mean nothing. */
  readonly rule: Hex;
  /** The outline of something that can be pressed or typed into. */
  readonly outline: Hex;
  readonly focus: Hex;
  /** Track that is nobody's. */
  readonly track: Hex;
  readonly wrong: Hex;
  /** The dark line round a coloured core where the core alone would not stand out from the ground. */
  readonly casing: Hex;
  /** Cabs 1 to 6. */
  readonly cabs: readonly Hex[];
  /** Letters and marks on a surface of a cab's colour. */
  readonly onCabs: readonly Hex[];
}

/** Whichever of two inks stands out more from a surface. */
const inkOn = (surface: Hex, inks: readonly [Hex, Hex]): Hex =>
  contrastRatio(inks[0], surface) >= contrastRatio(inks[1], surface) ? inks[0] : inks[1];

function theme(base: Omit<Theme, 'cabs' | 'onCabs' | 'wrong'>, cabs: readonly Hex[], wrong: Hex): Theme {
  const inks: readonly [Hex, Hex] = [base.ground, base.text];
  return { ...base, cabs, onCabs: cabs.map((hue) => inkOn(hue, inks)), wrong };
}

const DARK_GROUND: Hex = '#0c0e10';
const BLACK: Hex = '#000000';
const WHITE: Hex = '#ffffff';

export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  /** For a dim room: no pure white, the least light that reads well. */
  dark: theme(
    {
      ground: DARK_GROUND,
      raised: '#181c1f',
      pressed: '#272d31',
      text: '#cbcfd1',
      quiet: '#959da2',
      rule: '#2b3135',
      outline: '#707a80',
      focus: '#e4e7e8',
      track: '#7b858b',
      casing: DARK_GROUND,
    },
    huesOn(DARK_GROUND, 4.5),
    lightenedUntil(WRONG_HUE, DARK_GROUND, 5),
  ),
  light: theme(
    {
      ground: '#f3f4f2',
      raised: '#ffffff',
      pressed: '#dcdfdd',
      text: '#15181a',
      quiet: '#4f575c',
      rule: '#c5cac9',
      outline: '#6b7479',
      focus: '#15181a',
      track: '#687177',
      casing: '#15181a',
    },
    CAB_HUES,
    WRONG_HUE,
  ),
  contrast: theme(
    {
      ground: BLACK,
      raised: BLACK,
      pressed: '#333333',
      text: '#ffffff',
      quiet: '#d9d9d9',
      rule: '#8c8c8c',
      outline: '#ffffff',
      focus: '#ffffff',
      track: '#c4c4c4',
      casing: BLACK,
    },
    huesOn(BLACK, 7),
    lightenedUntil(WRONG_HUE, BLACK, 7),
  ),
};

/**
 * The theme that is shown. Where the system asks for more contrast the dark theme gives way to the high-contrast one; the light one, for
 * a bright room, stays light and has nothing that is said quietly.
 */
export function themeFor(name: ThemeName, moreContrast: boolean): Theme {
  if (!moreContrast) return THEMES[name];
  if (name !== 'light') return THEMES.contrast;
  const { light } = THEMES;
  return {
    ...light,
    ground: WHITE,
    quiet: light.text,
    outline: light.text,
    rule: light.track,
    track: light.quiet,
  };
}

/** What is printed is ink on paper, whatever the theme of the screen. */
const PAPER = { paper: '#ffffff', ink: BLACK, 'ink-quiet': '#222222', 'ink-rule': '#888888' } as const;

/**
 * A theme as CSS custom properties.
 *
 * @returns pairs of property and value: `--ground`, `--text`, … , `--cab-1` to `--cab-6`, `--on-cab-1` to `--on-cab-6`; and
 * for what is printed `--paper`, `--ink`, `--ink-quiet`, `--ink-rule`
 */
export function customProperties(theme: Theme): readonly (readonly [`--${string}`, string])[] {
  const { cabs, onCabs, ...plain } = theme;
  return [
    ...Object.entries(plain).map(([job, colour]) => [`--${job}`, colour] as const),
    ...cabs.map((hue, i) => [`--cab-${i + 1}`, hue] as const),
    ...Object.entries(PAPER).map(([job, colour]) => [`--${job}`, colour] as const),
    ...onCabs.map((ink, i) => [`--on-cab-${i + 1}`, ink] as const),
  ];
}
