/** The side panel of one unit: its reasons in order of weight, each with its why, the shortest fix and the deeds at hand. */
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { NoteLine, Readiness, Reason, UnitReadiness } from '../../../db/api-desk.ts';
import { fixHeading, fixSteps } from '../../../domain/coverage/fix-words.ts';
import type { WhenLate } from '../../../domain/rulebook/types.ts';
import { Action } from '../../parts/Action.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { noteFor } from './noteForms.ts';
import { ReasonActions } from './ReasonActions.tsx';
import styles from './readiness.module.css';
import { VerdictMark } from './VerdictMark.tsx';

export interface UnitPanelProps {
  unit: UnitReadiness;
  notes: readonly NoteLine[];
  outOfService: Readiness['outOfService'];
  /** The reason that had the focus, so that it has it again after its why was read. */
  focusOn: string | null;
  onFocusOn: (reason: string) => void;
  onClose: () => void;
  onWhy: (item: string, duty: string) => void;
  onOpenPage: (item: string) => void;
  onOpenRig: (rig: string) => void;
  /** Its carry list, where something of it is lacking. */
  onOpenList: (of: string) => void;
  /** The unit before or after in the list. */
  onStep: (by: 1 | -1) => void;
}

const WEIGHTS: readonly { effect: WhenLate; title: string; means: string }[] = [
  { effect: 'blocks', title: 'Blocks', means: 'not ready with it' },
  { effect: 'limits', title: 'Limits', means: 'ready with limits' },
  { effect: 'notes', title: 'To note', means: 'stops nothing' },
];

export const reasonKey = (r: Reason): string =>
  `${r.item ?? r.line ?? r.place}|${r.requirement ?? r.condition}`;

export function UnitPanel(props: UnitPanelProps) {
  const { unit, notes, outOfService, focusOn, onFocusOn, onClose, onWhy, onOpenPage, onOpenRig, onOpenList } =
    props;
  const panel = useRef<HTMLElement>(null);
  const [active, setActive] = useState(focusOn ?? (unit.reasons[0] ? reasonKey(unit.reasons[0]) : null));

  // The reasons are what is read next: the first has the focus at once, or the one whose why was read.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when it appears; afterwards the focus is where it was moved to.
  useEffect(() => {
    const lines = [...(panel.current?.querySelectorAll<HTMLElement>('[data-reason]') ?? [])];
    const line = lines.find(l => l.dataset.reason === focusOn) ?? lines[0] ?? panel.current;
    line?.focus({ preventScroll: false });
  }, []);

  useKeys('The unit', [
    { key: 'Escape', label: 'Close the panel', run: onClose },
    { key: 'ArrowLeft', label: 'The unit before', run: () => props.onStep(-1) },
    { key: 'ArrowRight', label: 'The next unit', run: () => props.onStep(1) },
  ]);
  const onKeyDown = (event: KeyboardEvent<HTMLElement>) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    const lines = [...(panel.current?.querySelectorAll<HTMLElement>('[data-reason]') ?? [])];
    lines[lines.indexOf(event.currentTarget) + step]?.focus();
    event.preventDefault();
  };
  const openReason = (reason: Reason) => {
    if (reason.line !== null) return onOpenList(unit.unit);
    if (reason.item === null) return unit.rig ? onOpenRig(unit.rig.id) : undefined;
    if (reason.requirement === null) return onOpenPage(reason.item);
    onWhy(reason.item, reason.requirement);
  };

  return (
    <aside
      ref={panel}
      className={styles.panel}
      aria-label={`What is known against ${unit.name}`}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keys must be able to reach it.
      tabIndex={0}
    >
      <div className={styles.panelTop}>
        <div>
          <h2>{unit.name}</h2>
          <p className={styles.soft}>{whereItIs(unit)}</p>
        </div>
        <Action weight="quiet" hint="Escape" onClick={onClose}>
          Close
        </Action>
      </div>
      <div className={styles.verdict}>
        <VerdictMark verdict={unit.verdict} large />
        <p>{unit.says}</p>
      </div>
      {unit.shortestFix ? (
        <section className={styles.shortestFix} aria-label="The shortest fix">
          <h3>{fixHeading(unit.shortestFix)}</h3>
          <ul>
            {fixSteps(unit.shortestFix).map(step => (
              <li key={step}>{step}</li>
            ))}
          </ul>
        </section>
      ) : null}
      {WEIGHTS.map(({ effect, title, means }) => {
        const reasons = unit.reasons.filter(r => r.effect === effect);
        if (reasons.length === 0) return null;
        return (
          <section key={effect} aria-label={title}>
            <h3>
              {title} <span className={styles.means}>{means}</span>
            </h3>
            <ul className={styles.reasons}>
              {reasons.map(reason => {
                const key = reasonKey(reason);
                return (
                  <li key={key} className={key === active ? styles.reasonOpen : undefined}>
                    <button
                      type="button"
                      className={styles.reason}
                      data-reason={key}
                      onKeyDown={onKeyDown}
                      onFocus={() => {
                        setActive(key);
                        onFocusOn(key);
                      }}
                      onClick={() => openReason(reason)}
                    >
                      {reason.number ? <span className={styles.number}>{reason.number}</span> : null}
                      <span>
                        {reason.what}
                        <span className={styles.under}>
                          {aside(reason, outOfService.find(o => o.item === reason.item)?.reason ?? null)}
                        </span>
                      </span>
                    </button>
                    {key === active && reason.item !== null ? (
                      <ReasonActions
                        reason={reason}
                        onOpen={() => openReason(reason)}
                        onOpenPage={onOpenPage}
                      />
                    ) : null}
                  </li>
                );
              })}
            </ul>
          </section>
        );
      })}
      {notes.length > 0 ? (
        <section aria-label="Passed on">
          <h3>Passed on</h3>
          <ul className={styles.passed}>
            {notes.map(n => (
              <li key={n.id}>
                {n.text}
                <span className={styles.under}>
                  {n.byName ?? 'Somebody'}, {dateText(n.on)}, for {noteFor(n)}
                </span>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      <section aria-label="How fresh it is">
        <h3>How fresh it is</h3>
        <p>{freshness(unit)}</p>
      </section>
    </aside>
  );
}

function whereItIs({ station, rig }: UnitReadiness): string {
  const where = station ?? 'No station';
  if (rig === null) return `${where}; no rig is known to be ridden`;
  return rig.own ? `${where}, on its own rig` : `${where}, riding ${rig.name}, not its own`;
}

/** Where the thing is, why it is out and since when, as far as its line does not say so. */
function aside(reason: Reason, why: string | null): string {
  const since = reason.condition !== null && reason.since !== null ? `since ${dateText(reason.since)}` : null;
  return [reason.condition !== null ? why : null, since, reason.place].filter(w => w !== null).join('; ');
}

function freshness({ things, lastSeen, notSeenFor }: UnitReadiness): string {
  if (things === 0) return 'Nothing is known to be on its rig.';
  if (lastSeen === null) return `${things} things are on its rig; none was ever seen, counted or tested.`;
  const rest = notSeenFor.things;
  return `Something on it was last seen or tested on ${dateText(lastSeen)}. Of ${things} things, ${
    rest === 0 ? 'none' : rest
  } ${rest === 1 ? 'was' : 'were'} not seen, counted or tested within ${notSeenFor.days} days.`;
}
