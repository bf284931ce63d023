/** The Desk on the live evening; before there is one, the way to open it. */
import { DeskView } from './desk-view.tsx';
import { useLiveSource } from './live-source.ts';
import { OpenEvening } from './opening/open-evening.tsx';

export function DeskScreen() {
  const source = useLiveSource();
  if (source === null) return <OpenEvening />;
  if (source.state.phase !== 'ended') return <DeskView key={source.id} source={source} />;
  return <DeskView key={source.id} source={source} after={<OpenEvening brief />} />;
}
