/** The contents of help, or what was found in it. The search box keeps the focus and the arrows. */
import { useEffect, useRef } from 'react';
import type { FoundPage } from './findPages.ts';
import styles from './help.module.css';

interface ContentsProps {
  found: readonly FoundPage[];
  shown: string | undefined;
  /** Under the names of their groups; what was found stands in the order of its fit. */
  grouped: boolean;
  onShow: (id: string) => void;
}

export function Contents({ found, shown, grouped, onShow }: ContentsProps) {
  const list = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: brought into sight whenever another page is shown.
  useEffect(() => {
    list.current?.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: 'nearest' });
  }, [shown]);
  const groups = grouped ? [...new Set(found.map(f => f.page.group))] : [''];
  return (
    <div ref={list} id="help-contents" role="listbox" aria-label="Contents" className={styles.contents}>
      {found.length === 0 ? <p className={styles.none}>Nothing fits these words.</p> : null}
      {groups.map(group => (
        // biome-ignore lint/a11y/useSemanticElements: a group of options inside a listbox, by the WAI-ARIA listbox pattern.
        <div key={group} role="group" aria-label={group || 'Found'}>
          {grouped ? (
            <p className={styles.group} aria-hidden="true">
              {group}
            </p>
          ) : null}
          {found
            .filter(f => !grouped || f.page.group === group)
            .map(({ page, excerpt }) => (
              // biome-ignore lint/a11y/useKeyWithClickEvents: the search box that keeps the focus has the keys.
              <div
                key={page.id}
                id={`help ${page.id}`.replaceAll(' ', '-')}
                role="option"
                tabIndex={-1}
                aria-selected={page.id === shown}
                className={styles.entry}
                onClick={() => onShow(page.id)}
              >
                {page.title}
                {excerpt !== null ? <span className={styles.excerpt}>{excerpt}</span> : null}
              </div>
            ))}
        </div>
      ))}
    </div>
  );
}
