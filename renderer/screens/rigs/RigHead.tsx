import type { ReactNode } from 'react';
import type { RigPage } from '../../../db/api-desk.ts';
import { countWrong, isWrong } from '../../../domain/derive/marks.ts';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { RigState } from './RigState.tsx';
import styles from './rigs.module.css';

/** Which rig it is, how it stands, and what can be done with it. */
export function RigHead({ page, children }: { page: RigPage; children: ReactNode }) {
  const everything = [...page.loose, ...page.places.flatMap(p => p.items)];
  const wrong = countWrong(everything);
  return (
    <header className={styles.pageHead}>
      <h1>What rides on {page.name}, and where?</h1>
      <p className={styles.numbers}>
        <span>
          <b>{everything.length.toLocaleString('en-US')}</b> things in <b>{page.places.length}</b> places
        </span>
        <span>
          {wrong > 0 ? (
            <b className={styles.late}>{wrong} with something wrong</b>
          ) : (
            'nothing wrong with them'
          )}
        </span>
        {isWrong(page.itself) ? (
          <span>
            the rig itself: <StateMark state={page.itself} />
          </span>
        ) : null}
        <span>
          {page.unit ? (
            <>
              ridden by <b>{page.unit}</b>
              {page.standing === 'reserve' ? ', a reserve rig' : ''}
            </>
          ) : (
            'nobody rides it'
          )}
        </span>
        {page.station ? <span>{page.station}</span> : null}
        {page.chassis ? <span>{page.chassis}</span> : null}
        {page.meters.map(m => (
          <span key={m.meter}>
            <b>{m.reading.toLocaleString('en-US')}</b> {m.meter}, {dateText(m.on)}
          </span>
        ))}
      </p>
      <div className={styles.headActions}>
        <span
          className={page.condition === 'in service' ? styles.state : `${styles.state} ${styles.stateWhy}`}
        >
          <RigState condition={page.condition} />
          {page.condition === 'in service' ? null : (
            <span className={styles.soft}>
              {page.conditionReason}
              {page.conditionSince ? `, since ${dateText(page.conditionSince)}` : ''}. The officer decides;
              only someone entitled returns it.
            </span>
          )}
        </span>
        {children}
      </div>
    </header>
  );
}
