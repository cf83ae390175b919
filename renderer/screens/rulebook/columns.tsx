import { clockWords } from '../../../domain/rulebook/clock-words.ts';
import type { Family, Source } from '../../../domain/rulebook/types.ts';
import { cited, leastSure, narrowerWords } from '../../../domain/rulebook/words.ts';
import type { Column } from '../../parts/grid/Grid.tsx';
import { adoptedWords, type Entry, forceHere, type Line, standingsOf } from './entries.ts';
import styles from './rulebook.module.css';

/** The columns of the list. Grouped by source, the source told is the one that the group is of. */
export function ruleColumns(families: readonly Family[], bySource: boolean, today: string): Column<Line>[] {
  const of = (cell: (entry: Entry, line: Line) => React.ReactNode) => (line: Line) =>
    line.heading === null ? cell(line.entry, line) : null;
  const familyOf = ({ requirement }: Entry) => families.find(f => f.id === requirement.family);
  return [
    {
      key: 'title',
      head: 'Requirement',
      width: 'minmax(26ch, 1fr)',
      cell: of(entry => (
        <span className={styles.title}>
          {entry.requirement.title}
          <span className={styles.narrower}>{narrowerWords(entry.requirement, familyOf(entry))}</span>
          {standingsOf(entry).includes('looser') ? <span className={styles.unsure}> · looser</span> : null}
          {standingsOf(entry).includes('to confirm') ? (
            <span className={styles.unsure}> · to confirm</span>
          ) : null}
        </span>
      )),
    },
    ...(bySource
      ? [
          {
            key: 'family',
            head: 'Family',
            width: 'minmax(9ch, 13ch)',
            cell: of(entry => <span>{familyOf(entry)?.title ?? entry.requirement.family}</span>),
          },
        ]
      : []),
    {
      key: 'clock',
      head: 'When',
      width: 'minmax(13ch, 1.2fr)',
      cell: of(entry => <span>{clockWords(entry.requirement, familyOf(entry))}</span>),
    },
    {
      key: 'source',
      head: bySource ? 'Section, edition' : 'By',
      width: 'minmax(16ch, 1.4fr)',
      cell: of((entry, line) => <span>{sourceText(entry, bySource ? groupOf(line, entry) : null)}</span>),
    },
    {
      key: 'edition',
      head: 'Edition',
      width: 'minmax(7ch, 0.8fr)',
      spare: true,
      cell: of(entry => <span>{bySource ? '' : entry.requirement.sources[0]?.edition}</span>),
    },
    {
      key: 'force',
      head: 'Force here',
      width: '11.5ch',
      cell: of(e => <span className={e.line.force.certain ? undefined : styles.unsure}>{forceHere(e)}</span>),
    },
    {
      key: 'seen',
      head: 'Seen',
      width: '11.5ch',
      spare: true,
      cell: of((entry, line) => {
        const seen = seenIn(entry, bySource ? groupOf(line, entry) : null);
        return seen === 'read' ? <span>read</span> : <span className={styles.unsure}>{SEEN[seen]}</span>;
      }),
    },
    {
      key: 'late',
      head: 'Late',
      width: '6ch',
      spare: true,
      cell: of(e => <span>{e.requirement.late}</span>),
    },
    {
      key: 'adopted',
      head: 'Adopted',
      width: 'minmax(13ch, 17ch)',
      spare: true,
      cell: of(entry => (
        <span className={standingsOf(entry).length > 0 ? styles.unsure : undefined}>
          {standingsOf(entry).join(', ') || adoptedWords(entry, today)}
        </span>
      )),
    },
  ].filter(c => !(bySource && c.key === 'edition'));
}

/** How a source was seen, in a column's width. */
const SEEN: Readonly<Record<Source['confidence'], string>> = {
  read: 'read',
  'read second-hand': 'second-hand',
  memory: 'memory',
  'common practice': 'practice',
};

/** By source, how that one was seen; else the least sure of all. */
function seenIn({ requirement }: Entry, document: string | null): Source['confidence'] {
  const sources = requirement.sources.filter(s => document === null || s.document === document);
  return leastSure({ sources });
}

/** The document that the group of a line is of: what stands before the requirement in the line's key. */
const groupOf = (line: Line, { requirement }: Entry) => line.key.slice(0, -requirement.id.length - 1);

function sourceText({ requirement }: Entry, document: string | null): string {
  const [first] = requirement.sources;
  if (document === null) return first ? cited(first) : '';
  const source = requirement.sources.find(s => s.document === document);
  return [source?.section, source?.edition].filter(Boolean).join('; ');
}
