import { useNavigate } from '@tanstack/react-router';
import { useMemo, useRef, useState } from 'react';
import type { Family, Requirement } from '../../../domain/rulebook/types.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { setDensity, useDensity } from '../../parts/grid/density.ts';
import { Grid, type GridHandle } from '../../parts/grid/Grid.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { Empty } from '../../parts/words/NotReady.tsx';
import { ruleColumns } from './columns.tsx';
import { type Entry, linesOf } from './entries.ts';
import { FilterRow, type FilterRowHandle } from './FilterRow.tsx';
import { changeForm } from './forms/changeForm.ts';
import { localForm } from './forms/localForm.ts';
import { confirmForm, endForm, takeForm } from './forms/takeForms.ts';
import type { BookProps } from './RuleBook.tsx';
import { RulePanel } from './RulePanel.tsx';
import styles from './rulebook.module.css';
import { isFiltered } from './search.ts';

/** Every requirement, by family or by source, and one of them in full beside the list. */
export function Requirements({ search, entries, families, today, onChange }: BookProps) {
  const navigate = useNavigate();
  const density = useDensity();
  const grid = useRef<GridHandle>(null);
  const filter = useRef<FilterRowHandle>(null);
  const panel = useRef<HTMLElement>(null);
  const [activeKey, setActiveKey] = useState<string | null>(null);
  const [form, setForm] = useState<DeedForm | null>(null);
  const makes = useAsk('makes.list', {});
  const bySource = search.by === 'source';
  const lines = linesOf(entries, families, search);
  const columns = useMemo(() => ruleColumns(families, bySource, today), [families, bySource, today]);

  const entryAt = (at: number) => {
    const line = lines[at];
    return line?.heading === null ? line.entry : undefined;
  };
  const isOpen = search.rule !== undefined;
  // The line that was moved to, unless the address names another requirement; else the first one.
  const moved = lines.findIndex(l => l.key === activeKey);
  const named = isOpen ? lines.findIndex((_, i) => entryAt(i)?.requirement.id === search.rule) : -1;
  const isMoved = moved >= 0 && (!isOpen || entryAt(moved)?.requirement.id === search.rule);
  const active = isMoved ? moved : named >= 0 ? named : lines.findIndex(l => l.heading === null);
  const entry = entryAt(active);
  const open = entries.find(e => e.requirement.id === search.rule);
  const looked = open ?? entry;
  const family = families.find(f => f.id === (search.family ?? looked?.requirement.family));

  const show = (rule: string | undefined) => onChange({ ...search, rule }, true);
  const goTo = (at: number) => {
    // A heading is no place to stay: on in the direction one was going, or back where there is nothing further.
    const by = at < active ? -1 : 1;
    const to = [at, at + by, at - by].find(i => entryAt(i) !== undefined);
    if (to === undefined) return;
    setActiveKey(lines[to]?.key ?? null);
    if (isOpen) show(entryAt(to)?.requirement.id);
  };
  const close = () => {
    setActiveKey(lines[active]?.key ?? null);
    show(undefined);
    grid.current?.focus();
  };
  const turn = () => onChange({ ...search, by: bySource ? undefined : 'source', source: undefined });
  const turnDensity = () => setDensity(density === 'dense' ? 'comfortable' : 'dense');
  const tryIt = () =>
    looked && onChange({ part: 'try', family: looked.requirement.family, rule: looked.requirement.id });
  const openDue = () =>
    looked && void navigate({ to: '/due', search: { requirement: looked.requirement.id, state: 'all' } });
  const clear = () => onChange({ by: search.by, rule: search.rule });
  const nextFamily = () => {
    const ids = [undefined, ...families.filter(f => f.requirements.length > 0).map(f => f.id)];
    onChange({ ...search, family: ids[(ids.indexOf(search.family) + 1) % ids.length] });
  };

  const ofFamily = (r: Requirement) => families.find(f => f.id === r.family);
  const deeds = looked ? deedsOn(looked, ofFamily, setForm) : [];
  // What the filter has singled out may be taken in one go.
  const shown = [...new Set(lines.flatMap(l => (l.heading === null ? [l.entry] : [])))];
  const takeAll =
    search.only === 'to confirm'
      ? () => setForm(confirmForm(shown, ofFamily))
      : search.only === 'offered' || search.only === 'newer text'
        ? () => setForm(takeForm(shown, ofFamily))
        : null;
  const addLocal = () =>
    setForm(
      localForm(families, entries, makes.data ?? [], { family: search.family ?? looked?.requirement.family }),
    );

  useKeys('Requirements', [
    { key: 'a', label: 'A requirement of the department’s own', run: addLocal },
    ...(takeAll ? [{ key: 'b', label: 'All that is shown, in one act', run: takeAll }] : []),
    { key: 'f', label: 'Filter by typing', run: () => filter.current?.focus() },
    { key: 'g', label: 'Group by family or by source', run: turn },
    { key: 'n', label: 'The next family alone', run: nextFamily },
    { key: 'c', label: 'Clear the filter', run: clear },
    { key: 'z', label: 'Rows comfortable or dense', run: turnDensity },
  ]);
  useKeys(
    'The requirement',
    [
      { key: 't', label: 'Try it on an imagined thing', run: tryIt },
      ...deeds.map(d => ({ key: d.key, label: d.title, run: d.run })),
      { key: 'o', label: 'The things it concerns', run: openDue },
    ],
    looked !== undefined,
  );
  useKeys(
    'The panel',
    [
      { key: 'i', label: 'Into the panel, to read on', run: () => panel.current?.focus() },
      { key: 'Escape', label: 'Close the panel', run: close },
    ],
    isOpen,
  );

  return (
    <div className={`${styles.list} ${open ? styles.withPanel : ''}`}>
      <FilterRow
        search={search}
        families={families}
        onChange={onChange}
        onTurn={turn}
        onClear={clear}
        onLeave={() => grid.current?.focus()}
        handle={filter}
      />
      <div className={styles.table}>
        <Grid
          label="Requirements"
          handle={grid}
          columns={columns}
          listKey={JSON.stringify([
            search.by,
            search.family,
            search.source,
            search.text,
            search.unsure,
            search.only,
          ])}
          count={lines.length}
          rowAt={at => lines[at]}
          headingAt={at => {
            const line = lines[at];
            return line === undefined || line.heading === null ? null : (
              <span className={styles.group}>
                <b>{line.heading}</b> {line.count}
              </span>
            );
          }}
          active={Math.max(active, 0)}
          onActive={goTo}
          onOpen={at => {
            const next = entryAt(at);
            if (next) show(next.requirement.id);
          }}
          isOpen={line => line.heading === null && isOpen && line.entry === open}
          density={density}
          empty={
            <Empty>
              <p>
                {isFiltered(search) ? 'No requirement fits. Clear the filter with c.' : 'The book is empty.'}
              </p>
            </Empty>
          }
        />
      </div>
      <footer className={styles.foot}>
        <span role="status" className={styles.total}>
          {countWords(new Set(lines.flatMap(l => (l.heading === null ? [l.entry.requirement.id] : []))).size)}
        </span>
        {entry && !open ? (
          <>
            <Action weight="quiet" hint="Enter" onClick={() => show(entry.requirement.id)}>
              Read it
            </Action>
            <Action weight="quiet" hint="t" onClick={tryIt}>
              Try this
            </Action>
            <Action weight="quiet" hint="o" onClick={openDue}>
              Its things
            </Action>
          </>
        ) : null}
        {takeAll && shown.length > 0 ? (
          <Action weight="quiet" hint="b" onClick={takeAll}>
            {search.only === 'to confirm' ? 'Confirm' : 'Adopt'} all {shown.length}
          </Action>
        ) : null}
        <Action weight="quiet" hint="a" onClick={addLocal}>
          Add one of our own
        </Action>
        <span className={styles.footRight}>
          <Action weight="quiet" hint="z" onClick={turnDensity}>
            {density === 'dense' ? 'Comfortable rows' : 'Dense rows'}
          </Action>
          {family ? (
            <>
              <span className={styles.soft}>{family.plural}:</span>
              <PrintAction paper={{ paper: 'rule sheet', family: family.id }} label="Print the rule sheet" />
            </>
          ) : null}
        </span>
      </footer>
      {open ? (
        <RulePanel
          panel={panel}
          entry={open}
          entries={entries}
          family={families.find(f => f.id === open.requirement.family)}
          today={today}
          onClose={close}
          onTry={tryIt}
          deeds={deeds}
        />
      ) : null}
      {form ? <DeedDialog form={form} today={today} onClose={() => setForm(null)} /> : null}
    </div>
  );
}

/** What may be done with a requirement as it stands; what is law is not ended. */
function deedsOn(
  entry: Entry,
  ofFamily: (r: Requirement) => Family | undefined,
  open: (form: DeedForm) => void,
): { key: string; title: string; run: () => void }[] {
  const family = ofFamily(entry.requirement);
  if (!entry.adopted) return [{ key: 'e', title: 'Adopt', run: () => open(takeForm([entry], ofFamily)) }];
  const { line } = entry;
  return [
    { key: 'e', title: 'Change', run: () => open(changeForm(entry, family)) },
    ...(line.toConfirm
      ? [{ key: 'm', title: 'Confirm', run: () => open(confirmForm([entry], ofFamily)) }]
      : []),
    ...(line.hasNewer
      ? [{ key: 'u', title: 'Newer text', run: () => open(takeForm([entry], ofFamily)) }]
      : []),
    ...(line.force.force === 'law'
      ? []
      : [{ key: 'x', title: 'End', run: () => open(endForm(entry, family)) }]),
  ];
}

const countWords = (n: number) => `${n} ${n === 1 ? 'requirement' : 'requirements'}`;
