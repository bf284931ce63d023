/** The three sizes of letters as they come out on this screen, in themselves and in millimetres. */
import type { UserSettings } from '../../shared-model/wire/contract.ts';
import { CAP_HEIGHT_RATIO, pxPerMm } from '../theme/letter-sizes.ts';
import { useLetterSizes } from '../theme/use-letter-sizes.ts';

const SAMPLES = [
  { size: 'far', says: 'Far' },
  { size: 'desk', says: 'Desk' },
  { size: 'fine', says: 'Fine' },
] as const;

export function LetterSample({ settings }: { readonly settings: UserSettings }) {
  const sizes = useLetterSizes();
  const perMm = pxPerMm({
    screenInches: settings.screenInches,
    screenPx: [window.screen.width, window.screen.height],
  });
  return (
    <ul className="letter-sample">
      {SAMPLES.map(({ size, says }) => (
        <li key={size}>
          <span style={{ fontSize: sizes[size] }}>{says}</span>
          <span className="fine quiet">
            capitals {((sizes[size] * CAP_HEIGHT_RATIO) / perMm).toFixed(1)} mm
          </span>
        </li>
      ))}
    </ul>
  );
}
