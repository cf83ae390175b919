/** The rows under one notice: things it concerns, and serials it names that are not here. */
import type { NoticePage, NoticeSerial, NoticeThing } from '../../../db/api-notices.ts';
import { capital } from '../../../domain/capital.ts';
import { IN_USE } from '../../../domain/chains/settled.ts';
import type { TableColumn } from '../../parts/grid/RowTable.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import styles from './notices.module.css';

/** A thing or a serial. */
export type NoticeRow = { key: string; open: boolean } & (
  | { thing: NoticeThing; serial: null }
  | { thing: null; serial: NoticeSerial }
);

/** What is open first; a serial that has turned up is the thing it is. */
export function rowsOf(page: NoticePage, openOnly: boolean): NoticeRow[] {
  const rows: NoticeRow[] = [
    ...page.things.map(thing => ({ key: thing.item, open: thing.open, thing, serial: null })),
    ...page.expected
      .filter(e => e.found === null)
      .map(serial => ({ key: `serial ${serial.serial}`, open: serial.open, thing: null, serial })),
  ];
  const open = rows.filter(r => r.open);
  return openOnly ? open : [...open, ...rows.filter(r => !r.open)];
}

export const COLUMNS: readonly TableColumn<NoticeRow>[] = [
  {
    key: 'number',
    head: 'Number',
    cell: r => <span className={`mono ${styles.oneLine}`}>{r.thing ? r.thing.number : '–'}</span>,
  },
  {
    key: 'serial',
    head: 'Serial',
    cell: r => (
      <span className={`mono ${styles.oneLine}`}>{r.thing ? (r.thing.serial ?? '–') : r.serial.serial}</span>
    ),
  },
  {
    key: 'meant',
    head: 'Concerned',
    cell: r => <span className={styles.oneLine}>{meant(r)}</span>,
  },
  { key: 'now', head: 'Now', cell: r => <span className={styles.oneLine}>{now(r)}</span> },
  {
    key: 'where',
    head: 'Where',
    cell: r => (
      <span className={styles.cut}>
        {r.thing ? (r.thing.place ?? 'place not known') : 'not among our things'}
      </span>
    ),
  },
  {
    key: 'settled',
    head: 'Settled',
    cell: r => <span className={styles.oneLine}>{settled(r)}</span>,
  },
];

function meant({ thing }: NoticeRow) {
  if (thing === null) return 'Named';
  if (thing.concerns === 'yes') return 'Yes';
  return thing.concerns === 'no' ? 'No' : <b>Perhaps</b>;
}

function now({ thing, open }: NoticeRow) {
  if (thing === null) return <b className={styles.wrong}>Not found</b>;
  if (thing.isRig && thing.condition === 'tagged out') return 'Out of service';
  if (thing.concerns === 'yes' && open && IN_USE.has(thing.condition))
    return <b className={styles.wrong}>In use{thing.condition === 'limited use' ? ', limited' : ''}</b>;
  return <ConditionWord condition={thing.condition} spoken />;
}

function settled({ thing, serial, open }: NoticeRow) {
  const told = (thing ?? serial)?.settled;
  return open || !told ? <span className={styles.soft}>open</span> : capital(told.how);
}
