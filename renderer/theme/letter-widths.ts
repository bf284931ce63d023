/**
 * How wide words are in B612, known without drawing them, so that names can be laid out before they are shown.
 * Source: advance widths of the fonts in @fontsource/b612 5.3.0 (their hmtx tables), in thousandths of the font size;
 * regular and bold have the same ones.
 */

/** From the space (U+0020) to the tilde (U+007E). */
const WIDTHS = [
  350, 350, 400, 850, 550, 900, 700, 200, 450, 450, 550, 600, 250, 450, 300, 550, 650, 650, 650, 650, 650,
  650, 650, 650, 650, 650, 300, 250, 650, 500, 650, 550, 1000, 650, 650, 600, 650, 600, 550, 650, 700, 300,
  450, 600, 550, 900, 750, 800, 600, 800, 650, 550, 600, 700, 650, 950, 650, 600, 600, 450, 550, 500, 750,
  550, 550, 525, 600, 500, 600, 550, 400, 600, 600, 300, 300, 550, 350, 900, 600, 600, 600, 600, 400, 450,
  400, 600, 550, 750, 550, 550, 500, 649, 200, 600, 750,
] as const;

const FIRST = 0x20;
/** For letters beyond ASCII, as wide as a wide capital. */
const OTHER = 800;

/** Width of words in pixels, kerning not counted. */
export function wordsPx(words: string, fontPx: number): number {
  const widths: readonly number[] = WIDTHS;
  let sum = 0;
  for (const letter of words) sum += widths[(letter.codePointAt(0) ?? 0) - FIRST] ?? OTHER;
  return (sum / 1000) * fontPx;
}
