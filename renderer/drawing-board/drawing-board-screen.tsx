import { EmptyState } from '../parts/empty-state.tsx';

export function DrawingBoardScreen() {
  return (
    <EmptyState title="Drawing board" says="This screen is not built yet. Railroads will be drawn here." />
  );
}
