/** A chart as a file: SVG text, or a PNG. On paper it is as in the light theme, whatever the screen shows. */
import { cabLook } from '../../theme/cabs.ts';
import { BADGE_NUMBER_SIZE, OUTLINE_PATHS } from '../../theme/outlines.ts';
import { customProperties, THEMES } from '../../theme/themes.ts';
import { type BadgeShape, type Drawing, hueOf, type Paint, type Shape } from './drawing.ts';

const COLOURS = new Map<string, string>(
  customProperties(THEMES.light).map(([property, colour]) => [property.slice(2), colour]),
);
const colour = (job: Paint | undefined): string =>
  job === undefined ? 'none' : (COLOURS.get(job) ?? '#000000');

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escaped = (text: string): string => text.replace(/[&<>"]/g, (letter) => ESCAPES[letter] ?? letter);
const round = (value: number): number => Math.round(value * 100) / 100;
const dashed = (dash: string | undefined): string =>
  dash === undefined ? '' : ` stroke-dasharray="${dash}"`;

function badgeSvg({ x, y, scale, index, mark }: BadgeShape): string {
  const { path, numberY } = OUTLINE_PATHS[cabLook(index).outline];
  const hue = hueOf(index);
  const size = mark.length > 1 ? BADGE_NUMBER_SIZE * 0.75 : BADGE_NUMBER_SIZE;
  return `<g transform="translate(${round(x)} ${round(y)}) scale(${round(scale)})"><path d="${path}" fill="${colour(`cab-${hue}`)}" stroke="${colour('casing')}" stroke-width="1.6"/><text y="${round(numberY + size * 0.36)}" font-size="${size}" font-weight="700" text-anchor="middle" fill="${colour(`on-cab-${hue}`)}">${escaped(mark)}</text></g>`;
}

function shapeSvg(shape: Shape): string {
  switch (shape.kind) {
    case 'rect':
      return `<rect x="${round(shape.x)}" y="${round(shape.y)}" width="${round(shape.width)}" height="${round(shape.height)}" fill="${colour(shape.fill)}" stroke="${colour(shape.stroke)}"${dashed(shape.dash)}/>`;
    case 'line':
      return `<polyline points="${shape.points.map((point) => point.map(round).join(',')).join(' ')}" fill="none" stroke="${colour(shape.stroke)}" stroke-width="${shape.width}"${dashed(shape.dash)}/>`;
    case 'text':
      return `<text x="${round(shape.x)}" y="${round(shape.y)}" fill="${colour(shape.fill)}" text-anchor="${shape.anchor}"${shape.bold === true ? ' font-weight="700"' : ''}>${escaped(shape.says)}</text>`;
    case 'badge':
      return badgeSvg(shape);
  }
}

/** The chart as an SVG document that needs nothing else. */
export function chartSvgText(
  { width, height, letterPx, shapes }: Drawing,
  title: string,
  says: string,
): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${round(width)} ${round(height)}" width="${round(width)}" height="${round(height)}" font-family="B612, sans-serif" font-size="${letterPx}" role="img">`,
    `<title>${escaped(title)}</title><desc>${escaped(says)}</desc>`,
    `<rect width="100%" height="100%" fill="${colour('ground')}"/>`,
    ...shapes.map(shapeSvg),
    '</svg>',
  ].join('\n');
}

function paintBadge(pen: CanvasRenderingContext2D, { x, y, scale, index, mark }: BadgeShape): void {
  const { path, numberY } = OUTLINE_PATHS[cabLook(index).outline];
  pen.save();
  pen.translate(x, y);
  pen.scale(scale, scale);
  const outline = new Path2D(path);
  pen.fillStyle = colour(`cab-${hueOf(index)}`);
  pen.fill(outline);
  pen.strokeStyle = colour('casing');
  pen.lineWidth = 1.6;
  pen.stroke(outline);
  pen.fillStyle = colour(`on-cab-${hueOf(index)}`);
  pen.textAlign = 'center';
  pen.font = `700 ${BADGE_NUMBER_SIZE}px B612, sans-serif`;
  pen.fillText(mark, 0, numberY + BADGE_NUMBER_SIZE * 0.36);
  pen.restore();
}

function paintShape(pen: CanvasRenderingContext2D, shape: Shape, letterPx: number): void {
  if (shape.kind === 'badge') {
    paintBadge(pen, shape);
    return;
  }
  const dash = 'dash' in shape && shape.dash !== undefined ? shape.dash.split(' ').map(Number) : [];
  pen.setLineDash(dash);
  if (shape.kind === 'rect') {
    pen.lineWidth = 1;
    if (shape.fill !== undefined) {
      pen.fillStyle = colour(shape.fill);
      pen.fillRect(shape.x, shape.y, shape.width, shape.height);
    }
    if (shape.stroke !== undefined) {
      pen.strokeStyle = colour(shape.stroke);
      pen.strokeRect(shape.x, shape.y, shape.width, shape.height);
    }
  } else if (shape.kind === 'line') {
    pen.strokeStyle = colour(shape.stroke);
    pen.lineWidth = shape.width;
    pen.beginPath();
    for (const [x, y] of shape.points) pen.lineTo(x, y);
    pen.stroke();
  } else {
    pen.fillStyle = colour(shape.fill);
    pen.textAlign = shape.anchor === 'middle' ? 'center' : shape.anchor;
    pen.font = `${shape.bold === true ? 700 : 400} ${letterPx}px B612, sans-serif`;
    pen.fillText(shape.says, shape.x, shape.y);
  }
}

/** Twice as many pixels as on the screen, for paper. */
const PNG_SCALE = 2;

/** The chart as a PNG; null where the browser cannot make one. */
export function chartPng({ width, height, letterPx, shapes }: Drawing): Promise<Blob | null> {
  const canvas = document.createElement('canvas');
  canvas.width = width * PNG_SCALE;
  canvas.height = height * PNG_SCALE;
  const pen = canvas.getContext('2d');
  if (pen === null) return Promise.resolve(null);
  pen.scale(PNG_SCALE, PNG_SCALE);
  pen.fillStyle = colour('ground');
  pen.fillRect(0, 0, width, height);
  for (const shape of shapes) paintShape(pen, shape, letterPx);
  return new Promise((resolve) => canvas.toBlob(resolve, 'image/png'));
}
