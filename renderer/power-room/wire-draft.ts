/** The wire calculator as it is filled in: the pieces of the way out, the way back, and what flows. */
import { CURRENT, GAUGE, VOLTAGE, WARMTH } from '../../shared-model/power/ranges.ts';
import type { WirePiece } from '../../shared-model/power/wire.ts';
import { figureIn } from './figure-box.tsx';
import type { RunUnit } from './run-unit.ts';

/** One piece of the way out, as it is typed. */
export type PieceDraft = Readonly<Record<'awg' | 'run', string>>;

const FIRST_PIECE: PieceDraft = { awg: '14', run: '25' };

export const FIRST_WIRE = {
  /** From the supply to the rail. */
  pieces: [FIRST_PIECE] as readonly PieceDraft[],
  busAwg: '',
  busRun: '',
  amps: '3',
  volts: '18',
  breaker: '',
  impedance: '',
  others: '',
  celsius: '20',
};
export type WireDraft = typeof FIRST_WIRE;

/** What a further piece begins as: the drop to the rail, which is usually the lighter one. */
export const NEXT_PIECE: PieceDraft = { awg: '20', run: '0.5' };
export const MOST_PIECES = 6;

/** A supply's own impedance, and what other trains send through the same return, may be nothing. */
export const IMPEDANCE = { least: 0, most: 100, unit: 'ohm' } as const;
export const OTHERS = { least: 0, most: 1000, unit: 'amperes' } as const;

/** The figures of a draft; those that may be left out are null, or nothing, when they are. */
export interface WireFigures {
  readonly pieces: readonly WirePiece[];
  /** Null: back in as much wire as out. */
  readonly bus: WirePiece | null;
  readonly amps: number;
  readonly volts: number;
  readonly celsius: number;
  readonly others: number;
  readonly impedanceOhms: number;
  readonly breakerAmps: number | null;
}

const isEmpty = (text: string): boolean => text.trim() === '';

function pieceIn({ awg, run }: PieceDraft, unit: RunUnit): WirePiece | null {
  const [gauge, length] = [figureIn(awg, GAUGE), figureIn(run, unit.range)];
  return gauge === null || length === null ? null : { awg: gauge, run: length * unit.mm };
}

/** Whether one half of the common bus is filled in and the other is not. */
export function halfABus({ busAwg, busRun }: WireDraft): boolean {
  return isEmpty(busAwg) !== isEmpty(busRun);
}

/** The figures, once all that are needed are there and none is wrong. */
export function wireFigures(draft: WireDraft, unit: RunUnit): WireFigures | null {
  const pieces = draft.pieces.flatMap((piece) => pieceIn(piece, unit) ?? []);
  const back = !isEmpty(draft.busAwg) || !isEmpty(draft.busRun);
  const bus = back ? pieceIn({ awg: draft.busAwg, run: draft.busRun }, unit) : null;
  const amps = figureIn(draft.amps, CURRENT);
  const volts = figureIn(draft.volts, VOLTAGE);
  const celsius = figureIn(draft.celsius, WARMTH);
  const others = isEmpty(draft.others) ? 0 : figureIn(draft.others, OTHERS);
  const impedanceOhms = isEmpty(draft.impedance) ? 0 : figureIn(draft.impedance, IMPEDANCE);
  const breakerAmps = isEmpty(draft.breaker) ? null : figureIn(draft.breaker, CURRENT);
  if (pieces.length < draft.pieces.length || (back && bus === null)) return null;
  if (amps === null || volts === null || celsius === null) return null;
  if (others === null || impedanceOhms === null) return null;
  if (breakerAmps === null && !isEmpty(draft.breaker)) return null;
  return { pieces, bus, amps, volts, celsius, others, impedanceOhms, breakerAmps };
}
