import { Link } from '@tanstack/react-router';
import type { ItemPage } from '../../../db/api.ts';
import { RIG_FAMILY } from '../../parts/deeds/deeds.ts';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { DateText, dateText } from '../../parts/words/dates.tsx';
import { Plate } from '../../parts/words/Plate.tsx';
import styles from './thing.module.css';

/** What it is and how it stands, in one look. */
export function Head({ page }: { page: ItemPage }) {
  const { known, next } = page;
  return (
    <header className={styles.head}>
      <h1 className={styles.title}>
        <Plate number={page.number} large />
        <span className={styles.what}>{page.what}</span>
      </h1>
      <dl className={styles.stands}>
        <div>
          <dt>State</dt>
          <dd>
            <StateMark state={page.state} />
          </dd>
        </div>
        <div>
          <dt>Next</dt>
          <dd>
            <DateText date={next?.dueOn ?? null} />
            {next ? <span className={styles.soft}>{next.titles.join(', ')}</span> : null}
          </dd>
        </div>
        {/* What a rig is in is told on its own page. */}
        {page.family === RIG_FAMILY && page.condition === 'serviceable' ? null : (
          <div>
            <dt>Condition</dt>
            <dd>
              <ConditionWord condition={page.condition} spoken />
              {page.conditionSince ? (
                <span className={styles.soft}>since {dateText(page.conditionSince)}</span>
              ) : null}
            </dd>
          </div>
        )}
        {page.family === RIG_FAMILY ? null : (
          <div>
            <dt>Place</dt>
            <dd>
              {page.place ?? 'Not known'}
              {known ? (
                <span className={styles.soft}>
                  known by {known.how}, {dateText(known.since)}
                </span>
              ) : null}
            </dd>
          </div>
        )}
        {page.family === RIG_FAMILY ? null : (
          <div>
            <dt>Assigned</dt>
            <dd>{page.assignment ?? 'Not assigned'}</dd>
          </div>
        )}
        {page.lifeEndsOn ? (
          <div>
            <dt>Life ends</dt>
            <dd>
              <DateText date={page.lifeEndsOn} />
            </dd>
          </div>
        ) : null}
      </dl>
      {page.owed.map(o => (
        <p key={`${o.activity} ${o.since}`} className={styles.owed}>
          Owes a {o.activity} since {dateText(o.since)}: {o.because}.
        </p>
      ))}
      {page.clashes.length > 0 ? (
        <p className={styles.owed}>
          Another living thing of its family has the number {page.number}:{' '}
          {page.clashes.map((clash, i) => (
            <Link key={clash} to="/thing/$item" params={{ item: clash }}>
              {i === 0 ? 'open it' : 'and this one'}
            </Link>
          ))}
          . Mend the number of one of them.
        </p>
      ) : null}
    </header>
  );
}
