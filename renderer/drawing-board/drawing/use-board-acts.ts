/** The acts on the track of the drawing that is open, with lengths as the user prefers them. */
import { useMemo } from 'react';
import { useConsole } from '../../console/use-console.tsx';
import { useDrawingStore } from '../use-drawing.tsx';
import { type BoardActs, boardActs } from './board-acts.ts';

export function useBoardActs(): BoardActs {
  const store = useDrawingStore();
  const system = useConsole((state) => state.settings.lengths);
  return useMemo(() => boardActs(store, system), [store, system]);
}
