import { EmptyState } from '../parts/empty-state.tsx';

export function RehearsalScreen() {
  return (
    <EmptyState
      title="Rehearsal"
      says="This screen is not built yet. Moves will be tried here on a copy of the evening."
    />
  );
}
