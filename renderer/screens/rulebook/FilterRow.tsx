/** What the list shows, in one row that reads as a sentence: words, family, what was seen, and how it is grouped. */
import { type Ref, useImperativeHandle, useRef } from 'react';
import type { Family } from '../../../domain/rulebook/types.ts';
import { KeyedBox } from '../../parts/words/KeyedBox.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import styles from './rulebook.module.css';
import { isFiltered, type RuleSearch } from './search.ts';

export interface FilterRowHandle {
  focus(): void;
}

interface FilterRowProps {
  search: RuleSearch;
  families: readonly Family[];
  onChange: (search: RuleSearch, replace?: boolean) => void;
  onTurn: () => void;
  onClear: () => void;
  /** Done filtering: the focus goes to the table. */
  onLeave: () => void;
  handle: Ref<FilterRowHandle>;
}

export function FilterRow({ search, families, onChange, onTurn, onClear, onLeave, handle }: FilterRowProps) {
  const box = useRef<HTMLInputElement>(null);
  useImperativeHandle(handle, () => ({ focus: () => box.current?.select() }), []);
  const bySource = search.by === 'source';
  const withRules = families.filter(f => f.requirements.length > 0);
  return (
    <section className={styles.sentence} aria-label="Filter">
      <KeyedBox hint="f">
        <input
          ref={box}
          className={styles.filterBox}
          aria-label="Filter: title, source, force"
          aria-keyshortcuts="f"
          placeholder="Filter"
          autoComplete="off"
          value={search.text ?? ''}
          onChange={event => onChange({ ...search, text: event.currentTarget.value || undefined }, true)}
          onKeyDown={event => {
            if (event.key !== 'Enter' && event.key !== 'Escape' && event.key !== 'ArrowDown') return;
            event.preventDefault();
            event.stopPropagation();
            onLeave();
          }}
        />
      </KeyedBox>
      <span>Show</span>
      <span className={styles.choices}>
        <select
          className={`${styles.slot} ${search.family === undefined ? '' : styles.set}`}
          aria-label="Family"
          value={search.family ?? ''}
          onChange={event => onChange({ ...search, family: event.currentTarget.value || undefined })}
        >
          <option value="">every family</option>
          {withRules.map(f => (
            <option key={f.id} value={f.id}>
              {f.plural}
            </option>
          ))}
        </select>
        <KeyHint of="n" />
      </span>
      {search.source !== undefined ? (
        <Chip said={`by ${search.source}`} onTakeOut={() => onChange({ ...search, source: undefined })} />
      ) : null}
      {search.only ? (
        <Chip said={`that are ${search.only}`} onTakeOut={() => onChange({ ...search, only: undefined })} />
      ) : null}
      {search.unsure ? (
        <Chip
          said="with a source not read first-hand"
          onTakeOut={() => onChange({ ...search, unsure: undefined })}
        />
      ) : null}
      <span>grouped</span>
      <button
        type="button"
        className={`${styles.slot} ${bySource ? styles.set : ''}`}
        onClick={onTurn}
        aria-keyshortcuts="g"
      >
        by {bySource ? 'source' : 'family'}
      </button>
      <KeyHint of="g" />
      {isFiltered(search) ? (
        <button type="button" className={styles.clear} onClick={onClear} aria-keyshortcuts="c">
          Clear <KeyHint of="c" />
        </button>
      ) : null}
    </section>
  );
}

function Chip({ said, onTakeOut }: { said: string; onTakeOut: () => void }) {
  return (
    <button type="button" className={`${styles.slot} ${styles.set}`} onClick={onTakeOut}>
      {said} ×<span className="seen-by-readers"> take this out</span>
    </button>
  );
}
