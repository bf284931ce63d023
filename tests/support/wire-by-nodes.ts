/**
 * A second computation of wire, from the design's words alone and by another way than the engine's: gauges as steps between the two anchors,
 * and the loop as a chain of short pieces whose node voltages are found together (nodal analysis, elimination).
 */

/** Metres of wire of one gauge. */
export interface Piece {
  readonly awg: number;
  readonly run: number;
}

const ANCHORS = { thinnest: 0.005, thickest: 0.46, steps: 39 } as const;

/** Inches of diameter: 39 equal ratios lead from No. 36 (0.0050 in) to 4/0 (0.4600 in). */
const inches = (awg: number): number =>
  ANCHORS.thickest * (ANCHORS.thinnest / ANCHORS.thickest) ** ((awg + 3) / ANCHORS.steps);

/** Ohms of one millimetre of a gauge: copper of 1/58 Ω·mm²/m at 20 °C and 0.393 % more for each kelvin. */
function ohmsPerMillimetre(awg: number, celsius: number): number {
  const radius = (inches(awg) * 25.4) / 2;
  return (1 / 58 / 1000 / (Math.PI * radius * radius)) * (1 + ((celsius - 20) * 0.393) / 100);
}

export const pieceOhms = ({ awg, run }: Piece, celsius = 20): number => ohmsPerMillimetre(awg, celsius) * run;

/** Solves a small system of equations by elimination with pivots. */
function solve(rows: number[][]): number[] {
  const size = rows.length;
  for (let column = 0; column < size; column += 1) {
    const best = rows.reduce(
      (most, row, index) =>
        index >= column && Math.abs(row[column] ?? 0) > Math.abs(rows[most]?.[column] ?? 0) ? index : most,
      column,
    );
    const [above, pivot] = [rows[column] as number[], rows[best] as number[]];
    rows[best] = above;
    rows[column] = pivot;
    for (let below = 0; below < size; below += 1) {
      if (below === column) continue;
      const row = rows[below] as number[];
      const share = (row[column] ?? 0) / (pivot[column] ?? 1);
      for (let at = column; at <= size; at += 1) row[at] = (row[at] ?? 0) - share * (pivot[at] ?? 0);
    }
  }
  return rows.map((row, index) => (row[size] ?? 0) / (row[index] ?? 1));
}

/** What is taken out at the end of a loop: a steady current, or a dead short. */
type Load = { readonly amps: number } | 'short';

/**
 * A supply with an impedance, its loop as resistances in a row from the hot post round to the common, and a load after one of them.
 *
 * @param out resistances from the post to the load
 * @param back resistances from the load to the common
 * @returns volts at the load, and the current through the supply
 */
export function loop(
  volts: number,
  out: readonly number[],
  back: readonly number[],
  load: Load,
): { readonly voltsAtLoad: number; readonly amps: number } {
  // Unknown: the nodes between the resistances, hot side first; the common is at zero, the source at `volts`.
  const size = out.length + back.length;
  const rows = Array.from({ length: size }, () => new Array<number>(size + 1).fill(0));
  const put = (row: number, column: number, by: number) => {
    const cells = rows[row] as number[];
    cells[column] = (cells[column] ?? 0) + by;
  };
  const [far, near] = [out.length - 1, out.length];
  out.forEach((ohms, at) => {
    put(at, at, 1 / ohms);
    if (at === 0) put(0, size, volts / ohms);
    else {
      put(at, at - 1, -1 / ohms);
      put(at - 1, at, -1 / ohms);
      put(at - 1, at - 1, 1 / ohms);
    }
  });
  back.forEach((ohms, index) => {
    const at = near + index;
    put(at, at, 1 / ohms);
    if (index < back.length - 1) {
      put(at, at + 1, -1 / ohms);
      put(at + 1, at, -1 / ohms);
      put(at + 1, at + 1, 1 / ohms);
    }
  });
  if (load === 'short') {
    const closed = (out[0] ?? 1) * 1e-6;
    for (const [one, other] of [
      [far, near],
      [near, far],
    ] as const) {
      put(one, one, 1 / closed);
      put(one, other, -1 / closed);
    }
  } else {
    put(far, size, -load.amps);
    put(near, size, load.amps);
  }
  const nodes = solve(rows);
  const first = out[0] ?? 1;
  return { voltsAtLoad: (nodes[far] ?? 0) - (nodes[near] ?? 0), amps: (volts - (nodes[0] ?? 0)) / first };
}
