/** The units, the heaviest verdict first. The focus stays on the table and arrows move the active row, as in every list. */
import { Fragment, type KeyboardEvent, type Ref, useEffect, useId, useImperativeHandle, useRef } from 'react';
import type { UnitReadiness } from '../../../db/api-desk.ts';
import { dateText } from '../../parts/words/dates.tsx';
import styles from './readiness.module.css';
import { VerdictMark } from './VerdictMark.tsx';

export interface UnitTableHandle {
  focus(): void;
}

interface UnitTableProps {
  units: readonly UnitReadiness[];
  active: number;
  onActive: (at: number) => void;
  onOpen: (at: number) => void;
  openUnit: string | undefined;
  /** A count was chosen: what falls due on the unit within so many days. */
  onDue: (unit: string, days: number) => void;
  handle: Ref<UnitTableHandle>;
}

const WITHIN = [
  { days: 7, of: (u: UnitReadiness) => u.within.d7 },
  { days: 30, of: (u: UnitReadiness) => u.within.d30 },
  { days: 90, of: (u: UnitReadiness) => u.within.d90 },
];

export function UnitTable(props: UnitTableProps) {
  const { units, active, onActive, onOpen, openUnit, onDue, handle } = props;
  const table = useRef<HTMLTableElement>(null);
  const id = useId();
  useImperativeHandle(handle, () => ({ focus: () => table.current?.focus({ preventScroll: true }) }), []);

  // Takes the focus when it appears where nothing has it, so that its keys work at once.
  useEffect(() => {
    if (document.activeElement === document.body) table.current?.focus({ preventScroll: true });
  }, []);

  const go = (to: number) => {
    const at = Math.min(Math.max(to, 0), units.length - 1);
    onActive(at);
    table.current?.querySelector(`tbody tr:nth-child(${at + 1})`)?.scrollIntoView({ block: 'nearest' });
  };
  const moveOf = (key: string): (() => void) | undefined => {
    switch (key) {
      case 'ArrowDown':
        return () => go(active + 1);
      case 'ArrowUp':
        return () => go(active - 1);
      case 'Home':
        return () => go(0);
      case 'End':
        return () => go(units.length - 1);
      case 'Enter':
        return () => onOpen(active);
    }
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target !== event.currentTarget || event.altKey || event.ctrlKey || event.metaKey) return;
    const move = moveOf(event.key);
    if (!move) return;
    event.preventDefault();
    move();
  };

  const stale = units[0]?.notSeenFor.days ?? 30;
  return (
    <table
      ref={table}
      className={styles.units}
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table whose rows are reached by keys is a grid, by the WAI-ARIA grid pattern.
      role="grid"
      aria-label="Units, the heaviest verdict first"
      aria-activedescendant={units.length > 0 ? `${id}-${active}` : undefined}
      tabIndex={0}
      onKeyDown={onKeyDown}
    >
      <thead>
        <tr>
          <th scope="col">Unit</th>
          <th scope="col">Verdict</th>
          <th scope="col">What is known against it</th>
          <th scope="col" className={styles.rides}>
            Rides
          </th>
          {WITHIN.map(({ days }, i) => (
            <th key={days} scope="col" className={styles.figure}>
              <span className={i === 0 ? undefined : 'seen-by-readers'}>Due in </span>
              {days}
              <span className={days === 90 ? undefined : 'seen-by-readers'}> days</span>
            </th>
          ))}
          <th scope="col" className={`${styles.figure} ${styles.spare}`}>
            Last seen
          </th>
          <th scope="col" className={`${styles.figure} ${styles.spare}`}>
            Not seen {stale} days
          </th>
        </tr>
      </thead>
      <tbody>
        {units.map((unit, at) => (
          <tr
            key={unit.unit}
            id={`${id}-${at}`}
            aria-selected={unit.unit === openUnit}
            className={[
              at === active ? styles.active : '',
              unit.unit === openUnit ? styles.open : '',
              unit.verdict === 'ready' ? styles.good : '',
            ].join(' ')}
            onClick={() => {
              onActive(at);
              onOpen(at);
            }}
          >
            <th scope="row">
              <span className={styles.unitName}>{unit.name}</span>
              <span className={styles.under}>{unit.station ?? 'No station'}</span>
            </th>
            <td>
              <VerdictMark verdict={unit.verdict} large />
            </td>
            <td className={styles.known}>
              <Known unit={unit} />
            </td>
            <td className={styles.rides}>
              <Rides rig={unit.rig} />
            </td>
            {WITHIN.map(({ days, of }) => (
              <td key={days} className={styles.figure}>
                <button
                  type="button"
                  tabIndex={-1}
                  className={styles.go}
                  disabled={of(unit) === 0}
                  aria-label={`${of(unit)} due in ${days} days on ${unit.name}`}
                  onClick={event => {
                    event.stopPropagation();
                    onDue(unit.unit, days);
                  }}
                >
                  {of(unit)}
                </button>
              </td>
            ))}
            <td className={`${styles.figure} ${styles.spare}`}>
              {unit.lastSeen === null ? <span className={styles.bad}>never</span> : dateText(unit.lastSeen)}
            </td>
            <td className={`${styles.figure} ${styles.spare}`}>
              {unit.notSeenFor.things.toLocaleString('en-US')}
              <span className={styles.of}> of {unit.things.toLocaleString('en-US')}</span>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** How much is known against the unit, and under it the heaviest of it, as far as there is room. */
function Known({ unit }: { unit: UnitReadiness }) {
  const heaviest = unit.reasons.filter(
    (r, i) => r.item === null || unit.reasons.findIndex(other => other.item === r.item) === i,
  );
  return (
    <>
      {unit.rig && !unit.rig.own ? (
        <span className={styles.ridesToo}>Riding {unit.rig.name}, not its own. </span>
      ) : null}
      <span className={styles.says}>{unit.says}</span>
      {heaviest.length > 0 ? (
        <span className={styles.under}>
          {heaviest.map((r, i) => (
            <Fragment key={`${r.item} ${r.what}`}>
              {i > 0 ? <span>; </span> : null}
              {r.number ? <span className={styles.number}>{r.number} </span> : null}
              {r.what}
            </Fragment>
          ))}
        </span>
      ) : null}
    </>
  );
}

/** The rig its crew rides: told quietly where it is the unit's own, plainly where it is not. */
function Rides({ rig }: { rig: UnitReadiness['rig'] }) {
  if (rig === null) return <span className={styles.bad}>no rig known</span>;
  if (rig.own) return <span className={styles.quiet}>its own rig</span>;
  return (
    <>
      <span className={styles.notOwn}>{rig.name},</span>
      <span className={styles.notOwn}>not its own</span>
    </>
  );
}
