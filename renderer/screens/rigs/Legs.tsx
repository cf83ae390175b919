/** Whole-rig swaps that began or ended at the rig, leg by leg, with what was left out and why. */
import type { ChangeoverLeg } from '../../../db/api-changeovers.ts';
import { useAsk } from '../../api/ask.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import styles from './rigs.module.css';

export function Legs({ rig }: { rig: string }) {
  const legs = useAsk('changeovers.list', { rig }, { keep: true }).data?.legs ?? [];
  if (legs.length === 0) return null;
  return (
    <section aria-label="Whole-rig swaps">
      <h2>Whole-rig swaps</h2>
      <RowTable label="Whole-rig swaps" columns={COLUMNS} rows={legs} keyOf={l => l.id} />
    </section>
  );
}

const COLUMNS: readonly TableColumn<ChangeoverLeg>[] = [
  { key: 'on', head: 'When', cell: l => dateText(l.on) },
  { key: 'leg', head: 'Leg', cell: l => `${l.unit.name} ${l.back ? 'back to' : 'to'} ${l.to.name}` },
  { key: 'moved', head: 'Moved', figure: true, cell: l => l.moved.toLocaleString('en-US') },
  { key: 'except', head: 'Except', cell: exceptWords },
  {
    key: 'open',
    head: 'Open',
    figure: true,
    cell: l => (l.notReturned.length > 0 ? <b className={styles.late}>{l.notReturned.length}</b> : '–'),
  },
  { key: 'by', head: 'By', cell: l => l.byName ?? '–' },
];

function exceptWords(leg: ChangeoverLeg): string {
  const things = leg.excepted.map(e => `${e.number}${e.why ? `: ${e.why}` : ''}`);
  const counts = leg.counted.map(c => `${c.what} ${c.moved} of ${c.planned}${c.why ? `: ${c.why}` : ''}`);
  return [...things, ...counts].join('; ') || '–';
}
