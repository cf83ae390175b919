import type { BetterLine, ReorderLine, SupplyLine, SupplyShelf } from '../../../db/api-supply.ts';
import { amountWords } from '../../../domain/supply/boxes.ts';
import type { TableColumn } from '../../parts/grid/RowTable.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { needsOf } from './amounts.ts';
import styles from './supply.module.css';

const soft = (text: string) => <span className={styles.soft}>{text}</span>;
const amount = (each: number | null, perBox: number | null) =>
  each === null ? soft('not set') : amountWords(each, perBox);

export const STOCK: readonly TableColumn<SupplyLine>[] = [
  { key: 'what', head: 'Stock', cell: l => <strong className={styles.cut}>{l.what}</strong> },
  {
    key: 'place',
    head: 'Where',
    cell: l => <span className={styles.cut}>{l.placeName ?? soft('kept nowhere yet')}</span>,
  },
  { key: 'needs', head: 'It is', cell: l => <Needs line={l} /> },
  { key: 'hand', head: 'On hand', figure: true, cell: l => amountWords(l.onHand, l.perBox) },
  { key: 'par', head: 'Par', figure: true, cell: l => amount(l.par, l.perBox) },
  { key: 'min', head: 'Minimum', figure: true, cell: l => amount(l.min, l.perBox) },
  {
    key: 'soonest',
    head: 'Soonest expiry',
    figure: true,
    cell: l => (l.soonest ? dateText(l.soonest) : l.onHand > 0 ? soft('none') : ''),
  },
  {
    key: 'counted',
    head: 'Last counted',
    figure: true,
    cell: l => (l.counted ? dateText(l.counted.slice(0, 10)) : l.place === null ? '' : soft('never')),
  },
];

function Needs({ line }: { line: SupplyLine }) {
  const needs = needsOf(line);
  if (line.place === null) return soft('without a par');
  if (needs.length === 0) return soft('in order');
  return (
    <span className={styles.oneLine}>
      {needs.map((need, i) => (
        <span key={need}>
          {i > 0 ? ', ' : ''}
          {need === 'expires soon' ? need : <b className={styles.wrong}>{need}</b>}
        </span>
      ))}
    </span>
  );
}

export const REORDER: readonly TableColumn<ReorderLine>[] = [
  { key: 'what', head: 'Stock', cell: r => <strong className={styles.oneLine}>{r.what}</strong> },
  { key: 'order', head: 'Order', figure: true, cell: r => <b>{orderWords(r)}</b> },
  {
    key: 'places',
    head: 'For',
    cell: r => r.places.map(p => `${p.name}: ${amountWords(p.wants, r.perBox)}`).join('; '),
  },
  {
    key: 'spare',
    head: 'Move first, over par',
    cell: r => r.spare.map(s => `${s.name}: ${amountWords(s.over, r.perBox)}`).join('; ') || soft('none'),
  },
];

/** Whole boxes where it comes in boxes: part of one cannot be bought. */
function orderWords(row: ReorderLine): string {
  if (row.order === 0) return 'none';
  if (row.boxes === null) return row.order.toLocaleString('en-US');
  return `${row.boxes.toLocaleString('en-US')} ${row.boxes === 1 ? 'box' : 'boxes'} of ${row.perBox}`;
}

export const BETTER: readonly TableColumn<BetterLine>[] = [
  { key: 'what', head: 'Stock', cell: b => <strong className={styles.oneLine}>{b.what}</strong> },
  { key: 'lot', head: 'Lot', cell: b => <span className="mono">{b.lot === b.expires ? '' : b.lot}</span> },
  { key: 'expires', head: 'Expires', figure: true, cell: b => dateText(b.expires) },
  { key: 'from', head: 'Lies at', cell: b => b.fromName },
  { key: 'left', head: 'Left over there', figure: true, cell: b => amountWords(b.left, b.perBox) },
  { key: 'to', head: 'Used up at', cell: b => b.toName },
  { key: 'amount', head: 'Move', figure: true, cell: b => <b>{amountWords(b.amount, b.perBox)}</b> },
];

export type SpareRow = SupplyShelf['spares'][number];

export const SPARES: readonly TableColumn<SpareRow>[] = [
  { key: 'title', head: 'Kind', cell: s => <span className={styles.oneLine}>{s.title}</span> },
  { key: 'what', head: 'What', cell: s => <strong className={styles.oneLine}>{s.what}</strong> },
  { key: 'station', head: 'Station', cell: s => <span className={styles.oneLine}>{s.station}</span> },
  { key: 'ready', head: 'Ready', figure: true, cell: s => s.ready },
  {
    key: 'not',
    head: 'Not ready',
    figure: true,
    cell: s => (s.not > 0 ? <b className={styles.wrong}>{s.not}</b> : '–'),
  },
  {
    key: 'numbers',
    head: 'Numbers',
    cell: s => (
      <span className={styles.cut}>
        <span className="mono">{s.numbers.join('  ')}</span>
      </span>
    ),
  },
];

export type CylinderRow = SupplyShelf['cylinders'][number];

export const CYLINDERS: readonly TableColumn<CylinderRow>[] = [
  { key: 'station', head: 'Station', cell: c => <span className={styles.oneLine}>{c.station}</span> },
  { key: 'what', head: 'Cylinders off the rigs', cell: c => <strong>{c.what}</strong> },
  { key: 'full', head: 'Full', figure: true, cell: c => c.by.full },
  { key: 'empty', head: 'To be filled', figure: true, cell: c => c.by['to be filled'] },
  { key: 'unknown', head: 'Not known', figure: true, cell: c => c.by['not known'] },
];
