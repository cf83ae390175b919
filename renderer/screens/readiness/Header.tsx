/** The question, its answer in one line of numbers (each a filter), and what it does not decide. */

import type { Ref } from 'react';
import type { Readiness } from '../../../db/api-desk.ts';
import { VERDICTS, type Verdict } from '../../../domain/coverage/readiness.ts';
import { dateText } from '../../parts/words/dates.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import styles from './readiness.module.css';
import type { ReadinessSearch } from './search.ts';
import { VerdictMark } from './VerdictMark.tsx';

interface HeaderProps {
  readiness: Readiness | undefined;
  search: ReadinessSearch;
  onFilter: (filter: ReadinessSearch) => void;
  onLeave: () => void;
  select: Ref<HTMLSelectElement>;
}

export function Header({ readiness, search, onFilter, onLeave, select }: HeaderProps) {
  const { verdict, station } = search;
  const stations = [...new Set(readiness?.units.flatMap(u => u.station ?? []) ?? [])].sort();
  const counted = VERDICTS.filter(v => (readiness?.counts[v] ?? 0) > 0);
  return (
    <header className={styles.header}>
      <div className={styles.question}>
        <h1>What is known against each unit, and how fresh is it?</h1>
        {readiness ? (
          <span className={styles.soft}>
            {readiness.units.length} {readiness.units.length === 1 ? 'unit' : 'units'},{' '}
            {dateText(readiness.on)}
          </span>
        ) : null}
      </div>
      <div className={styles.answer}>
        {counted.map(v => (
          <button
            key={v}
            type="button"
            className={styles.count}
            aria-pressed={verdict === v}
            onClick={() => onFilter(withVerdict(search, v))}
          >
            <b>{readiness?.counts[v]}</b> <VerdictMark verdict={v} />
          </button>
        ))}
        {stations.length > 1 ? (
          <label className={styles.stationFilter}>
            at{' '}
            <select
              ref={select}
              value={station ?? ''}
              aria-keyshortcuts="f"
              aria-label="Station"
              onChange={event => onFilter(withStation(search, event.currentTarget.value))}
              onKeyDown={event => {
                if (event.key !== 'Escape' && event.key !== 'Enter') return;
                event.preventDefault();
                event.stopPropagation();
                onLeave();
              }}
            >
              <option value="">any station</option>
              {stations.map(s => (
                <option key={s}>{s}</option>
              ))}
            </select>{' '}
            <KeyHint of="f" />
          </label>
        ) : null}
        <p className={styles.advises}>It advises: it does not change dispatch status. The officer decides.</p>
      </div>
    </header>
  );
}

function withStation({ station: _, ...search }: ReadinessSearch, station: string): ReadinessSearch {
  return station === '' ? search : { ...search, station };
}

/** One verdict alone, or all again where it was alone already. */
function withVerdict({ verdict, ...search }: ReadinessSearch, chosen: Verdict): ReadinessSearch {
  return verdict === chosen ? search : { ...search, verdict: chosen };
}
