/** What feeds what: for now the blocks with their sources and feeders. */
import { Table } from '../../parts/table.tsx';
import { useDraft } from '../use-drawing.tsx';

export function WiringSheet() {
  const { blocks } = useDraft();
  return (
    <Table
      caption={`${blocks.length} blocks`}
      columns={[{ name: 'Block' }, { name: 'Name' }, { name: 'Source' }, { name: 'Feeders' }]}
      rows={blocks.map(({ id, name, source, feeders }) => ({
        key: id,
        cells: [id, name, Object.values(source).join(' from '), feeders.map(({ edge }) => edge).join(', ')],
      }))}
    />
  );
}
