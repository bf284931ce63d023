import { EmptyState } from '../parts/empty-state.tsx';

export function DeskScreen() {
  return (
    <EmptyState title="Desk" says="This screen is not built yet. The evening will be dispatched here." />
  );
}
