/** The three sizes of letters, worked out from the screen and from where its reader is. */

/** The screen, its resolution in CSS pixels, and the distances in millimetres from which it is read. */
export interface Viewing {
  readonly screenInches: number;
  readonly screenPx: readonly [width: number, height: number];
  readonly deskMm: number;
  readonly farMm: number;
}

/** Font sizes in CSS pixels: *far* for what is read across the room, *desk* at arm's length, *fine* for what can wait. */
export interface LetterSizes {
  readonly far: number;
  readonly desk: number;
  readonly fine: number;
}

/**
 * Visual angle of a capital letter, in minutes of arc.
 *
 * Source: NUREG-0700 rev. 2, guideline 1.3.1-4: 16 to 24, of which 20 to 22 preferred for reading.
 */
export const READING_ARCMIN = 20;
export const LEAST_ARCMIN = 16;

/** Height of the capitals of B612 in parts of its font size: 1500 of 2000 units (its OS/2 table, sCapHeight). */
export const CAP_HEIGHT_RATIO = 0.75;

/** Height in millimetres of a letter that is seen under `arcmin` minutes of arc from `distanceMm`: 2 d tan(a / 2). */
export function letterMm(arcmin: number, distanceMm: number): number {
  return 2 * distanceMm * Math.tan((arcmin / 60) * (Math.PI / 180) * 0.5);
}

/** CSS pixels in a millimetre of a screen, from its diagonal. */
export function pxPerMm({
  screenInches,
  screenPx: [width, height],
}: Pick<Viewing, 'screenInches' | 'screenPx'>): number {
  return Math.hypot(width, height) / (screenInches * 25.4);
}

/** Rounded up to an even number of pixels, so that a line of letters is centred on whole pixels and never too small. */
const evenPx = (px: number): number => 2 * Math.ceil(px / 2 - 1e-9);

/**
 * The font sizes for a screen and its reader.
 *
 * @returns CSS pixels. The capitals of *far* and *desk* are seen under at least 20 minutes of arc from `farMm` and `deskMm`, those of *fine* under 16 from `deskMm`.
 */
export function letterSizes(viewing: Viewing): LetterSizes {
  const perMm = pxPerMm(viewing);
  const fontPx = (arcmin: number, distanceMm: number) =>
    evenPx((letterMm(arcmin, distanceMm) * perMm) / CAP_HEIGHT_RATIO);
  return {
    far: fontPx(READING_ARCMIN, viewing.farMm),
    desk: fontPx(READING_ARCMIN, viewing.deskMm),
    fine: fontPx(LEAST_ARCMIN, viewing.deskMm),
  };
}
