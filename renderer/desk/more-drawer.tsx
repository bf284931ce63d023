/** The evening as a whole, the supplies, and what is set at the Desk itself. */
import { useState } from 'react';
import type { SupplyId } from '../../shared-model/ids.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import { OfferGroups } from './drawer.tsx';
import { supplyOffers } from './offers/cab-offers.ts';
import { eveningOffers } from './offers/evening-offers.ts';
import { planOffers } from './offers/plan-offers.ts';
import { ENDED, type Option } from './option.ts';
import type { Desk } from './use-desk.ts';

interface MoreProps {
  readonly source: DeskSource;
  readonly desk: Desk;
  readonly onTake: (option: Option) => void;
}

function OwnSettings({ desk }: Pick<MoreProps, 'desk'>) {
  const store = useConsoleStore();
  const { sound, speech } = useConsole(({ settings }) => settings);
  return (
    <section className="desk-offers" aria-label="This desk">
      <h3>This desk</h3>
      <div className="desk-options">
        <Act kind="calm" pressed={sound} onPress={() => void store.writeSettings({ sound: !sound })}>
          Tone at danger
        </Act>
        <Act kind="calm" pressed={speech} onPress={() => void store.writeSettings({ speech: !speech })}>
          Say aloud
        </Act>
        <Act kind="calm" onPress={() => desk.act('lock')}>
          Lock the keys
        </Act>
        <a className="act" data-kind="calm" href="#/wall">
          Wall view
        </a>
        <a className="act" data-kind="calm" href="#/cab-cards">
          Cards to print
        </a>
      </div>
    </section>
  );
}

/** The evening and its supplies. */
function OfEvening({ source, onTake }: Pick<MoreProps, 'source' | 'onTake'>) {
  const { supplies } = source.railroad.document;
  const [supply, setSupply] = useState<SupplyId | undefined>(supplies[0]?.id);
  return (
    <>
      <OfferGroups
        groups={[...planOffers(source), ...eveningOffers(source, source.seconds)]}
        onTake={onTake}
      />
      <section className="desk-offers" aria-label="Supplies">
        <h3>Supplies</h3>
        <div className="desk-options">
          {supplies.map(({ id, name }) => (
            <Act key={id} kind="calm" pressed={id === supply} onPress={() => setSupply(id)}>
              {name}
            </Act>
          ))}
        </div>
      </section>
      {supply === undefined ? null : <OfferGroups groups={supplyOffers(source, supply)} onTake={onTake} />}
    </>
  );
}

export function MoreDrawer({ source, desk, onTake }: MoreProps) {
  return (
    <>
      {source.state.phase === 'ended' ? <p>{ENDED}</p> : <OfEvening source={source} onTake={onTake} />}
      {source.kind === 'live' ? <OwnSettings desk={desk} /> : null}
    </>
  );
}
