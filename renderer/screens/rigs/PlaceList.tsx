/** The list of a rig: every place with what is in it, the place's line over its things. */
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { RigItem, RigPage } from '../../../db/api-desk.ts';
import { markOf } from '../../../domain/derive/marks.ts';
import { Action } from '../../parts/Action.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { ThingActions } from '../../parts/deeds/ThingActions.tsx';
import { useDensity } from '../../parts/grid/density.ts';
import { type Column, Grid, type GridHandle } from '../../parts/grid/Grid.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { DateText } from '../../parts/words/dates.tsx';
import { Empty } from '../../parts/words/NotReady.tsx';
import { moveForm } from './forms.ts';
import { type Line, linesOf } from './lines.ts';
import styles from './rigs.module.css';

interface PlaceListProps {
  page: RigPage;
  place: string | undefined;
  onPlace: (place: string | undefined) => void;
  /** False: the keys belong to something else just now. */
  live: boolean;
  onForm: (form: DeedForm) => void;
  onSwap: (item: RigItem) => void;
}

export function PlaceList({ page, place, onPlace, live, onForm, onSwap }: PlaceListProps) {
  const navigate = useNavigate();
  const density = useDensity();
  const grid = useRef<GridHandle>(null);
  const lines = useMemo(() => linesOf(page), [page]);
  const [active, setActive] = useState(() => Math.max(0, lineOfPlace(lines, place)));
  const [picked, setPicked] = useState<ReadonlySet<string>>(new Set());
  const at = Math.min(active, Math.max(lines.length - 1, 0));
  const line = lines[at];
  const item = line?.item;
  const placeHere = line?.place ?? undefined;

  // The drawing has chosen a place: the list goes there.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when the place in the address changes.
  useEffect(() => {
    if (place !== undefined && place !== placeHere) setActive(Math.max(0, lineOfPlace(lines, place)));
  }, [place]);

  const go = (next: number) => {
    setActive(next);
    const to = lines[next]?.place ?? undefined;
    if (to !== placeHere) onPlace(to);
  };
  const pick = () => {
    if (!item) return;
    const next = new Set(picked);
    if (!next.delete(item.item)) next.add(item.item);
    setPicked(next);
    go(Math.min(at + 1, lines.length - 1));
  };
  const everything = lines.flatMap(l => l.item ?? []);
  const together = everything.filter(i => picked.has(i.item));
  const jump = (step: 1 | -1) => {
    const heads = lines.flatMap((l, i) => (l.heading ? [i] : []));
    const next = step > 0 ? heads.find(i => i > at) : heads.findLast(i => i < at);
    if (next !== undefined) go(next);
  };
  useKeys(
    'The list',
    [
      { key: ' ', label: 'Pick the thing, to move several together', run: pick },
      { key: 'n', label: 'Next place', run: () => jump(1) },
      { key: 'k', label: 'Place before', run: () => jump(-1) },
    ],
    live,
  );
  useKeys(
    'The thing',
    [{ key: 'x', label: 'Swap it with a spare', run: () => item && onSwap(item) }],
    live && item !== undefined && together.length === 0,
  );
  useKeys(
    'Several things',
    [
      { key: 'm', label: `Move the ${together.length} picked things`, run: () => onForm(moveForm(together)) },
      { key: 'Escape', label: 'Let go of what is picked', run: () => setPicked(new Set()) },
    ],
    live && together.length > 0,
  );

  const columns = useMemo(() => columnsFor(picked), [picked]);
  return (
    <section className={styles.places} aria-label="Places">
      <div className={styles.grid}>
        <Grid
          label={`Places of ${page.name} and what is in them`}
          handle={grid}
          listKey={page.id}
          columns={columns}
          count={lines.length}
          rowAt={i => lines[i]?.item}
          headingAt={i => {
            const heading = lines[i]?.heading;
            return heading ? <PlaceHeading {...heading} chosen={lines[i]?.place === place} /> : null;
          }}
          active={at}
          onActive={go}
          onOpen={i => {
            const opened = lines[i]?.item;
            if (opened) void navigate({ to: '/thing/$item', params: { item: opened.item } });
          }}
          density={density}
          empty={
            <Empty>
              <p>
                Nothing is known to ride on {page.name}. Move things here from their pages, or bring a sheet
                with the places in it.
              </p>
            </Empty>
          }
        />
      </div>
      <footer className={styles.foot}>
        {live && together.length > 0 ? (
          <>
            <Action weight="main" hint="m" onClick={() => onForm(moveForm(together))}>
              Move {together.length} things
            </Action>
            <Action weight="quiet" hint="Escape" onClick={() => setPicked(new Set())}>
              Let go of them
            </Action>
          </>
        ) : null}
        {live && together.length === 0 && item ? (
          <ThingActions key={item.item} thing={item} options={{}}>
            <Action hint="x" onClick={() => onSwap(item)}>
              Swap
            </Action>
            <Action
              weight="quiet"
              hint="Enter"
              onClick={() => void navigate({ to: '/thing/$item', params: { item: item.item } })}
            >
              Its page
            </Action>
          </ThingActions>
        ) : null}
      </footer>
    </section>
  );
}

const lineOfPlace = (lines: readonly Line[], place: string | undefined): number =>
  lines.findIndex(l => l.heading !== undefined && l.place === place);

function PlaceHeading({
  name,
  depth,
  count,
  wrong,
  chosen,
}: NonNullable<Line['heading']> & { chosen: boolean }) {
  return (
    <span className={styles.placeHeading} style={{ paddingLeft: `${depth * 18}px` }}>
      <b className={chosen ? styles.chosen : undefined}>{name}</b>
      <span className={styles.soft}>{count === 0 ? 'empty' : count.toLocaleString('en-US')}</span>
      {wrong ? <StateMark state={wrong} /> : null}
    </span>
  );
}

/** What is worth a mark; a thing with no requirement is quiet, and a condition without a mark of its own is a word. */
function ItemState({ item }: { item: RigItem }) {
  const mark = markOf(item);
  if (mark !== 'not applicable' && mark !== 'current') return <StateMark state={mark} />;
  if (item.condition !== 'serviceable') return <ConditionWord condition={item.condition} />;
  return mark === 'current' ? <StateMark state={mark} /> : null;
}

function columnsFor(picked: ReadonlySet<string>): Column<RigItem>[] {
  return [
    {
      key: 'number',
      head: 'Number',
      width: '13ch',
      cell: i => (
        <span>
          {picked.has(i.item) ? '✓ ' : ''}
          {i.number}
        </span>
      ),
    },
    { key: 'what', head: 'What', width: 'minmax(14ch, 1fr)', cell: i => <span>{i.what}</span> },
    { key: 'state', head: 'State', width: '14ch', cell: i => <ItemState item={i} /> },
    {
      key: 'how',
      head: 'Known by',
      width: '12ch',
      spare: true,
      cell: i => <span className={styles.soft}>{i.how ?? '–'}</span>,
    },
    { key: 'since', head: 'Here since', width: '12ch', figure: true, cell: i => <DateText date={i.since} /> },
  ];
}
