import { EmptyState } from '../parts/empty-state.tsx';

export function PowerRoomScreen() {
  return (
    <EmptyState
      title="Power room"
      says="This screen is not built yet. Supplies, phase checks and wire will be here."
    />
  );
}
