/** What all blocks share: the return, the rail, the switch that cuts the power; and wire for many feeders at once. */
import { useState } from 'react';
import { type WirePiece, withWireWhereMissing } from '../../../shared-model/railroad/editing/feeders.ts';
import { Act } from '../../parts/act.tsx';
import { DraftFigure, DraftNote, DraftRun } from '../draft-field.tsx';
import { useDraft } from '../use-drawing.tsx';
import { CableRoutes } from './cable-routes.tsx';
import { FindingsAbout } from './findings-about.tsx';
import { useChange } from './use-change.ts';
import { GaugeBox, useFirstPiece } from './wire-pieces.tsx';

const RAIL = { least: 0, most: 100, unit: 'ohm a metre' } as const;
/** A bus is as heavy as two feeders and runs along both (common practice, no source). */
const BUS_AWG = 12;

function WireForAll() {
  const draft = useDraft();
  const { change } = useChange();
  const [piece, setPiece] = useState<WirePiece>(useFirstPiece());
  const missing = draft.blocks
    .flatMap(({ feeders }) => feeders)
    .filter(({ wire }) => wire === undefined).length;
  if (missing === 0) return <p className="fine quiet">The wire of every feeder is given.</p>;
  return (
    <fieldset className="wiring-group">
      <legend>{missing === 1 ? 'A feeder without wire' : `${missing} feeders without wire`}</legend>
      <p className="fine quiet">
        What is not given is not judged. Enter what most of them have, and mend the rest.
      </p>
      <div className="wiring-fields">
        <GaugeBox
          label="Gauge of all"
          awg={piece.awg}
          onChange={(awg) => awg !== null && setPiece({ ...piece, awg })}
        />
        <DraftRun label="Run of each" mm={piece.run} onChange={(run) => setPiece({ ...piece, run })} />
        <Act
          kind="calm"
          onPress={() =>
            change((before) => withWireWhereMissing(before, piece), 'wire of all feeders without one')
          }
        >
          Enter it for all of them
        </Act>
      </div>
    </fieldset>
  );
}

export function ReturnSection() {
  const draft = useDraft();
  const { change } = useChange();
  const { commonBus, railOhmsPerMetre, masterSwitch } = draft;
  const firstBus: WirePiece = { awg: BUS_AWG, run: 2 * useFirstPiece().run };
  const setBus = (bus: WirePiece | undefined, field?: string) =>
    change(
      ({ commonBus: _, ...rest }) => (bus === undefined ? rest : { ...rest, commonBus: bus }),
      'common bus',
      field,
    );
  return (
    <>
      <WireForAll />
      <CableRoutes />
      <fieldset className="wiring-group">
        <legend>Common bus</legend>
        <div className="wiring-fields">
          <GaugeBox
            label="Gauge of the bus"
            none="no common bus"
            awg={commonBus?.awg ?? null}
            onChange={(awg) => setBus(awg === null ? undefined : { ...(commonBus ?? firstBus), awg })}
          />
          {commonBus === undefined ? null : (
            <DraftRun
              label="Run of the bus"
              mm={commonBus.run}
              onChange={(run) => setBus({ ...commonBus, run }, 'bus run')}
            />
          )}
        </div>
        <FindingsAbout
          concerns={({ code, about }) =>
            code === 'shared-return' ||
            (code === 'undersized-wire' && draft.supplies.some(({ id }) => id === about[0]))
          }
        />
      </fieldset>
      <DraftFigure
        label="Rail and joints (ohm a metre)"
        hint="Left out, they are not counted."
        optional
        value={railOhmsPerMetre}
        range={RAIL}
        onChange={(ohms) =>
          change(
            ({ railOhmsPerMetre: _, ...rest }) =>
              ohms === undefined ? rest : { ...rest, railOhmsPerMetre: ohms },
            'resistance of the rail',
            'rail ohms',
          )
        }
      />
      <DraftNote
        label="Master switch"
        hint="Where the power is cut: it is said when everything has to stop."
        most={200}
        value={masterSwitch}
        onChange={(where) =>
          change(
            ({ masterSwitch: _, ...rest }) => (where === undefined ? rest : { ...rest, masterSwitch: where }),
            'master switch',
            'master switch',
          )
        }
      />
    </>
  );
}
