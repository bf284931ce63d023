import { EmptyState } from '../parts/empty-state.tsx';

export function SettingsScreen() {
  return (
    <EmptyState
      title="Settings"
      says="This screen is not built yet. Theme, letters, lengths and keys will be set here."
    />
  );
}
