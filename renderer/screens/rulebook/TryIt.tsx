/** An imagined thing with an imagined history: what the book says of it on a day. Nothing is written. */
import { useDebouncedValue } from '@mantine/hooks';
import { Link } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { TrialRow } from '../../../db/api.ts';
import { capital } from '../../../domain/capital.ts';
import { attributesRead, clockWords } from '../../../domain/rulebook/clock-words.ts';
import type { Attribute, Family, Meter } from '../../../domain/rulebook/types.ts';
import { midSentence, narrowerWords } from '../../../domain/rulebook/words.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { valuesOf } from '../../parts/deeds/deedForm.ts';
import { DateField, TextField, Tick } from '../../parts/form/fields.tsx';
import { readDate } from '../../parts/form/readDate.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { Picker } from '../../parts/picker/Picker.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { DateText } from '../../parts/words/dates.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { exampleOf, type Happened } from './examples.ts';
import type { BookProps } from './RuleBook.tsx';
import styles from './rulebook.module.css';
import { AttributeControl, HistoryFields } from './TryFields.tsx';
import tryStyles from './try.module.css';

export function TryIt(props: BookProps) {
  const { search, families, today, onChange } = props;
  const family = families.find(f => f.id === search.family) ?? families[0];
  if (!family || today === '') return null;
  const choose = (id: string) => onChange({ part: 'try', family: id });
  return <Trial key={family.id} {...props} family={family} onFamily={choose} />;
}

const COLUMNS: readonly TableColumn<TrialRow>[] = [
  { key: 'title', head: 'What would be owed', cell: r => <span className={styles.oneLine}>{r.title}</span> },
  { key: 'state', head: 'State', cell: r => <StateMark state={r.state} /> },
  { key: 'due', head: 'Due', figure: true, cell: r => <DateText date={r.dueOn} /> },
  { key: 'why', head: 'Why', cell: r => r.why },
];

/** A meter as it would read on the day, from nothing on the day it was placed in service. */
function metersOf(
  meters: readonly Meter[],
  readings: Readonly<Record<string, string>>,
  typed: Readonly<Record<string, string>>,
  on: string,
): { meter: Meter; reading: number; on: string }[] {
  const began = readDate(typed[`${PREFIX}.inService`] ?? '', on).text;
  return meters.flatMap(meter => {
    const plain = (readings[meter] ?? '').replaceAll(',', '').trim();
    if (!/^\d+$/.test(plain)) return [];
    const now = { meter, reading: Number(plain), on };
    return began === '' || began >= on ? [now] : [{ meter, reading: 0, on: began }, now];
  });
}

interface TrialProps extends BookProps {
  family: Family;
  onFamily: (family: string) => void;
}

function Trial({ search, entries, families, family, today, onChange, onFamily }: TrialProps) {
  const [example] = useState(() => exampleOf(family.id, today));
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>(() => prefixed(example.attributes));
  const [history, setHistory] = useState<readonly Happened[]>(() => numbered(example.history));
  const [day, setDay] = useState('');
  const [stored, setStored] = useState(false);
  const [happened, setHappened] = useState('');
  const [readings, setReadings] = useState<Readonly<Record<string, string>>>({});
  const main = useRef<HTMLDivElement>(null);
  const fields = useRef<HTMLDivElement>(null);
  const results = useRef<HTMLElement>(null);
  const toResults = () => results.current?.querySelector<HTMLElement>('tbody tr')?.focus();

  const args = {
    family: family.id,
    attributes: valuesOf(family.attributes, typed, PREFIX, today),
    history: history.map(h => ({ activity: h.activity, on: readDate(h.on, today).text, outcome: h.outcome })),
    on: readDate(day, today).text,
    ...(stored ? { assignment: 'storage' as const } : {}),
    ...(happened ? { happenings: [{ trigger: happened, on: readDate(day, today).text }] } : {}),
    ...(family.meters ? { meters: metersOf(family.meters, readings, typed, readDate(day, today).text) } : {}),
  };
  const [asked] = useDebouncedValue(JSON.stringify(args), 80);
  const trial = useAsk('rulebook.trial', JSON.parse(asked) as typeof args, { keep: true });

  const again = () => {
    setTyped(prefixed(example.attributes));
    setHistory(numbered(example.history));
    setDay('');
    setStored(false);
    setHappened('');
    setReadings({});
  };
  const add = () =>
    setHistory(now => [
      ...now,
      {
        id: Math.max(0, ...now.map(h => h.id)) + 1,
        activity: now.at(-1)?.activity ?? family.activities[0]?.id ?? '',
        on: '',
        outcome: 'pass',
      },
    ]);
  const take = () => setHistory(now => now.slice(0, -1));
  const nextFamily = () =>
    onFamily(families[(families.indexOf(family) + 1) % families.length]?.id ?? family.id);

  // The result takes the focus when it is there, so that the keys of the part work and the arrows read it.
  const isThere = trial.data !== undefined;
  useEffect(() => {
    if (isThere && document.activeElement === document.body)
      results.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isThere]);

  useKeys('Try it', [
    { key: 'n', label: 'The next family', run: nextFamily },
    {
      key: 'i',
      label: 'Into the fields; Esc leads out',
      run: () => fields.current?.querySelector<HTMLElement>('input, select')?.focus(),
    },
    { key: 'a', label: 'Add a line of history', run: add },
    { key: 'x', label: 'Take the last line out', run: take },
    { key: 'e', label: 'The example again', run: again },
    {
      key: 'Escape',
      label: 'Out of the fields; back to the requirements',
      whileTyping: true,
      run: () => {
        if (
          main.current?.contains(document.activeElement) &&
          !results.current?.contains(document.activeElement)
        )
          toResults();
        else onChange(search.rule ? { rule: search.rule } : {});
      },
    },
  ]);

  const owed = new Set(trial.data?.rows.map(r => r.requirement));
  const others = entries.filter(
    e => e.adopted && e.requirement.family === family.id && !owed.has(e.requirement.id),
  );
  const read = new Set(
    entries.filter(e => e.requirement.family === family.id).flatMap(e => attributesRead(e.requirement)),
  );
  const control = (attribute: Attribute) => {
    const key = `${PREFIX}.${attribute.key}`;
    return (
      <AttributeControl
        key={key}
        attribute={attribute}
        value={typed[key] ?? ''}
        today={today}
        onChange={value => setTyped(before => ({ ...before, [key]: value }))}
      />
    );
  };
  return (
    <div className={tryStyles.trial} ref={main}>
      <div className={tryStyles.head}>
        <Picker
          label="Imagine one of"
          options={families.map(f => ({ value: f.id, label: f.title }))}
          value={{ value: family.id, label: family.title }}
          onPick={option => onFamily(option.value)}
        />
        <DateField label="As of" value={day} onChange={setDay} today={today} />
        <p className={styles.soft}>
          <strong>Nothing is written.</strong> What it is and what was done to it are imagined; the answer is
          what the adopted book would say of it.
        </p>
      </div>
      <div className={tryStyles.imagined} ref={fields}>
        <fieldset className={tryStyles.fields}>
          <legend>What it is</legend>
          <div className={tryStyles.grid}>{family.attributes.filter(a => read.has(a.key)).map(control)}</div>
          <details>
            <summary>Details that no rule reads</summary>
            <div className={tryStyles.grid}>
              {family.attributes.filter(a => !read.has(a.key)).map(control)}
            </div>
          </details>
        </fieldset>
        <fieldset className={tryStyles.fields}>
          <legend>What was done to it</legend>
          <HistoryFields family={family} history={history} today={today} onChange={setHistory} />
          <div className={tryStyles.grid}>
            {family.triggers.length > 0 ? (
              <Picker
                label="And that day"
                options={[
                  { value: '', label: 'Nothing happened' },
                  ...family.triggers.map(t => ({ value: t.id, label: t.title, detail: `owes: ${t.owes}` })),
                ]}
                value={{
                  value: happened,
                  label: family.triggers.find(t => t.id === happened)?.title ?? 'Nothing happened',
                }}
                onPick={option => setHappened(option.value)}
              />
            ) : null}
            {(family.meters ?? []).map(meter => (
              <TextField
                key={meter}
                label={`${capital(meter)} that day`}
                value={readings[meter] ?? ''}
                onChange={value => setReadings(before => ({ ...before, [meter]: value }))}
              />
            ))}
          </div>
          <Tick label="It is in storage" checked={stored} onChange={setStored} />
          <div className={tryStyles.actions}>
            <Action hint="a" onClick={add}>
              Add a line
            </Action>
            <Action weight="quiet" hint="x" onClick={take} disabled={history.length === 0}>
              Take the last out
            </Action>
            <Action weight="quiet" hint="e" onClick={again}>
              Example again
            </Action>
          </div>
        </fieldset>
      </div>
      <section className={tryStyles.results} ref={results} aria-label="What the book would say">
        <h2>What the book would say</h2>
        {trial.isError || !trial.data ? (
          <NotReady loaded={trial} />
        ) : (
          <>
            {trial.data.rows.length === 0 ? (
              <Empty>
                <p>No requirement of the book concerns it.</p>
              </Empty>
            ) : (
              <RowTable
                label="What would be owed; Enter opens the requirement"
                columns={COLUMNS}
                rows={trial.data.rows}
                keyOf={r => r.requirement}
                isOpen={r => r.requirement === search.rule}
                onOpen={r => onChange({ rule: r.requirement })}
              />
            )}
            {trial.data.lifeEndsOn ? (
              <p className={tryStyles.life}>
                Its life ends <DateText date={trial.data.lifeEndsOn} />.
              </p>
            ) : null}
            {others.length > 0 ? (
              <p className={tryStyles.others}>
                Of its family these do not concern it, or another settles them too:{' '}
                {others.map((e, i) => (
                  <span key={e.requirement.id}>
                    {i > 0 ? ', ' : ''}
                    <Link to="/rules" search={{ rule: e.requirement.id }}>
                      {midSentence(e.requirement.title) + narrowerWords(e.requirement, family)}
                    </Link>
                    {` (${midSentence(clockWords(e.requirement, family))})`}
                  </span>
                ))}
                .
              </p>
            ) : null}
            <p className={tryStyles.keysNote}>
              <KeyHint of="i" /> into the fields, <KeyHint of="Escape" /> out of them, <KeyHint of="n" /> the
              next family.
            </p>
          </>
        )}
      </section>
    </div>
  );
}

const PREFIX = 'a';

const prefixed = (attributes: Readonly<Record<string, string>>) =>
  Object.fromEntries(Object.entries(attributes).map(([key, value]) => [`${PREFIX}.${key}`, value]));

const numbered = (history: readonly Omit<Happened, 'id'>[]): Happened[] =>
  history.map((h, i) => ({ ...h, id: i + 1 }));
