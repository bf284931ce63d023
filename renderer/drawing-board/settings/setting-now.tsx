/** A setting against the evening that goes on: what stands otherwise, and bringing it about. */
import { useState } from 'react';
import type { Setting } from '../../../shared-model/railroad/document.ts';
import { settingDifferences } from '../../../shared-model/session/setting-orders.ts';
import { useConsole, useConsoleStore } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { Table } from '../../parts/table.tsx';

export function SettingNow({ setting }: { readonly setting: Setting }) {
  const store = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const [says, setSays] = useState('');
  if (evening === null || evening.state.phase === 'ended')
    return <p className="fine quiet">No evening goes on: there is nothing to compare it with.</p>;
  const differences = settingDifferences(evening.state, setting);
  const items = differences.flatMap(({ order }) => (order === null ? [] : [{ input: order }]));
  const apply = async () => {
    const sent = await store.send(items);
    if (!sent.ok) return setSays(sent.problem.says);
    const { refused } = sent.value;
    setSays(
      refused === null
        ? 'Applied: the record says so now.'
        : `Nothing was applied. ${refused.reasons.map((reason) => reason.says).join(' ')}`,
    );
  };
  return (
    <section aria-label={`${setting.name} and the evening`}>
      {differences.length === 0 ? (
        <p>Everything stands as {setting.name} says.</p>
      ) : (
        <>
          <Table
            caption={`Stands otherwise now (${differences.length})`}
            columns={[{ name: 'Knob' }, { name: 'Stands at' }, { name: 'Setting' }]}
            rows={differences.map(({ id, now, to }) => ({
              key: id,
              cells: [id, now ?? 'not in this evening’s railroad', to],
            }))}
          />
          <p className="fine quiet">Turn the knobs as the setting says, then:</p>
          <Act
            kind="calm"
            onPress={() => void apply()}
            notNow={items.length === 0 ? 'none of these knobs is in the evening’s railroad' : undefined}
          >
            {items.length === 1 ? 'Apply it: 1 order' : `Apply it: ${items.length} orders`}
          </Act>
        </>
      )}
      <p role="status">{says}</p>
    </section>
  );
}
