import { EmptyState } from '../parts/empty-state.tsx';

export function LogbookScreen() {
  return (
    <EmptyState title="Logbook" says="This screen is not built yet. Evenings will be looked back on here." />
  );
}
