/** Contrast of two colours as WCAG 2.2 defines it, and the one adjustment we make by it. */

/** A colour as `#rrggbb`. */
export type Hex = `#${string}`;

type Channels = readonly [red: number, green: number, blue: number];

function channelsOf(colour: Hex): Channels {
  const digits = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  if (digits === null) throw new Error(`not a colour of the form #rrggbb: ${colour}`);
  return [digits[1], digits[2], digits[3]].map((pair) =>
    Number.parseInt(pair ?? '', 16),
  ) as unknown as Channels;
}

const hexOf = (channels: Channels): Hex =>
  `#${channels.map((channel) => Math.round(channel).toString(16).padStart(2, '0')).join('')}`;

/**
 * Relative luminance, 0 (black) to 1 (white).
 *
 * Source: WCAG 2.2, definition of relative luminance (0.2126 R + 0.7152 G + 0.0722 B, linear below 0.04045).
 */
export function luminance(colour: Hex): number {
  const [red, green, blue] = channelsOf(colour).map((channel) => {
    const c = channel / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as unknown as Channels;
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio, 1 to 21, whichever colour is the lighter. Source: WCAG 2.2, (L1 + 0.05) / (L2 + 0.05). */
export function contrastRatio(one: Hex, other: Hex): number {
  const [lighter, darker] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (lighter + 0.05) / (darker + 0.05);
}

/** One colour laid over another, `share` (0 to 1) of it showing. */
export function mixed(over: Hex, under: Hex, share: number): Hex {
  const [top, bottom] = [channelsOf(over), channelsOf(under)];
  return hexOf(
    top.map((channel, i) => channel * share + (bottom[i] ?? 0) * (1 - share)) as unknown as Channels,
  );
}

/**
 * A colour mixed with white, only as far as is needed to stand out from a ground.
 *
 * @param least the contrast ratio to reach
 * @returns the colour itself if it reaches it already; white if nothing less does
 */
export function lightenedUntil(colour: Hex, ground: Hex, least: number): Hex {
  for (let share = 0; share < 100; share += 1) {
    const lighter = mixed('#ffffff', colour, share / 100);
    if (contrastRatio(lighter, ground) >= least) return lighter;
  }
  return '#ffffff';
}
