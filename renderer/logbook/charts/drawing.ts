/** A chart as a list of shapes: drawn alike on the screen, in an SVG file and in a PNG. */

/** A colour by its job, as the themes name it. */
export type Paint =
  | 'text'
  | 'quiet'
  | 'rule'
  | 'outline'
  | 'track'
  | 'wrong'
  | 'casing'
  | 'ground'
  | `cab-${number}`
  | `on-cab-${number}`;

export interface RectShape {
  readonly kind: 'rect';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly fill?: Paint;
  readonly stroke?: Paint;
  readonly dash?: string;
}
export interface LineShape {
  readonly kind: 'line';
  readonly points: readonly (readonly [number, number])[];
  readonly stroke: Paint;
  readonly width: number;
  readonly dash?: string;
}
export interface TextShape {
  readonly kind: 'text';
  readonly x: number;
  readonly y: number;
  readonly says: string;
  readonly fill: Paint;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
}
/** The badge of a cab, its outline about 20 units across at scale 1. */
export interface BadgeShape {
  readonly kind: 'badge';
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly index: number;
  readonly mark: string;
}
export type Shape = RectShape | LineShape | TextShape | BadgeShape;

export interface Drawing {
  readonly width: number;
  readonly height: number;
  /** Size of the letters in it. */
  readonly letterPx: number;
  readonly shapes: readonly Shape[];
}

/** About as wide as a text gets in these letters; a little more rather than less. */
export const textWidth = (says: string, letterPx: number): number => says.length * letterPx * 0.66;

/** The hues come again after six cabs, as they do on the board. */
export const hueOf = (index: number): number => (index % 6) + 1;

const HATCH_PX = 6;

/** Slanting lines that fill a box: what is disputed is hatched. */
export function hatched(x: number, y: number, width: number, height: number): readonly LineShape[] {
  const lines: LineShape[] = [];
  for (let at = -height; at < width; at += HATCH_PX) {
    const left = Math.max(0, at);
    const right = Math.min(width, at + height);
    if (right <= left) continue;
    const points = [
      [x + left, y + height - (left - at)],
      [x + right, y + height - (right - at)],
    ] as const;
    lines.push({ kind: 'line', points, stroke: 'wrong', width: 2 });
  }
  return lines;
}
