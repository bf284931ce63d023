/** The power room: supplies, phase, wire, loads and cautions, each under its own address. */
import { EmptyState } from '../parts/empty-state.tsx';
import { Choice } from '../parts/field.tsx';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { CautionsSection } from './cautions-section.tsx';
import { LoadSection } from './load-section.tsx';
import { PhaseSection } from './phase-section.tsx';
import { SuppliesSection } from './supplies-section.tsx';
import { type Power, usePower } from './use-power.ts';
import { WireSection } from './wire-section.tsx';
import './power-room.css';

const SECTIONS = [
  { path: 'phase', name: 'Phase' },
  { path: 'supplies', name: 'Supplies' },
  { path: 'wire', name: 'Wire' },
  { path: 'loads', name: 'Loads' },
  { path: 'cautions', name: 'Cautions' },
] as const;
type SectionPath = (typeof SECTIONS)[number]['path'];

function Section({ path, power }: { readonly path: SectionPath; readonly power: Power }) {
  const { railroad } = power;
  const masterSwitch = railroad?.document.masterSwitch;
  if (path === 'wire')
    return <WireSection supplies={railroad?.document.supplies ?? []} masterSwitch={masterSwitch} />;
  if (path === 'cautions') return <CautionsSection masterSwitch={masterSwitch} />;
  if (power.isReading) return null;
  if (railroad === null)
    return (
      <EmptyState
        title="No railroad to look at"
        says={
          power.problem ??
          'Draw a railroad, or open the demo railroad, on the drawing board first. Wire and cautions work without one.'
        }
      />
    );
  if (railroad.document.supplies.length === 0)
    return (
      <EmptyState
        title="No supply yet"
        says="Enter the transformers of this railroad on the drawing board first."
      />
    );
  if (path === 'supplies') return <SuppliesSection power={power} railroad={railroad} />;
  if (path === 'loads') return <LoadSection power={power} railroad={railroad} />;
  return <PhaseSection power={power} railroad={railroad} />;
}

function Which({ power }: { readonly power: Power }) {
  const { railroad, library, chosen, choose, state } = power;
  if (state !== null) return <p>{railroad?.document.name}, the evening that goes on.</p>;
  if (library.length < 2 || chosen === null) return <p>{railroad?.document.name ?? ''}</p>;
  return (
    <Choice
      label="Railroad"
      value={chosen}
      options={library.map(({ id, name }) => ({ value: id, says: name }))}
      onChange={choose}
    />
  );
}

export function PowerRoomScreen() {
  const power = usePower();
  const rest = screenRest(useHash())[0];
  const current = SECTIONS.find(({ path }) => path === rest) ?? SECTIONS[0];
  return (
    <div className="power-room">
      <nav className="power-nav" aria-label="Power room">
        {SECTIONS.map(({ path, name }) => (
          <a
            key={path}
            href={`#/power-room/${path}`}
            aria-current={path === current.path ? 'true' : undefined}
          >
            {name}
          </a>
        ))}
      </nav>
      <Which power={power} />
      <section aria-label={current.name} className="power-section">
        <h1>{current.name}</h1>
        <Section path={current.path} power={power} />
      </section>
    </div>
  );
}
