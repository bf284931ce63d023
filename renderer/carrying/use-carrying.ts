/** The plan that is carried out, in React. */
import { useSyncExternalStore } from 'react';
import { useConsoleStore } from '../console/use-console.tsx';
import { type CarryingState, carryingOf } from './carrying.ts';

export function useCarrying(): CarryingState {
  const carrying = carryingOf(useConsoleStore());
  return useSyncExternalStore(carrying.subscribe, carrying.get);
}
