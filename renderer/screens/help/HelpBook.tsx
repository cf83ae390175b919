import { useRef, useState } from 'react';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { KeyedBox } from '../../parts/words/KeyedBox.tsx';
import { Contents } from './Contents.tsx';
import { findPages } from './findPages.ts';
import styles from './help.module.css';
import { Page } from './Page.tsx';
import { helpPages, pageFor } from './pages/index.ts';

interface HelpBookProps {
  /** The address it was asked for from: the page of that screen, or of the rule that is open there, is shown first. */
  from: { path: string; rule?: string };
  onClose: () => void;
}

/** Help: a page for every screen and every rule, searchable, offline. */
export function HelpBook({ from, onClose }: HelpBookProps) {
  const today = useAsk('department.summary', {}).data?.today ?? '';
  const pages = helpPages(useAsk('rulebook.list', {}).data?.rules, today);
  const [typed, setTyped] = useState('');
  const [chosen, setChosen] = useState<string | null>(null);
  const box = useRef<HTMLInputElement>(null);
  const page = useRef<HTMLElement>(null);
  const found = findPages(pages, typed);
  // What was chosen; while words are typed, the best that fits them; else the page of where one came from.
  const isChosenFound = found.some(f => f.page.id === chosen);
  const shown = isChosenFound
    ? pages.find(p => p.id === chosen)
    : typed.trim() !== ''
      ? found[0]?.page
      : pageFor(from, pages);

  const move = (by: number) => {
    const at = found.findIndex(f => f.page.id === shown?.id);
    const next = found[Math.min(Math.max(at + by, 0), found.length - 1)];
    if (next) setChosen(next.page.id);
  };
  const read = () => page.current?.focus();
  return (
    <Dialog
      title="Help"
      onClose={onClose}
      wide
      keys={[
        { key: '/', label: 'Search help', run: () => box.current?.select() },
        { key: 'i', label: 'Into the page, to read on', run: read },
      ]}
    >
      <div className={styles.book}>
        <div className={styles.side}>
          <KeyedBox hint="/">
            <input
              ref={box}
              className={styles.search}
              type="text"
              role="combobox"
              aria-label="Search help"
              aria-keyshortcuts="/"
              aria-controls="help-contents"
              aria-expanded="true"
              aria-autocomplete="list"
              aria-activedescendant={shown ? `help ${shown.id}`.replaceAll(' ', '-') : undefined}
              placeholder="Search help"
              autoComplete="off"
              data-autofocus
              value={typed}
              onChange={event => {
                setTyped(event.currentTarget.value);
                setChosen(null);
              }}
              onKeyDown={event => {
                const by = { ArrowDown: 1, ArrowUp: -1, PageDown: 8, PageUp: -8 }[event.key];
                if (by !== undefined) move(by);
                else if (event.key === 'Enter') read();
                else return;
                event.preventDefault();
                event.stopPropagation();
              }}
            />
          </KeyedBox>
          <Contents found={found} shown={shown?.id} grouped={typed.trim() === ''} onShow={setChosen} />
        </div>
        {shown ? (
          <Page
            page={shown}
            handle={page}
            at={found.find(f => f.page === shown)?.section ?? null}
            onLeave={onClose}
          />
        ) : (
          <p className={styles.nothing}>Try fewer letters, or a word of the trade.</p>
        )}
      </div>
      <div className={styles.foot}>
        <span>
          Arrows turn the pages, <b>Enter</b> goes into one. The key sheet lists every key.
        </span>
        <Action weight="quiet" hint="Escape" onClick={onClose}>
          Close
        </Action>
      </div>
    </Dialog>
  );
}
