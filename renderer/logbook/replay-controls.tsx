/** The scrubber and the keys of a replay: one event on or back, to the next refusal or alarm, play at a speed. */
import type { KeyboardEvent } from 'react';
import type { Outline } from '../../shared-model/wire/evening-calls.ts';
import { Act } from '../parts/act.tsx';
import { Choice } from '../parts/field.tsx';
import { DensityStrip } from './density-strip.tsx';
import type { Marks } from './use-marks.ts';
import type { Player, Speed } from './use-player.ts';

const SPEED_OPTIONS: readonly { readonly value: Speed; readonly says: string }[] = [
  { value: 'events', says: 'an event a second' },
  { value: '1', says: '1×' },
  { value: '10', says: '10×' },
  { value: '60', says: '60×' },
];

interface ControlsProps {
  readonly entries: number;
  readonly outline: Outline;
  readonly player: Player;
  /** The refusals and alarms before and after the moment; null where there is none. */
  readonly marks: Marks;
  /** The moment shown, in words: "entry 12 of 80, 20:14:07, No. 7 is in block 4". */
  readonly says: string;
}

const markedIn = ({ bins }: Outline): number =>
  bins.reduce((sum, { refusals, alarms }) => sum + refusals + alarms, 0);

export function ReplayControls({ entries, outline, player, marks, says }: ControlsProps) {
  const { position, go, playing, setPlaying } = player;
  const toMark = (direction: 'next' | 'before') => go(marks[direction] ?? position);
  const nowhere = (direction: 'next' | 'before') =>
    marks[direction] === null ? 'There is none.' : undefined;
  const play = () => {
    if (position >= entries) go(0);
    setPlaying(!playing);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === 'n') toMark('next');
    else if (event.key === 'p') toMark('before');
    else if (event.key === ' ') play();
    else return;
    event.preventDefault();
  };
  return (
    <section className="replay-controls" aria-label="Moment">
      <DensityStrip outline={outline} entries={entries} position={position} marked={markedIn(outline)} />
      <input
        type="range"
        className="replay-scrubber"
        aria-label="Moment of the evening, by entries"
        aria-valuetext={says}
        aria-keyshortcuts="Space n p"
        min={0}
        max={entries}
        step={1}
        value={position}
        onChange={(event) => go(Number(event.target.value))}
        onKeyDown={onKeyDown}
      />
      <div className="replay-acts">
        <Act
          kind="calm"
          onPress={() => go(position - 1)}
          notNow={position === 0 ? 'This is the beginning.' : undefined}
        >
          One back
        </Act>
        <Act
          kind="calm"
          onPress={() => go(position + 1)}
          notNow={position >= entries ? 'This is the end.' : undefined}
        >
          One on
        </Act>
        <Act kind="calm" onPress={play} keyName="Space">
          {playing ? 'Pause' : 'Play'}
        </Act>
        <Act kind="calm" onPress={() => toMark('before')} keyName="p" notNow={nowhere('before')}>
          Refusal or alarm before
        </Act>
        <Act kind="calm" onPress={() => toMark('next')} keyName="n" notNow={nowhere('next')}>
          Next refusal or alarm
        </Act>
        <Choice label="Speed" value={player.speed} options={SPEED_OPTIONS} onChange={player.setSpeed} />
      </div>
    </section>
  );
}
