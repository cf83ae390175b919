import type { FillCheck, FillSubject } from '../../../db/api-supply.ts';
import type { MarkState } from '../../../domain/derive/marks.ts';
import { FORCE_WORDS, SEEN_WORDS } from '../../../domain/rulebook/words.ts';
import type { FillVerdict as Verdict } from '../../../domain/supply/fill-against.ts';
import { showMeasure } from '../../../domain/units.ts';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { SHAPE_BOX, SHAPES } from '../../parts/state/shapes.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { useMeasures } from '../../parts/words/useMeasures.ts';
import styles from './fills.module.css';

const SHAPE: Readonly<Record<Verdict, MarkState>> = {
  fill: 'current',
  'do not fill': 'tagged out',
  'not judged': 'not judged',
};
const WORDS: Readonly<Record<Verdict, string>> = {
  fill: 'Fill',
  'do not fill': 'Do not fill',
  'not judged': 'Not judged',
};
const TONE: Readonly<Record<Verdict, string | undefined>> = {
  fill: styles.go,
  'do not fill': styles.stop,
  'not judged': styles.unsure,
};

/** The verdict, large and plain, with everything that speaks against it and its clause. */
export function FillVerdict({ check, warned }: { check: FillCheck; warned: boolean }) {
  const { verdict, against, others } = check;
  return (
    <section aria-label="May it be filled?" className={styles.verdict}>
      <p className={`${styles.word} ${TONE[verdict]}`} role="status">
        <svg viewBox={SHAPE_BOX} aria-hidden="true" focusable="false">
          {SHAPES[SHAPE[verdict]]}
        </svg>
        {WORDS[verdict]}
        <span className={styles.whose}>{whose(check)}</span>
      </p>
      <Dates check={check} />
      {others.map(o => (
        <p key={o}>{o}. It is no cylinder.</p>
      ))}
      {against.length > 0 ? (
        <ul className={styles.against}>
          {against.map(a => (
            <li key={a.says} className={a.effect === 'do not fill' ? styles.forbids : undefined}>
              {a.says}{' '}
              <span className={styles.clause}>
                {a.clause === null
                  ? 'Common practice, no source.'
                  : `${a.clause}, ${FORCE_WORDS[a.force]}. ${SEEN_WORDS[a.confidence]}`}
              </span>
            </li>
          ))}
        </ul>
      ) : null}
      {warned ? (
        <p role="alert" className={styles.warned}>
          This speaks against filling it. If it was filled all the same, Enter logs it as what it was
          {check.against.some(a => a.pulls) ? ', and the bottle is pulled.' : '.'}
        </p>
      ) : null}
    </section>
  );
}

function whose({ cylinder, number }: FillCheck): string {
  return cylinder ? `${cylinder.number}, ${cylinder.what}` : `${number}: not one of ours`;
}

function Dates({ check }: { check: FillCheck }) {
  const measures = useMeasures();
  const { cylinder, lastHydro, requalifyBy, lifeEndsOn, servicePressure_psi, lastFill, fill } = check;
  if (!cylinder) return null;
  const psi = (n: number) => showMeasure(n, 'psi', measures);
  const told = [
    `Last test ${lastHydro ? dateText(lastHydro) : 'not known'}`,
    ...(requalifyBy ? [`good through ${dateText(requalifyBy)}`] : []),
    ...(lifeEndsOn ? [`life to ${dateText(lifeEndsOn)}`] : []),
    ...(servicePressure_psi ? [`service pressure ${psi(servicePressure_psi)}`] : []),
    lastFill
      ? `last filled ${dateText(lastFill.on)}${lastFill.to_psi ? ` to ${psi(lastFill.to_psi)}` : ''}`
      : 'no fill on file',
    ...(fill === 'not known' ? [] : [fill === 'full' ? 'full by the last word' : 'to be filled']),
  ];
  return (
    <p className={styles.dates}>
      {told.join(' · ')}
      {cylinder.place ? ` · ${cylinder.place}` : ''} <ConditionWord condition={cylinder.condition} />
    </p>
  );
}

/** Several bottles bear the number: which one is it? */
export function WhichOne({
  several,
  onChoose,
}: {
  several: readonly FillSubject[];
  onChoose: (item: string) => void;
}) {
  return (
    <section aria-label="Which one is it?" className={styles.verdict}>
      <p className={styles.word}>Which one is it?</p>
      <ul className={styles.several}>
        {several.map((s, i) => (
          <li key={s.item}>
            <button
              type="button"
              // Typing goes on here: the number alone does not say it.
              ref={i === 0 ? focused : undefined}
              onClick={() => onChoose(s.item)}
            >
              <b className="mono">{s.number}</b> {s.what}, {s.serial ? `serial ${s.serial}, ` : ''}
              {s.place ?? 'no place known'} <ConditionWord condition={s.condition} />
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

const focused = (button: HTMLButtonElement | null) => button?.focus();
