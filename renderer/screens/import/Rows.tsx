/** What each row of the sheet becomes, and what is wrong with the refused ones. */
import { useEffect, useRef, useState } from 'react';
import type { ImportPreview, ImportRow } from '../../../db/api.ts';
import { useDensity } from '../../parts/grid/density.ts';
import { type Column, Grid, type GridHandle } from '../../parts/grid/Grid.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { Empty } from '../../parts/words/NotReady.tsx';
import styles from './import.module.css';

interface RowsProps {
  preview: ImportPreview;
  onlyProblems: boolean;
  onOnlyProblems: (only: boolean) => void;
}

export function Rows({ preview, onlyProblems, onOnlyProblems }: RowsProps) {
  const density = useDensity();
  const [active, setActive] = useState(0);
  const grid = useRef<GridHandle>(null);
  const list = onlyProblems ? preview.rows.filter(hasProblem) : preview.rows;
  const at = Math.min(active, Math.max(list.length - 1, 0));
  const row = list[at];
  useEffect(() => grid.current?.focus(), []);
  return (
    <div className={styles.rows}>
      <div className={styles.rowsBar}>
        <label className={styles.only}>
          <input
            type="checkbox"
            checked={onlyProblems}
            onChange={event => onOnlyProblems(event.currentTarget.checked)}
            aria-keyshortcuts="p"
          />
          Only rows with problems <KeyHint of="p" />
        </label>
        <span role="status">{list.length.toLocaleString('en-US')} rows</span>
      </div>
      {list.length === 0 ? (
        <Empty>
          <p>{onlyProblems ? 'No row has a problem.' : 'The sheet holds no rows under its headings.'}</p>
        </Empty>
      ) : (
        <Grid
          label="Rows of the sheet"
          handle={grid}
          columns={columnsFor(preview)}
          count={list.length}
          rowAt={index => list[index]}
          active={at}
          onActive={setActive}
          density={density}
        />
      )}
      {row ? <RowDetail row={row} preview={preview} /> : null}
    </div>
  );
}

const hasProblem = (r: ImportRow) => !r.ok || r.problems.length > 0 || r.conflict.length > 0;

function columnsFor(preview: ImportPreview): Column<ImportRow>[] {
  const fields = [...new Set(preview.rows.flatMap(r => Object.keys(r.becomes ?? {})))];
  const values = fields.map(
    (field, i): Column<ImportRow> => ({
      key: `becomes ${field}`,
      head: titleOf(field, preview),
      width: 'minmax(9ch, 1fr)',
      figure: true,
      spare: i >= NARROW_FIELDS,
      cell: r => (hasProblem(r) ? null : <span>{shown(r.becomes?.[field])}</span>),
    }),
  );
  return [
    { key: 'number', head: 'Number', width: '11ch', cell: r => <span>{r.number ?? '–'}</span> },
    { key: 'line', head: 'Line', width: '5ch', figure: true, cell: r => <span>{r.line}</span> },
    {
      key: 'meets',
      head: 'It is',
      width: '17ch',
      spills: hasProblem,
      cell: r => (
        <span className={styles.meets}>
          <Meets row={r} />
          {hasProblem(r) ? <span className={r.ok ? undefined : styles.wrong}>{problemWords(r)}</span> : null}
        </span>
      ),
    },
    ...values,
  ];
}

/** How many fields stand in a narrow table; all of them stand in full under it. */
const NARROW_FIELDS = 4;

function Meets({ row }: { row: ImportRow }) {
  if (!row.ok) return <b className={styles.wrong}>Refused</b>;
  if (row.conflict.length > 0) return <b>In conflict</b>;
  if (row.meets === 'known') return <span>Known, adds {row.adds}</span>;
  return <span>{row.meets === 'same' ? 'Known, adds nothing' : 'New'}</span>;
}

function problemWords(row: ImportRow): string {
  const problems = row.problems.map(p => `${p.column ? `${p.column}: ` : ''}${p.wrong} ${p.todo}`);
  const conflicts = row.conflict.map(c => `${c.field}: the sheet says ${c.sheet}, the book says ${c.known}.`);
  const notes = row.notes.map(n => `${n.column ? `${n.column}: ` : ''}${n.note}`);
  return [...problems, ...conflicts, ...notes].join(' ');
}

function fieldsOf(row: ImportRow, preview: ImportPreview): [string, string][] {
  return Object.entries({ ...row.becomes, ...row.details })
    .filter(([, v]) => v !== null && v !== '')
    .map(([field, v]) => [titleOf(field, preview), shown(v)]);
}

const titleOf = (field: string, preview: ImportPreview): string =>
  preview.fields.find(f => f.field === field)?.title ?? inWords(field);

function shown(value: string | number | boolean | null | undefined): string {
  if (value === null || value === undefined) return '';
  return typeof value === 'string' ? dateText(value) : String(value);
}

/** A field that has no title of its own: `lastServiceTest` as `Last service test`. */
function inWords(field: string): string {
  const words = field.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The active row in full: every field, every problem, every conflict side by side. */
function RowDetail({ row, preview }: { row: ImportRow; preview: ImportPreview }) {
  return (
    <section
      className={styles.detail}
      aria-label={`Line ${row.line} in full`}
      aria-live="polite"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keys must be able to reach it.
      tabIndex={0}
    >
      <h3>
        Line {row.line}
        {row.number ? <span className="mono"> {row.number}</span> : null}
      </h3>
      {row.problems.map(p => (
        <p key={`${p.column} ${p.wrong}`} className={row.ok ? undefined : styles.wrong}>
          <strong>
            {p.column ? `${p.column}: ` : ''}
            {p.wrong}
          </strong>{' '}
          {p.todo}
        </p>
      ))}
      {row.notes.map(n => (
        <p key={`${n.column} ${n.note}`}>
          {n.column ? `${n.column}: ` : ''}
          {n.note}
        </p>
      ))}
      {row.conflict.length > 0 ? (
        <table className={styles.conflict}>
          <thead>
            <tr>
              <th scope="col">Conflict</th>
              <th scope="col">The sheet says</th>
              <th scope="col">The book says</th>
            </tr>
          </thead>
          <tbody>
            {row.conflict.map(c => (
              <tr key={c.field}>
                <th scope="row">{c.field}</th>
                <td>{c.sheet}</td>
                <td>{c.known}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      <dl className={styles.fields}>
        {fieldsOf(row, preview).map(([title, value]) => (
          <div key={title}>
            <dt>{title}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
