import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { CarriedThing, CarryLineNow, CheckoffPage, CheckoffPlace } from '../../../db/api-checks.ts';
import { allPresent, withException, withOperated, withoutLine } from '../../../domain/checkoffs/edit.ts';
import { hasteWords } from '../../../domain/checkoffs/haste.ts';
import {
  type Exception,
  isBySeal,
  needsEntry,
  nextSealOwed,
  type PlaceMark,
  readingPasses,
  unfinished,
} from '../../../domain/checkoffs/marks.ts';
import { useAsk } from '../../api/ask.ts';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { useKeys } from '../../parts/keys/keys.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { Notice, NotReady } from '../../parts/words/NotReady.tsx';
import { type Asked, AskedDialog } from './AskedDialog.tsx';
import { CodeBox, type Said } from './CodeBox.tsx';
import styles from './checks.module.css';
import { countersignForm, setAsideForm, signForm } from './forms.ts';
import { GoingFoot, KINDS } from './GoingFoot.tsx';
import { Panes } from './Panes.tsx';
import { useMarks } from './useMarks.ts';

/** One check-off: compartment by compartment, exceptions only. */
export function OneCheck({ checkoff }: { checkoff: string }) {
  const page = useAsk('checkoff.page', { checkoff }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Going key={page.data.id} page={page.data} />;
}

function Going({ page }: { page: CheckoffPage }) {
  useDocumentTitle(`${page.name}, check-off · Baybook`);
  const navigate = useNavigate();
  const summary = useAsk('department.summary', {}).data;
  const marks = useMarks(page);
  const isDraft = page.state === 'draft';
  const [at, setAt] = useState(() => firstOpen(page));
  const [pane, setPane] = useState<'places' | 'lines'>('places');
  const [activeLine, setActiveLine] = useState<string | null>(null);
  const [asked, setAsked] = useState<Asked | null>(null);
  const [form, setForm] = useState<DeedForm | null>(null);
  const [said, setSaid] = useState<Said | null>(null);
  const [isDrawn, setIsDrawn] = useState(false);
  const top = useRef<HTMLDivElement>(null);
  const code = useRef<HTMLInputElement>(null);
  const place = page.places[Math.min(at, page.places.length - 1)];
  const line = place?.lines.find(l => l.line === activeLine) ?? place?.lines[0];
  const all = page.places.map(p => marks.of(p.name));
  const lines = useMemo(() => page.places.flatMap(p => p.lines), [page.places]);
  const left = isDraft ? unfinished(lines, all) : [];
  const found = all.flatMap(m => m.exceptions);
  const done = page.places.filter(p => !left.some(u => u.place === p.name)).length;

  // biome-ignore lint/correctness/useExhaustiveDependencies: once, where the screen begins; the page is keyed by its id.
  useEffect(() => rowOf(top.current, 'places', at)?.focus(), []);

  // The focus moves with the key that leads on, not a frame later: the next key is for the row that was gone to.
  const goTo = (index: number) => {
    setAt(index);
    setActiveLine(null);
    setPane('places');
    rowOf(top.current, 'places', index)?.focus();
  };
  /** The first line of a place that wants an entry of its own and has none. */
  const owedIn = (p: CheckoffPlace, mark: PlaceMark) => {
    const owed = unfinished(p.lines, [mark]).find(u => u.line !== null)?.line;
    return p.lines.findIndex(l => l.line === owed);
  };
  const intoLines = (index: number) => {
    if (!place) return;
    setPane('lines');
    setActiveLine(place.lines[index]?.line ?? null);
    rowOf(top.current, 'lines', index)?.focus();
  };
  const nextOpen = (from: number) => {
    const open = (i: number) => left.some(u => u.place === page.places[i]?.name);
    const order = [...page.places.keys()];
    return order.find(i => i > from && open(i)) ?? order.find(i => i !== from && open(i));
  };
  const present = () => {
    if (!place || !isDraft) return;
    marks.change(place.name, allPresent);
    const owed = owedIn(place, allPresent(marks.of(place.name)));
    if (owed >= 0) intoLines(owed);
    else {
      const next = nextOpen(at);
      if (next !== undefined) goTo(next);
    }
  };
  const works = (l: CarryLineNow, reading: string | null) => {
    if (!place) return;
    const things = reading === null || l.here.length === 1 ? l.here.map(t => t.item) : [null];
    const items = things.length > 0 ? things : [null];
    marks.change(place.name, mark =>
      items.reduce<PlaceMark>(
        (m, item) => withOperated(m, { line: l.line, item, works: true, reading }),
        mark,
      ),
    );
    afterEntry(l);
  };
  /** On to the next line that wants an entry, else back to the places. */
  const afterEntry = (l: CarryLineNow) => {
    if (!place) return;
    const mark = marks.of(place.name);
    const owed = owedIn(place, mark);
    if (owed >= 0) intoLines(owed);
    else if (mark.present) {
      goTo(nextOpen(at) ?? at);
    } else intoLines(place.lines.indexOf(l));
  };
  /** The next kit of a line whose seal is owed; the first again where all are read. */
  const sealOwed = (l: CarryLineNow): CarriedThing | undefined => {
    const kits = [...l.here, ...l.elsewhere];
    return nextSealOwed(l, kits, marks.of(place?.name ?? l.place)) ?? kits[0];
  };
  const readSeal = (l: CarryLineNow, kit: CarriedThing, seal: string) => {
    marks.change(placeNameOf(page, l), m =>
      withOperated(m, { line: l.line, item: kit.item, works: true, reading: seal }),
    );
    setAsked(null);
    afterEntry(l);
  };
  const brokenSeal = (l: CarryLineNow, kit: CarriedThing, seal: string | null) => {
    marks.change(placeNameOf(page, l), m => withException(m, notAsSealed(l, kit, seal)));
    setAsked(null);
    afterEntry(l);
  };
  const operate = () => {
    if (!line || !isDraft) return;
    const kit = isBySeal(line) ? sealOwed(line) : undefined;
    if (kit) setAsked({ ask: 'seal', line, kit });
    else if (isBySeal(line)) setAsked({ ask: 'exception', line, kind: 'missing' });
    else if (line.reading) setAsked({ ask: 'reading', line });
    else works(line, null);
  };
  const everythingElse = () => {
    for (const p of page.places)
      if (!marks.of(p.name).present && marks.of(p.name).leftOut === null) marks.change(p.name, allPresent);
    setSaid({ wrong: false, words: 'Everything that is not named otherwise is present.' });
  };
  const sign = async () => {
    if (!(await marks.keep()) || !summary) return;
    const [first] = left;
    if (first) {
      setSaid({
        wrong: true,
        words: `${first.place}: ${first.what}. ${left.length > 1 ? `${left.length - 1} more.` : ''}`,
      });
      goTo(page.places.findIndex(p => p.name === first.place));
      return;
    }
    setForm(signForm(page, found, summary.today));
  };
  const back = () => void navigate({ to: '/checks' });

  useKeys(
    'The rig',
    [{ key: 'v', label: 'Its drawing, beside the lists', run: () => setIsDrawn(!isDrawn) }],
    page.rigId !== null,
  );
  useKeys(
    'The check-off',
    isDraft
      ? [
          { key: 'c', label: 'By code or number', run: () => code.current?.focus() },
          { key: 'r', label: 'Everything else is present', run: everythingElse },
          { key: 'g', label: 'Sign', run: () => void sign() },
          { key: 'b', label: 'Set it aside', run: () => setForm(setAsideForm(page)) },
          {
            key: 'Escape',
            label: pane === 'lines' ? 'Back to the places' : 'Back to the list',
            run: () => {
              if (pane === 'lines') goTo(at);
              else back();
            },
          },
        ]
      : [
          ...(page.state === 'signed'
            ? [{ key: 'g', label: 'Countersign', run: () => setForm(countersignForm(page)) }]
            : []),
          { key: 'Escape', label: 'Back to the list', run: back },
        ],
  );
  useKeys(
    'The place',
    [
      { key: 'a', label: 'All present, and no more than that', run: present },
      { key: 'Enter', label: 'Into its lines', run: () => intoLines(0) },
      {
        key: 'z',
        label: 'Leave it out, and say why',
        run: () => place && setAsked({ ask: 'leave out', place }),
      },
    ],
    isDraft && pane === 'places',
  );
  useKeys(
    'The line',
    [
      { key: 'o', label: 'Operated, read or counted: it works', run: operate },
      ...KINDS.map(({ key, kind, label }) => ({
        key,
        label,
        run: () => line && setAsked({ ask: 'exception', line, kind }),
      })),
      {
        key: 'Backspace',
        label: 'Say nothing of it',
        run: () => place && line && marks.change(place.name, mark => withoutLine(mark, line.line)),
      },
      { key: 'a', label: 'All the rest of the place is present', run: present },
    ],
    isDraft && pane === 'lines',
  );

  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>{page.name}: is it all there and does it work?</h1>
        <p className={styles.numbers}>
          <span>
            <b>{done}</b> of {page.places.length} places
          </span>
          <span>
            <b>{found.length}</b> {found.length === 1 ? 'exception' : 'exceptions'}
          </span>
          <span>
            <b>{lines.length}</b> lines{page.rig && page.rig !== page.name ? `, on ${page.rig}` : ''}
          </span>
          <span>begun {dateText(page.started)}</span>
          <span className={styles.soft}>{stateWords(page, marks.state)}</span>
        </p>
        {page.haste ? <p className={styles.soft}>{hasteWords(page.haste)}</p> : null}
        {marks.problem ? <Notice problem={marks.problem} /> : null}
        {isDraft ? (
          <CodeBox
            box={code}
            page={page}
            place={place}
            marks={marks}
            said={said}
            onSaid={setSaid}
            onAsk={(l, kind) => setAsked({ ask: 'exception', line: l, kind })}
          />
        ) : null}
      </header>
      <Panes
        page={page}
        place={place}
        markOf={marks.of}
        left={left}
        isDrawn={isDrawn}
        onPane={setPane}
        onPlace={setAt}
        onLine={setActiveLine}
        onGoTo={goTo}
      />
      <GoingFoot
        page={page}
        pane={pane}
        isWhole={left.length === 0}
        wantsEntry={line !== undefined && needsEntry(line)}
        onPresent={present}
        onLines={() => intoLines(0)}
        onLeaveOut={() => place && setAsked({ ask: 'leave out', place })}
        onWorks={operate}
        onWrong={kind => line && setAsked({ ask: 'exception', line, kind })}
        onRest={everythingElse}
        onSign={() => void sign()}
        onDraw={() => setIsDrawn(!isDrawn)}
        onCountersign={() => setForm(countersignForm(page))}
        onBack={back}
      />
      {asked && place ? (
        <AskedDialog
          asked={asked}
          before={found => marks.of(found.place).exceptions.find(e => e.line === found.line) ?? null}
          onClose={() => setAsked(null)}
          onException={(l, exception, chosen) => {
            marks.bring(chosen);
            marks.change(placeNameOf(page, l), mark => withException(mark, exception));
            setAsked(null);
          }}
          onReading={(l, reading) => {
            // Under its limit it is an exception, and what comes next is asked.
            const isLow = readingPasses(l, reading) === false;
            setAsked(isLow ? { ask: 'exception', line: l, kind: 'low' } : null);
            if (!isLow) works(l, reading);
          }}
          onSeal={readSeal}
          onBrokenSeal={brokenSeal}
          onLeaveOut={(name, leftOut) => {
            marks.change(name, mark => ({ ...mark, present: false, leftOut }));
            setAsked(null);
            const next = nextOpen(at);
            if (next !== undefined) goTo(next);
          }}
        />
      ) : null}
      {form && summary ? (
        <DeedDialog form={form} today={summary.today} onClose={() => setForm(null)} onDone={back} />
      ) : null}
    </div>
  );
}

/** The seal of a kit that is not as it was left. A count and a new seal mend it, and not a tag. */
function notAsSealed(line: CarryLineNow, kit: CarriedThing, seal: string | null): Exception {
  return {
    line: line.line,
    item: kit.item,
    kind: 'damaged',
    short: null,
    reading: seal,
    note: seal === null ? 'Seal broken or gone' : `Seal ${seal} found, ${kit.kit?.seal ?? 'none'} was put on`,
    next: 'defect',
    with: null,
    to: null,
    defect: line.defects.find(d => d.kind === 'damaged' && d.item === kit.item)?.id ?? null,
  };
}

/** The place of the page that a line rides in, by the name the page has for it. */
const placeNameOf = (page: CheckoffPage, line: CarryLineNow): string =>
  page.places.find(p => p.lines.some(l => l.line === line.line))?.name ?? line.place;

function firstOpen(page: CheckoffPage): number {
  const first = page.unfinished[0]?.place;
  return Math.max(
    0,
    page.places.findIndex(p => p.name === first),
  );
}

function rowOf(top: HTMLElement | null, pane: 'places' | 'lines', index: number): HTMLElement | null {
  return top?.querySelectorAll<HTMLElement>(`[data-pane="${pane}"] tbody tr`)[index] ?? null;
}

function stateWords(page: CheckoffPage, state: 'kept' | 'waiting' | 'refused'): string {
  if (page.state === 'draft')
    return state === 'kept' ? 'draft, kept' : state === 'waiting' ? 'draft, being kept…' : 'draft, not kept';
  const signed = page.signedOn
    ? `signed ${dateText(page.signedOn)} by ${page.signedBy ?? 'somebody'}`
    : page.state;
  return page.countersignedBy ? `${signed}, countersigned by ${page.countersignedBy}` : signed;
}
