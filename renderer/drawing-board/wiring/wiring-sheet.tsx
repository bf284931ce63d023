/** Wiring: what feeds what, by which knob, over which wire, from which supply. */
import type { ComponentType } from 'react';
import { screenRest } from '../../shell/address.ts';
import { useHash } from '../../shell/use-hash.ts';
import { useDrawing, useDrawingStore } from '../use-drawing.tsx';
import { BlocksSection } from './blocks-section.tsx';
import { DialsSection } from './dials-section.tsx';
import { PowerSection } from './power-section.tsx';
import { ReturnSection } from './return-section.tsx';
import './wiring.css';

interface Section {
  readonly path: string;
  readonly name: string;
  readonly Part: ComponentType;
}

const FIRST: Section = { path: 'blocks', name: 'Blocks', Part: BlocksSection };
const SECTIONS: readonly Section[] = [
  FIRST,
  { path: 'dials', name: 'Dials', Part: DialsSection },
  { path: 'power', name: 'Supplies and throttles', Part: PowerSection },
  { path: 'return', name: 'Return and wire', Part: ReturnSection },
];

export function WiringSheet() {
  const { id } = useDrawingStore();
  const says = useDrawing((state) => state.says);
  const [, , part] = screenRest(useHash());
  const current = SECTIONS.find(({ path }) => path === part) ?? FIRST;
  return (
    <div className="wiring">
      <nav className="wiring-parts" aria-label="Wiring">
        {SECTIONS.map(({ path, name }) => (
          <a
            key={path}
            href={`#/drawing-board/${id}/wiring/${path}`}
            aria-current={path === current.path ? 'page' : undefined}
          >
            {name}
          </a>
        ))}
      </nav>
      <p role="status" className="fine wiring-says">
        {says}
      </p>
      <current.Part />
    </div>
  );
}
