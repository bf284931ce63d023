/** Saved settings of all knobs: for now their names. */
import { useDraft } from '../use-drawing.tsx';

export function SettingsSheet() {
  const { settings } = useDraft();
  if (settings.length === 0) return <p>No setting is saved.</p>;
  return (
    <ul>
      {settings.map(({ id, name }) => (
        <li key={id}>{name}</li>
      ))}
    </ul>
  );
}
