/** One cab before the evening: the name of who has it, or a name at one touch. */
import { useState } from 'react';
import type { ThrottleId } from '../../../shared-model/ids.ts';
import { Act } from '../../parts/act.tsx';
import { Badge } from '../../parts/badge.tsx';
import type { MakingUpProps } from './making-up-props.ts';

const LONGEST_NAME = 60;

interface CabRowProps extends MakingUpProps {
  readonly cab: ThrottleId;
  readonly index: number;
}

export function CabRow({ source, desk, cab, index }: CabRowProps) {
  const person = source.state.cabs[cab]?.person ?? '';
  const [typed, setTyped] = useState<string | null>(null);
  const name = source.railroad.throttles.get(cab)?.name ?? cab;
  const give = (to: string) => {
    const trimmed = to.trim().slice(0, LONGEST_NAME);
    setTyped(null);
    if (trimmed !== person)
      desk.sendInputs([{ do: 'assign-cab', cab, person: trimmed === '' ? null : trimmed }]);
  };
  return (
    <li className="desk-make-row">
      <Badge index={index} mark={cab} />
      <input
        className="field-input"
        aria-label={`Who has ${name}`}
        value={typed ?? person}
        placeholder="nobody"
        onChange={(event) => setTyped(event.target.value)}
        onBlur={() => typed !== null && give(typed)}
        onKeyDown={(event) => event.key === 'Enter' && typed !== null && give(typed)}
      />
      {person === '' ? (
        <Act
          kind="calm"
          label={`Operator ${index + 1} has ${name}`}
          onPress={() => give(`Operator ${index + 1}`)}
        >
          Somebody
        </Act>
      ) : (
        <Act kind="calm" label={`Nobody has ${name}`} onPress={() => give('')}>
          Nobody
        </Act>
      )}
    </li>
  );
}
