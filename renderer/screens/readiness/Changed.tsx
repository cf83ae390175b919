/** What was done since the last look; each line opens its thing, a line of several opens into them. */
import { useState } from 'react';
import type { ChangeLine } from '../../../db/api-desk.ts';
import { Action } from '../../parts/Action.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { momentText } from '../../parts/words/dates.tsx';
import { type ChangeGroup, groupChanges, isQuiet } from './lastLook.ts';
import styles from './readiness.module.css';
import type { Changes } from './useChanges.ts';

interface ChangedProps {
  changes: Changes;
  zone: string;
  onOpenPage: (item: string) => void;
}

const SHOWN = 10;

export function Changed({ changes, zone, onOpenPage }: ChangedProps) {
  const [opened, setOpened] = useState<ReadonlySet<string>>(new Set());
  const [all, setAll] = useState(false);
  const { since, who, total, lines } = changes;
  const groups = groupChanges(lines ?? [], iso => momentText(iso, zone).slice(0, -6));
  const shown = all ? groups : groups.slice(0, SHOWN);
  const rows = shown.flatMap(g =>
    opened.has(g.key) ? [g, ...g.lines.map(l => ({ key: `${l.entry} alone`, lines: [l] }))] : [g],
  );
  const open = ({ key, lines: [first, ...more] }: ChangeGroup) => {
    if (more.length > 0)
      setOpened(before => new Set(before.has(key) ? [...before].filter(k => k !== key) : [...before, key]));
    else if (first?.item) onOpenPage(first.item);
  };
  return (
    <section className={styles.block} aria-label="What was done since the last look">
      <h2>
        Since {since === null ? 'yesterday' : `${who ? 'your' : 'the'} last look`}
        <span className={styles.blockActions}>
          <Action weight="plain" hint="l" onClick={changes.mark} disabled={lines === undefined}>
            Mark as looked
          </Action>
        </span>
      </h2>
      <p className={styles.under}>{lookWords(changes, zone)}</p>
      {rows.length > 0 ? (
        <RowTable
          label="What was done since the last look"
          columns={columnsIn(zone, opened)}
          rows={rows}
          keyOf={g => g.key}
          onOpen={open}
          isFaint={g => g.lines.every(isQuiet)}
        />
      ) : null}
      {groups.length > SHOWN ? (
        <Action weight="quiet" onClick={() => setAll(!all)}>
          {all ? 'The newest only' : `All ${groups.length} lines`}
        </Action>
      ) : null}
      {total !== undefined && lines !== undefined && total > lines.length ? (
        <p className={styles.under}>
          {(total - lines.length).toLocaleString('en-US')} older ones are not listed.
        </p>
      ) : null}
    </section>
  );
}

function lookWords({ since, who, total }: Changes, zone: string): string {
  const deeds =
    total === undefined
      ? ''
      : total === 0
        ? 'Nothing was done. '
        : `${total.toLocaleString('en-US')} ${total === 1 ? 'deed' : 'deeds'}. `;
  if (since !== null)
    return `${deeds}Last look ${momentText(since, zone)}${who ? `, ${who}` : ''}, on this computer.`;
  return `${deeds}${who ?? 'Nobody'} ${who ? 'has marked no look' : 'acts yet, and no look is marked'} on this computer.`;
}

const columnsIn = (zone: string, opened: ReadonlySet<string>): TableColumn<ChangeGroup>[] => [
  { key: 'when', head: 'When', figure: true, cell: ({ lines }) => shortMoment(lines.at(0), zone) },
  {
    key: 'number',
    head: 'Thing',
    cell: ({ key, lines }) =>
      lines.length > 1 ? (
        <span className={styles.oneLine}>
          {opened.has(key) ? '▾' : '▸'} {lines.length.toLocaleString('en-US')} things
        </span>
      ) : (
        <Named line={lines[0]} />
      ),
  },
  {
    key: 'what',
    head: 'What was done',
    cell: ({ lines: [first] }) => <span className={styles.wraps}>{first?.what}</span>,
  },
  {
    key: 'by',
    head: 'Signed by',
    cell: ({ lines: [first] }) => <span className={styles.oneLine}>{first?.byName ?? ''}</span>,
  },
];

/** What it was done to: a thing by its number, a rig or a place by its name. */
function Named({ line }: { line: ChangeLine | undefined }) {
  if (line?.number) return <span className={styles.number}>{line.number}</span>;
  return <span className={styles.oneLine}>{line?.thing ?? ''}</span>;
}

/** `25 Nov 06:40`: the year is plain from the heading. */
function shortMoment(line: ChangeLine | undefined, zone: string): string {
  return line ? momentText(line.recordedAt, zone).replace(/ \d{4} /, ' ') : '';
}
