/** One requirement in full: when, for whom, by what authority, who may do it, and what being late does. */
import { Link } from '@tanstack/react-router';
import type { ReactNode, Ref } from 'react';
import { capital } from '../../../domain/capital.ts';
import {
  clockWords,
  countsFromWords,
  onTimeWords,
  type PeriodLine,
  periodLines,
} from '../../../domain/rulebook/clock-words.ts';
import type { Family, Requirement, Source } from '../../../domain/rulebook/types.ts';
import {
  concernsWords,
  confidenceSentence,
  LATE_WORDS,
  narrowerWords,
  OWN_WORDS,
  settledWords,
  warnWords,
} from '../../../domain/rulebook/words.ts';
import { Action } from '../../parts/Action.tsx';
import { Caution } from '../../parts/words/Caution.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { adoptedWords, type Entry, forceHere } from './entries.ts';
import panelStyles from './panel.module.css';
import { RuleHistory } from './RuleHistory.tsx';
import styles from './rulebook.module.css';
import { Standing } from './standing.tsx';

interface RulePanelProps {
  panel: Ref<HTMLElement>;
  entry: Entry;
  entries: readonly Entry[];
  family: Family | undefined;
  today: string;
  onClose: () => void;
  onTry: () => void;
  /** What may be done with it, each with its key. */
  deeds: readonly { key: string; title: string; run: () => void }[];
}

export function RulePanel(props: RulePanelProps) {
  const { panel, entry, entries, family, today, onClose, onTry, deeds } = props;
  const { requirement } = entry;
  const titleOf = (id: string) => entries.find(e => e.requirement.id === id)?.requirement.title;
  const periods = periodLines(requirement.clock);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keys must be able to reach it.
    <aside ref={panel} className={panelStyles.panel} aria-label="The requirement" tabIndex={0}>
      <div className={panelStyles.top}>
        <p className={styles.soft}>
          {family?.plural ?? requirement.family} · <span className="mono">{requirement.id}</span>
        </p>
        <Action weight="quiet" hint="Escape" onClick={onClose}>
          Close
        </Action>
      </div>
      <h2>
        {requirement.title}
        {narrowerWords(requirement, family)}
      </h2>
      <p className={panelStyles.clock}>{clockWords(requirement, family)}.</p>
      <p className={entry.adopted ? styles.soft : styles.unsure}>
        {adoptedWords(entry, today)}
        {entry.adopted ? '.' : ': nothing is judged by it.'}
      </p>
      <Beside entry={entry} />
      <div className={panelStyles.actions}>
        <Action weight="main" hint="t" onClick={onTry}>
          Try this
        </Action>
        {deeds.map(d => (
          <Action key={d.key} hint={d.key} onClick={d.run}>
            {d.title}
          </Action>
        ))}
      </div>
      {entry.adopted ? (
        <Part title="How its things stand">
          <Standing requirement={requirement.id} />
        </Part>
      ) : null}
      <Part title="When">
        <ul>
          {[...countsFromWords(requirement), onTimeWords(requirement), warnWords(requirement)].map(said => (
            <li key={said}>{said}</li>
          ))}
        </ul>
        {periods ? (
          <>
            <Periods title="By specification" lines={periods.bySpec} />
            <Periods title="With none on file, by construction" lines={periods.byConstruction} />
            <p className={styles.soft}>
              A special permit decides for its own cylinders once it is <PermitsLink />.
            </p>
          </>
        ) : null}
      </Part>
      {requirement.cautions.length > 0 ? (
        <div className={panelStyles.cautions}>
          <Caution cautions={requirement.cautions} />
        </div>
      ) : null}
      <Part title="Whom it concerns, and what settles it">
        <dl className={panelStyles.facts}>
          <dt>Concerns</dt>
          <dd>{concernsWords(requirement, family)}</dd>
          <dt>Settled by</dt>
          <dd>{settledWords(requirement, titleOf).join(' ')}</dd>
          <dt>Who</dt>
          <dd>{requirement.who}</dd>
          {requirement.asks ? (
            <>
              <dt>Asks for</dt>
              <dd>{requirement.asks}</dd>
            </>
          ) : null}
        </dl>
      </Part>
      <Part title="By what authority">
        <dl className={panelStyles.facts}>
          <dt>Force</dt>
          <dd>
            <strong>{capital(forceHere(entry))} here.</strong> {entry.line.force.says}
            {entry.line.force.certain ? null : (
              <span className={styles.unconfirmed}>
                It is not certain. <Link to="/department">The department’s profile</Link> decides: say what is
                so there.
              </span>
            )}
          </dd>
          <dt>Binds</dt>
          <dd>{requirement.binds}</dd>
          {requirement.sources.map((source, i) => (
            <SourceLine key={`${source.document} ${source.section}`} source={source} first={i === 0} />
          ))}
        </dl>
      </Part>
      <Part title="Being late">
        <p>It {LATE_WORDS[requirement.late]}</p>
      </Part>
      {entry.versions.length > 1 || entry.from !== null ? (
        <Part title="Over time">
          <Versions entry={entry} today={today} />
        </Part>
      ) : null}
      {entry.adopted ? (
        <Part title="What was decided">
          <RuleHistory requirement={requirement.id} />
        </Part>
      ) : null}
    </aside>
  );
}

/** How it stands beside the book, where it does not stand as it ships. */
function Beside({ entry }: { entry: Entry }) {
  const { own, confirmed } = entry.requirement;
  return (
    <>
      {own ? (
        <p className={own.change === 'looser' ? styles.unconfirmed : styles.soft}>
          {OWN_WORDS[own.change]} {own.authority ? `${own.authority}: ` : ''}
          {own.reason}
        </p>
      ) : null}
      {confirmed ? <p className={styles.soft}>Confirmed from {confirmed}.</p> : null}
      {entry.line.toConfirm ? (
        <p className={styles.unconfirmed}>
          From memory alone, and not confirmed: nothing is judged by it until somebody has looked it up.
        </p>
      ) : null}
      {entry.line.hasNewer ? <p className={styles.unconfirmed}>The program has a newer text of it.</p> : null}
      {entry.line.isJudgedHere ? null : (
        <p className={styles.soft}>It rests: the department is of another state or kind.</p>
      )}
    </>
  );
}

function Part({ title, children }: { title: string; children: ReactNode }) {
  return (
    <section>
      <h3>{title}</h3>
      {children}
    </section>
  );
}

const PermitsLink = () => (
  <Link to="/rules" search={{ part: 'permits' }}>
    confirmed
  </Link>
);

function Periods({ title, lines }: { title: string; lines: readonly PeriodLine[] }) {
  return (
    <table className={panelStyles.periods}>
      <caption>{title}</caption>
      <tbody>
        {lines.map(l => (
          <tr key={l.span}>
            <th scope="row">{l.span}</th>
            <td>{l.holdsFor.join(', ')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function SourceLine({ source, first }: { source: Source; first: boolean }) {
  return (
    <>
      <dt>{first ? 'By' : 'And'}</dt>
      <dd>
        <Link to="/rules" search={{ by: 'source', source: source.document }}>
          {source.document}
        </Link>
        {source.section ? `, ${source.section}` : ''}
        {source.edition ? ` (${source.edition})` : ''}. {source.note}
        {source.confidence === 'read' ? (
          <span className={styles.soft}> Read.</span>
        ) : (
          <span className={styles.unconfirmed}>{confidenceSentence(source)}</span>
        )}
      </dd>
    </>
  );
}

function Versions({ entry, today }: { entry: Entry; today: string }) {
  return (
    <table className={panelStyles.versions}>
      <thead>
        <tr>
          <th scope="col">From</th>
          <th scope="col">Until</th>
          <th scope="col">Late</th>
          <th scope="col">Due soon from</th>
        </tr>
      </thead>
      <tbody>
        {entry.versions.map(v => {
          const isNow = (v.from === null || v.from <= today) && (v.to === null || today < v.to);
          return (
            <tr key={v.from ?? 'opening'} className={isNow ? panelStyles.now : undefined}>
              <td>{v.from === null ? 'the opening' : dateText(v.from)}</td>
              <td>{v.to === null ? 'further notice' : dateText(v.to)}</td>
              <td>{v.requirement.late}</td>
              <td>
                {v.requirement.warnDays} {v.requirement.warnDays === 1 ? 'day' : 'days'}
                {clockChange(v.requirement, entry)}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** Another version with another clock says so; what the clock is stands above. */
function clockChange({ clock, dueAt }: Requirement, { requirement }: Entry): string {
  const isSame = JSON.stringify([clock, dueAt]) === JSON.stringify([requirement.clock, requirement.dueAt]);
  return isSame ? '' : ', by another clock';
}
