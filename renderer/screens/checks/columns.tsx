/** The columns of a check-off: its places, and the lines of one. */
import type { CarryLineNow, CheckoffPlace } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import {
  type Exception,
  isBySeal,
  needsEntry,
  type Operated,
  type PlaceMark,
  type Unfinished,
} from '../../../domain/checkoffs/marks.ts';
import type { TableColumn } from '../../parts/grid/RowTable.tsx';
import { Photos } from '../../parts/photos/Photos.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import styles from './checks.module.css';

export function placeColumns(
  of: (place: string) => PlaceMark,
  left: readonly Unfinished[],
  isDraft: boolean,
): readonly TableColumn<CheckoffPlace>[] {
  return [
    { key: 'letter', head: 'Code', cell: p => <span className="mono">{p.letter}</span> },
    { key: 'name', head: 'Place', cell: p => <strong className={styles.oneLine}>{p.name}</strong> },
    { key: 'lines', head: 'Lines', figure: true, cell: p => p.lines.length },
    {
      key: 'found',
      head: 'Found',
      cell: p => <PlaceFound mark={of(p.name)} left={isDraft ? left.filter(u => u.place === p.name) : []} />,
    },
  ];
}

function PlaceFound({ mark, left }: { mark: PlaceMark; left: readonly Unfinished[] }) {
  if (mark.leftOut !== null) return <span className={styles.soft}>left out: {mark.leftOut}</span>;
  const wrong = mark.exceptions.length;
  const said = mark.present || wrong > 0;
  const owed = left.filter(u => u.line !== null).length;
  const parts = [
    ...(wrong > 0 ? [`${wrong} ${wrong === 1 ? 'exception' : 'exceptions'}`] : []),
    ...(said && owed > 0 ? [`${owed} to enter`] : []),
    ...(said && owed === 0 && left.length > 0 ? ['the rest?'] : []),
  ];
  if (!said) return <span className={styles.soft}>–</span>;
  if (parts.length === 0) return <span className={styles.oneLine}>✓ all present</span>;
  return <b className={wrong > 0 ? styles.wrong : undefined}>{parts.join(', ')}</b>;
}

/** @param isDraft a signed sheet does not say what is known to lie there now */
export const lineColumns = (mark: PlaceMark, isDraft: boolean): readonly TableColumn<CarryLineNow>[] =>
  columnsOf(mark).filter(c => isDraft || c.key !== 'known');

const columnsOf = (mark: PlaceMark): readonly TableColumn<CarryLineNow>[] => [
  { key: 'code', head: 'Code', cell: l => <span className="mono">{l.code}</span> },
  {
    key: 'what',
    head: 'What',
    cell: l => (
      <span>
        {l.critical ? <b>{l.what}</b> : l.what}
        {l.critical ? <span className={styles.soft}> critical</span> : null}
      </span>
    ),
  },
  { key: 'qty', head: 'Carried', figure: true, cell: l => l.qty },
  {
    key: 'known',
    head: 'Known here',
    cell: l => (
      <span className={`mono ${styles.numbersOf}`}>
        {l.here.length > 6
          ? `${l.here
              .slice(0, 6)
              .map(t => t.number)
              .join(' ')} … ${l.here.length}`
          : l.here.map(t => t.number).join(' ')}
      </span>
    ),
  },
  {
    key: 'how',
    head: 'By',
    cell: l => <span className={styles.soft}>{l.reading ? 'reading' : isBySeal(l) ? 'seal' : l.verify}</span>,
  },
  { key: 'found', head: 'Found', cell: l => <LineFound line={l} mark={mark} /> },
];

function LineFound({ line, mark }: { line: CarryLineNow; mark: PlaceMark }) {
  const wrong = mark.exceptions.filter(e => e.line === line.line);
  const operated = mark.operated.filter(o => o.line === line.line && o.works);
  const seen = line.here.filter(t => mark.seen.includes(t.item)).length;
  return (
    <span className={styles.found}>
      {wrong.map(e => (
        <span key={`${e.kind} ${e.item}`}>
          <b className={styles.wrong}>{exceptionWords(e, line)}</b>
          <Photos
            shots={(e.photos ?? []).map(photo => ({
              photo,
              of: `${line.what}: ${e.kind}`,
              told: e.note ?? '',
            }))}
          />
        </span>
      ))}
      {operated.length > 0 ? (
        <span>
          {isBySeal(line)
            ? `✓ seal ${operated.map(o => o.reading).join(', ')}`
            : worksWords(line, operated[0])}
        </span>
      ) : null}
      {seen > 0 ? <span>{seen} seen</span> : null}
      {isBySeal(line) && mark.present ? (
        <SealsOwed line={line} read={operated.length + wrong.length} />
      ) : null}
      {!isBySeal(line) && wrong.length === 0 && operated.length === 0 && mark.present ? (
        needsEntry(line) ? (
          <b>{line.reading ? 'to read' : 'to operate'}</b>
        ) : (
          <span>✓</span>
        )
      ) : null}
      {wrong.length === 0
        ? line.defects.map(d => (
            <span key={d.id} className={styles.soft}>
              open: {d.kind} {dateText(d.since)}
            </span>
          ))
        : null}
    </span>
  );
}

const worksWords = (line: CarryLineNow, operated: Operated | undefined): string =>
  `✓ works${operated?.reading ? `, ${operated.reading}${line.reading?.unit ? ` ${line.reading.unit}` : ''}` : ''}`;

/** Seals that are still to be read, and the earliest date inside the first of them. */
function SealsOwed({ line, read }: { line: CarryLineNow; read: number }) {
  const owed = Math.max(0, line.qty - read);
  const expires = line.here[read]?.kit?.expires;
  if (owed === 0) return null;
  return (
    <>
      <b>{owed === 1 ? 'seal to read' : `${owed} seals to read`}</b>
      {expires ? <span className={styles.soft}>earliest date {dateText(expires)}</span> : null}
    </>
  );
}

/** `Short 2: swap`, `Missing 31-107: report missing`. */
export function exceptionWords(e: Exception, line: Pick<CarryLineNow, 'here' | 'elsewhere'> | null): string {
  const thing = [...(line?.here ?? []), ...(line?.elsewhere ?? [])].find(t => t.item === e.item);
  const parts = [
    capital(e.kind),
    e.short === null ? '' : String(e.short),
    e.reading ?? '',
    thing?.number ?? '',
  ].filter(p => p !== '');
  const next = e.defect === null ? e.next : 'known';
  return `${parts.join(' ')}${e.note ? ` (${e.note})` : ''}: ${next}`;
}
