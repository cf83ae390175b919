/** The columns of kits, of what is in one, and of templates. */
import type { KitContent, KitLine, KitTemplateLine, KitTemplatePage } from '../../../db/api-kits.ts';
import { capital } from '../../../domain/capital.ts';
import type { TableColumn } from '../../parts/grid/RowTable.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import styles from './kits.module.css';

const soft = (text: string) => <span className={styles.soft}>{text}</span>;

/** What a kit is good for now, in words. */
export function Serves({ kit }: { kit: Pick<KitLine, 'effect' | 'condition' | 'template'> }) {
  if (kit.condition !== 'serviceable') return <ConditionWord condition={kit.condition} spoken />;
  if (kit.template === null) return soft('no template');
  if (kit.effect === 'blocks') return <b className={`${styles.wrong} ${styles.oneLine}`}>Does not serve</b>;
  if (kit.effect === 'limits') return <b className={styles.oneLine}>Serves, short</b>;
  return <span className={styles.oneLine}>{kit.effect === 'notes' ? 'Serves, under par' : '✓ serves'}</span>;
}

export function SealWord({ kit }: { kit: Pick<KitLine, 'state' | 'seal' | 'found'> }) {
  switch (kit.state) {
    case 'sealed':
      return <span className="mono">{kit.seal}</span>;
    case 'seal differs':
      return (
        <b className={`${styles.wrong} ${styles.oneLine}`}>
          {kit.found}, not {kit.seal}
        </b>
      );
    default:
      return (
        <b className={`${styles.wrong} ${styles.oneLine}`}>{capital(kit.state.replace(/^seal /, ''))}</b>
      );
  }
}

export const KITS: readonly TableColumn<KitLine>[] = [
  {
    key: 'number',
    head: 'Number',
    cell: k => <strong className={`mono ${styles.oneLine}`}>{k.number}</strong>,
  },
  {
    key: 'kind',
    head: 'Kind',
    cell: k => <span className={styles.oneLine}>{k.kind ?? soft('not said')}</span>,
  },
  {
    key: 'where',
    head: 'Where',
    cell: k => <span className={styles.cut}>{k.place ?? soft('not known')}</span>,
  },
  { key: 'serves', head: 'It', cell: k => <Serves kit={k} /> },
  { key: 'seal', head: 'Seal', cell: k => <SealWord kit={k} /> },
  {
    key: 'seen',
    head: 'Seen whole',
    figure: true,
    cell: k => (k.seenOn ? dateText(k.seenOn.slice(0, 10)) : soft('never')),
  },
  {
    key: 'expires',
    head: 'Earliest date',
    figure: true,
    cell: k => (k.expires ? dateText(k.expires) : k.countedOn ? soft('none') : ''),
  },
  {
    key: 'counted',
    head: 'Full count',
    figure: true,
    cell: k => (k.countedOn ? dateText(k.countedOn.slice(0, 10)) : soft('never')),
  },
  {
    key: 'why',
    head: 'Against it',
    cell: k => <span className={styles.cut}>{capital(k.reasons.join('; '))}</span>,
  },
];

export const TEMPLATE_LIST: readonly TableColumn<KitTemplateLine>[] = [
  { key: 'what', head: 'Kind', cell: t => <strong>{t.what}</strong> },
  { key: 'lines', head: 'Lines', figure: true, cell: t => t.lines },
  { key: 'critical', head: 'Critical', figure: true, cell: t => t.critical },
  { key: 'kits', head: 'Kits', figure: true, cell: t => t.kits },
];

const WHAT: TableColumn<{ what: string; critical: boolean; place: string; qty: number; min: number }>[] = [
  { key: 'place', head: 'In', cell: l => <span className={styles.oneLine}>{l.place}</span> },
  {
    key: 'what',
    head: 'What',
    cell: l => (
      <span>
        {l.critical ? <b>{l.what}</b> : l.what}
        {l.critical ? soft(' critical') : null}
      </span>
    ),
  },
  { key: 'qty', head: 'Par', figure: true, cell: l => l.qty },
  { key: 'min', head: 'Least', figure: true, cell: l => l.min },
];

export const TEMPLATE_LINES: readonly TableColumn<KitTemplatePage['lines'][number]>[] = [
  ...WHAT,
  { key: 'filled', head: 'Filled by', cell: l => (l.family === null ? 'counted' : `tracked: ${l.family}`) },
  {
    key: 'source',
    head: 'Source',
    cell: l => soft(l.source ? `${l.source.document} ${l.source.section}`.trim() : 'the department’s own'),
  },
];

/** What is in a kit by what is known; beside it stands what is counted where it is being counted. */
export const CONTENTS: readonly TableColumn<KitContent>[] = [
  ...WHAT,
  {
    key: 'there',
    head: 'There',
    figure: true,
    cell: c => (c.isCounted ? c.there : soft('not counted')),
  },
  {
    key: 'expired',
    head: 'Expired',
    figure: true,
    cell: c => (c.expired > 0 ? <b className={styles.wrong}>{c.expired}</b> : '–'),
  },
  {
    key: 'lacking',
    head: 'Lacking',
    figure: true,
    cell: c =>
      c.lacking === 0 ? (
        '–'
      ) : (
        <b className={c.effect === 'notes' ? undefined : styles.wrong}>
          {c.lacking}
          {c.effect === 'blocks' ? ' critical' : c.effect === 'limits' ? ' short' : ''}
        </b>
      ),
  },
  { key: 'soonest', head: 'Earliest date', figure: true, cell: c => (c.soonest ? dateText(c.soonest) : '') },
  {
    key: 'things',
    head: 'Numbers',
    cell: c => <span className="mono">{c.things.map(t => t.number).join(' ')}</span>,
  },
];
