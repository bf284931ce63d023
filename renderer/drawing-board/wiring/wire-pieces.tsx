/** The wire of a feeder: none that is known, or pieces one after the other, each of one gauge. */
import { gaugeText } from '../../../shared-model/power/wire.ts';
import type { WirePiece } from '../../../shared-model/railroad/editing/feeders.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { PickBox } from '../../parts/field.tsx';
import { DraftRun } from '../draft-field.tsx';

/** Even gauges are those that are sold; another one that the file has is offered as well. */
const GAUGES = [6, 8, 10, 12, 14, 16, 18, 20, 22, 24];
/** What a new piece begins with (common practice, no source): AWG 14, three metres or ten feet. */
const FIRST_AWG = 14;
const FIRST_RUN = { metric: 3000, imperial: 3048 } as const;

export function useFirstPiece(): WirePiece {
  const run = FIRST_RUN[useConsole((state) => state.settings.lengths)];
  return { awg: FIRST_AWG, run };
}

interface GaugeBoxProps {
  readonly label: string;
  readonly awg: number | null;
  readonly onChange: (awg: number | null) => void;
  /** What it says where no wire is given; absent where there has to be one. */
  readonly none?: string;
}

export function GaugeBox({ label, awg, onChange, none }: GaugeBoxProps) {
  const gauges = awg === null || GAUGES.includes(awg) ? GAUGES : [...GAUGES, awg].sort((a, b) => a - b);
  return (
    <PickBox
      label={label}
      value={awg === null ? '' : String(awg)}
      options={[
        ...(none === undefined ? [] : [{ value: '', says: none }]),
        ...gauges.map((each) => ({ value: String(each), says: gaugeText(each) })),
      ]}
      onChange={(value) => onChange(value === '' ? null : Number(value))}
    />
  );
}

interface WirePiecesProps {
  readonly pieces: readonly WirePiece[];
  readonly onChange: (pieces: readonly WirePiece[], what: string) => void;
}

export function WirePieces({ pieces, onChange }: WirePiecesProps) {
  const first = useFirstPiece();
  const changed = (index: number, part: Partial<WirePiece>) =>
    pieces.map((piece, at) => (at === index ? { ...piece, ...part } : piece));
  const name = (what: string, index: number) => (pieces.length > 1 ? `${what} ${index + 1}` : what);
  // Where no wire is given there is one row all the same, and it stays the same one when a gauge is chosen: the hands are on it.
  const rows: readonly (WirePiece | null)[] = pieces.length === 0 ? [null] : pieces;
  return (
    <>
      {rows.map((piece, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a piece has no other name than its place
        <div key={index} className="wiring-fields">
          <GaugeBox
            label={name('Gauge', index)}
            awg={piece?.awg ?? null}
            {...(pieces.length <= 1 ? { none: 'not given' } : {})}
            onChange={(awg) =>
              onChange(
                awg === null ? [] : piece === null ? [{ ...first, awg }] : changed(index, { awg }),
                'gauge',
              )
            }
          />
          {piece === null ? null : (
            <DraftRun
              label={name('Run', index)}
              mm={piece.run}
              onChange={(mm) => onChange(changed(index, { run: mm }), `run ${index}`)}
            />
          )}
          {pieces.length > 1 ? (
            <Act
              kind="calm"
              label={`Take piece ${index + 1} out`}
              onPress={() => onChange(pieces.toSpliced(index, 1), 'pieces')}
            >
              Out
            </Act>
          ) : null}
        </div>
      ))}
      {pieces.length === 0 ? null : (
        <Act kind="calm" onPress={() => onChange([...pieces, { awg: 20, run: 200 }], 'pieces')}>
          Another piece after it
        </Act>
      )}
    </>
  );
}
