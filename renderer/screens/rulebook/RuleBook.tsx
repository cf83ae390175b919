import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate } from '@tanstack/react-router';
import type { RulebookList } from '../../../db/api-rules.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import { leastSure } from '../../../domain/rulebook/words.ts';
import { useAsk } from '../../api/ask.ts';
import { useKeys } from '../../parts/keys/keys.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { Editions } from './Editions.tsx';
import { type Entry, entriesOf, STANDINGS, standingsOf } from './entries.ts';
import { Permits } from './Permits.tsx';
import { Requirements } from './Requirements.tsx';
import styles from './rulebook.module.css';
import { Settings } from './Settings.tsx';
import { type RulePart, type RuleSearch, readRuleSearch } from './search.ts';
import { TryIt } from './TryIt.tsx';

export { type RuleSearch, readRuleSearch };

/** The parts of the book, each with its key. */
const PARTS: readonly { part: RulePart; key: string; title: string }[] = [
  { part: 'rules', key: 'r', title: 'Requirements' },
  { part: 'policies', key: 's', title: 'Settings' },
  { part: 'permits', key: 'q', title: 'Permits' },
  { part: 'editions', key: 'v', title: 'Editions' },
  { part: 'try', key: 't', title: 'Try it' },
];

/** By what rule? */
export function RuleBook({ search }: { search: RuleSearch }) {
  useDocumentTitle('Rule book · Baybook');
  const book = useAsk('rulebook.list', {});
  const words = useAsk('vocabulary.list', {});
  const summary = useAsk('department.summary', {});
  if (!book.data || !words.data || !summary.data)
    return (
      <div className={styles.screen}>
        <header className={styles.header}>
          <h1>By what rule is a thing judged, and who says so?</h1>
        </header>
        <NotReady loaded={[book, words, summary].find(l => l.isError) ?? book} />
      </div>
    );
  return (
    <Book search={search} book={book.data} families={words.data.families} today={summary.data?.today ?? ''} />
  );
}

export interface BookProps {
  search: RuleSearch;
  book: RulebookList;
  entries: readonly Entry[];
  families: readonly Family[];
  today: string;
  /** Another place in the book; `replace` where it is no step of its own. */
  onChange: (search: RuleSearch, replace?: boolean) => void;
}

function Book({ search, book, families, today }: Omit<BookProps, 'entries' | 'onChange'>) {
  const navigate = useNavigate();
  const onChange = (next: RuleSearch, replace = false) =>
    void navigate({ to: '/rules', search: next, replace });
  const now = search.part ?? 'rules';
  // On the list of requirements `t` tries the one that is looked at, and is answered there.
  const keyed = PARTS.filter(p => p.part !== now && !(now === 'rules' && p.part === 'try'));
  useKeys(
    'Rule book',
    keyed.map(({ part, key, title }) => ({ key, label: title, run: () => onChange(searchOf(part)) })),
  );
  const entries = entriesOf(book.rules, today);
  const props = { search, book, entries, families, today, onChange };
  return (
    <div className={styles.screen}>
      <header className={styles.header}>
        <h1>By what rule is a thing judged, and who says so?</h1>
        <Numbers entries={entries} book={book} />
        <nav className={styles.parts} aria-label="Parts of the rule book">
          {PARTS.map(({ part, key, title }) => (
            <Link
              key={part}
              to="/rules"
              search={searchOf(part)}
              aria-keyshortcuts={key}
              activeOptions={{ exact: true, includeSearch: true }}
              {...(part === now ? { 'aria-current': 'page' as const } : {})}
            >
              {title} <KeyHint of={key} />
            </Link>
          ))}
        </nav>
      </header>
      {now === 'rules' ? <Requirements {...props} /> : null}
      {now === 'policies' ? <Settings {...props} /> : null}
      {now === 'permits' ? <Permits {...props} /> : null}
      {now === 'editions' ? <Editions {...props} /> : null}
      {now === 'try' ? <TryIt {...props} /> : null}
    </div>
  );
}

const searchOf = (part: RulePart): RuleSearch => (part === 'rules' ? {} : { part });

/** Standings that ask something of the department, or that nobody should overlook. */
const ASKS: ReadonlySet<string> = new Set(['to confirm', 'newer text', 'looser']);

/** The answer in one line of numbers; what leads somewhere is a link. */
function Numbers({ entries, book }: { entries: readonly Entry[]; book: RulebookList }) {
  const adopted = entries.filter(e => e.adopted).length;
  const unsure = entries.filter(e => leastSure(e.requirement) !== 'read').length;
  const chosen = book.policies.filter(p => p.adopted).length;
  const toConfirm = book.permits.filter(p => p.confirmed === null && p.cylinders > 0).length;
  return (
    <ul className={styles.numbers}>
      <li>
        <Link to="/rules" search={{}}>
          <b>{adopted}</b> of {entries.length} adopted
        </Link>
      </li>
      {STANDINGS.filter(s => s !== 'ours' && s !== 'rests here').map(standing => {
        const n = entries.filter(e => standingsOf(e).includes(standing)).length;
        return n === 0 ? null : (
          <li key={standing} className={ASKS.has(standing) ? styles.unsure : undefined}>
            <Link to="/rules" search={{ only: standing }}>
              <b>{n}</b> {standing}
            </Link>
          </li>
        );
      })}
      {unsure > 0 ? (
        <li className={styles.unsure}>
          <Link to="/rules" search={{ unsure: true }}>
            <b>{unsure}</b> not read first-hand
          </Link>
        </li>
      ) : null}
      <li>
        <Link to="/rules" search={{ part: 'policies' }}>
          <b>{chosen}</b> of {book.policies.length} settings chosen
        </Link>
      </li>
      {toConfirm > 0 ? (
        <li className={styles.unsure}>
          <Link to="/rules" search={{ part: 'permits' }}>
            <b>{toConfirm}</b> {toConfirm === 1 ? 'permit' : 'permits'} to confirm
          </Link>
        </li>
      ) : null}
    </ul>
  );
}
