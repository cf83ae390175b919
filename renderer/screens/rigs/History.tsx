/** Who rode the rig, and what did not come back. */
import type { LeftThing, RigPage } from '../../../db/api-desk.ts';
import { Action } from '../../parts/Action.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { bringHomeForm } from './forms.ts';
import styles from './rigs.module.css';

const RIDES: readonly TableColumn<RigPage['rides'][number]>[] = [
  { key: 'unit', head: 'Unit', cell: r => r.unit },
  { key: 'from', head: 'From', cell: r => dateText(r.from) },
  { key: 'until', head: 'Until', cell: r => (r.until ? dateText(r.until) : 'still riding it') },
];

export function Rides({ page }: { page: RigPage }) {
  return (
    <section aria-label="Who rode it">
      <h2>Who rode it</h2>
      {page.rides.length === 0 ? (
        <p className={styles.soft}>No unit ever rode it.</p>
      ) : (
        <RowTable label="Who rode it" columns={RIDES} rows={page.rides} keyOf={r => `${r.unit} ${r.from}`} />
      )}
      {page.readings.length > 0 ? (
        <p className={styles.soft}>
          Meters read:{' '}
          {page.readings
            .slice(0, 4)
            .map(r => `${r.reading.toLocaleString('en-US')} ${r.meter} on ${dateText(r.on)}`)
            .join('; ')}
          .
        </p>
      ) : null}
    </section>
  );
}

/** The open list: what came along with a crew and is still here, and what of this rig is still elsewhere. */
export function Left({ page, onForm }: { page: RigPage; onForm: (form: DeedForm) => void }) {
  const things = [...page.leftHere, ...page.leftElsewhere];
  const [first] = things;
  useKeys(
    'Not returned',
    [
      {
        key: 'h',
        label: 'Bring home the first that was not returned, or the one that has the focus',
        run: () => first && onForm(bringHomeForm(first)),
      },
    ],
    first !== undefined,
  );
  if (!first) return null;
  return (
    <section aria-label="Not returned">
      <h2>
        Not returned
        <Action weight="quiet" hint="h" onClick={() => onForm(bringHomeForm(first))}>
          It is back
        </Action>
      </h2>
      <RowTable
        label="Not returned; h brings home the one that has the focus"
        columns={LEFT}
        rows={things}
        keyOf={t => t.item}
        onKey={(thing, key) => {
          if (key !== 'h') return false;
          onForm(bringHomeForm(thing));
          return true;
        }}
      />
    </section>
  );
}

const LEFT: readonly TableColumn<LeftThing>[] = [
  { key: 'number', head: 'Number', cell: t => <span className={`mono ${styles.oneLine}`}>{t.number}</span> },
  {
    key: 'what',
    head: 'What',
    cell: t => (
      <span className={styles.marks}>
        {t.what} <ConditionWord condition={t.condition} />
        {t.why === null ? null : <span className={styles.soft}>{t.why}</span>}
      </span>
    ),
  },
  { key: 'home', head: 'Belongs on', cell: t => t.home },
  { key: 'here', head: 'Still on', cell: t => t.here },
  { key: 'since', head: 'Since', cell: t => dateText(t.since) },
];
