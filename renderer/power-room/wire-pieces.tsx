/** The pieces of the way out, from the supply to the rail, as they are typed. */
import { GAUGE } from '../../shared-model/power/ranges.ts';
import { Act } from '../parts/act.tsx';
import { FigureBox } from './figure-box.tsx';
import type { RunUnit } from './run-unit.ts';
import { MOST_PIECES, NEXT_PIECE, type PieceDraft } from './wire-draft.ts';

interface WirePiecesProps {
  readonly pieces: readonly PieceDraft[];
  readonly unit: RunUnit;
  readonly onChange: (pieces: readonly PieceDraft[]) => void;
}

export function WirePieces({ pieces, unit, onChange }: WirePiecesProps) {
  const several = pieces.length > 1;
  const change = (at: number, part: Partial<PieceDraft>) =>
    onChange(pieces.map((piece, index) => (index === at ? { ...piece, ...part } : piece)));
  return (
    <fieldset className="power-stack wire-pieces">
      <legend>Way out, from the supply to the rail</legend>
      {pieces.map((piece, index) => {
        const which = several ? ` of piece ${index + 1}` : '';
        return (
          // Pieces have no name but their place in the row.
          // biome-ignore lint/suspicious/noArrayIndexKey: see above
          <div key={index} className="power-fields">
            <FigureBox
              label={`Gauge${which}`}
              unit="AWG"
              text={piece.awg}
              range={GAUGE}
              onChange={(awg) => change(index, { awg })}
              hint={index === 0 ? '0 for 1/0, -3 for 4/0' : undefined}
            />
            <FigureBox
              label={`Run${which}, one way`}
              unit={unit.unit}
              text={piece.run}
              range={unit.range}
              onChange={(run) => change(index, { run })}
            />
            {several ? (
              <Act
                kind="calm"
                label={`Take out piece ${index + 1}`}
                onPress={() => onChange(pieces.filter((_, other) => other !== index))}
              >
                Take out
              </Act>
            ) : null}
            {index === pieces.length - 1 && pieces.length < MOST_PIECES ? (
              <Act kind="calm" onPress={() => onChange([...pieces, NEXT_PIECE])}>
                Another piece
              </Act>
            ) : null}
          </div>
        );
      })}
    </fieldset>
  );
}
