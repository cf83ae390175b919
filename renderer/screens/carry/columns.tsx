/** The columns of a carry list and of what stands under it. */
import type { CarryLineNow, CarryPage, PublishedLine } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import { toServe } from '../../../domain/carry/lacking.ts';
import type { Schedule } from '../../../domain/checkoffs/schedule.ts';
import type { TableColumn } from '../../parts/grid/RowTable.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import styles from '../checks/checks.module.css';
import { scheduleWords } from './scheduleForm.ts';

export const COLUMNS: readonly TableColumn<CarryLineNow>[] = [
  { key: 'code', head: 'Code', cell: l => <span className="mono">{l.code}</span> },
  { key: 'place', head: 'Place', cell: l => <span className={styles.oneLine}>{l.place}</span> },
  { key: 'what', head: 'What', cell: l => (l.critical ? <b>{l.what}</b> : l.what) },
  { key: 'critical', head: 'Critical', cell: l => (l.critical ? 'critical' : '') },
  { key: 'qty', head: 'Carried', figure: true, cell: l => l.qty },
  { key: 'min', head: 'Least', figure: true, cell: l => l.min },
  {
    key: 'how',
    head: 'By',
    cell: l => (
      <span className={styles.oneLine}>
        {l.reading
          ? `${l.reading.title}${l.reading.atLeast ? `, at least ${l.reading.atLeast}` : ''}`
          : capital(l.verify)}
      </span>
    ),
  },
  {
    key: 'serving',
    head: 'Known here',
    figure: true,
    cell: l => (l.serving === null ? <span className={styles.soft}>counted</span> : l.serving),
  },
  {
    key: 'lacking',
    head: 'Lacking',
    figure: true,
    cell: l =>
      l.lacking === 0 ? (
        '–'
      ) : (
        <b className={toServe(l, l.lacking) > 0 ? styles.wrong : undefined}>
          {l.lacking}
          {toServe(l, l.lacking) > 0 ? ' short' : ''}
        </b>
      ),
  },
  {
    key: 'checked',
    head: 'Last gone through',
    figure: true,
    cell: l => (l.checked ? dateText(l.checked.on) : <span className={styles.soft}>never</span>),
  },
  {
    key: 'defects',
    head: 'Open',
    cell: l => l.defects.map(d => `${d.kind}${d.note ? `: ${d.note}` : ''}`).join('; '),
  },
];

export const SCHEDULES: readonly TableColumn<Schedule>[] = [
  { key: 'title', head: 'What', cell: s => <strong>{s.title}</strong> },
  { key: 'every', head: 'When', cell: s => capital(scheduleWords(s)) },
  { key: 'grace', head: 'Hours of grace', figure: true, cell: s => s.graceHours },
  { key: 'by', head: 'By', cell: s => s.by ?? 'whoever is there' },
  {
    key: 'what',
    head: 'Goes through',
    cell: s =>
      `${s.scope === 'operated only' ? 'what is operated or read' : 'everything'}${s.places ? ` in ${s.places.join(', ')}` : ''}`,
  },
];

export const PUBLISHED: readonly TableColumn<PublishedLine>[] = [
  { key: 'title', head: 'What', cell: m => m.title },
  {
    key: 'atLeast',
    head: 'At least',
    figure: true,
    cell: m => `${m.atLeast.toLocaleString('en-US')}${m.unit ? ` ${m.unit}` : ''}`,
  },
  { key: 'has', head: 'The list has', figure: true, cell: m => m.has?.toLocaleString('en-US') ?? '–' },
  {
    key: 'met',
    head: 'It is',
    cell: m => {
      if (m.met) return '✓ met';
      return m.has === null ? <b>not known</b> : <b className={styles.wrong}>not met</b>;
    },
  },
  { key: 'why', head: 'Why', cell: m => m.why ?? '' },
  {
    key: 'source',
    head: 'Source',
    cell: m => `${m.source.document} ${m.source.section} (${m.source.edition}), ${m.source.confidence}`,
  },
];

export const EXTRA: readonly TableColumn<CarryPage['extra'][number]>[] = [
  { key: 'number', head: 'Number', cell: t => <span className="mono">{t.number}</span> },
  { key: 'what', head: 'What', cell: t => t.what },
  { key: 'place', head: 'Where', cell: t => t.place || 'in no place of it' },
];
