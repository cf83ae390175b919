import { useDebouncedCallback, useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useRef, useState } from 'react';
import type { NoteLine } from '../../../db/api-desk.ts';
import { isNoteFor } from '../../../domain/coverage/notes.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { setDensity, useDensity } from '../../parts/grid/density.ts';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { WhyPanel } from '../../parts/why/WhyPanel.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { Changed } from './Changed.tsx';
import { Elsewhere } from './Elsewhere.tsx';
import { Header } from './Header.tsx';
import { Notes } from './Notes.tsx';
import { NoThings, NoUnitFits, NoUnits } from './Nothing.tsx';
import { closeNoteForm, writeNoteForm } from './noteForms.ts';
import { OpenUnit } from './OpenUnit.tsx';
import { OutOfService } from './OutOfService.tsx';
import styles from './readiness.module.css';
import { dueWithin, filterOf, type ReadinessSearch } from './search.ts';
import { UnitTable, type UnitTableHandle } from './UnitTable.tsx';
import { useChanges } from './useChanges.ts';
import { usePlaces } from './usePlaces.ts';

export { type ReadinessSearch, readReadinessSearch } from './search.ts';

/** The dialog that is open: a note to write, or one to close. */
type Writing = { note: 'new'; about: string | null } | { note: NoteLine } | null;

/** What is known against each unit, and how fresh is it? */
export function Readiness({ search }: { search: ReadinessSearch }) {
  useDocumentTitle('Readiness · Baybook');
  const navigate = useNavigate();
  const density = useDensity();
  const summary = useAsk('department.summary', {}).data;
  const asked = useAsk('readiness.now', {}, { keep: true });
  const changes = useChanges(summary);
  const openPlace = usePlaces(summary);
  const table = useRef<UnitTableHandle>(null);
  const select = useRef<HTMLSelectElement>(null);
  const [activeUnit, setActiveUnit] = useState<string | null>(search.unit ?? null);
  const [reason, setReason] = useState<string | null>(null);
  const [writing, setWriting] = useState<Writing>(null);
  const [closedShown, setClosedShown] = useState(false);

  const readiness = asked.data;
  const units = (readiness?.units ?? []).filter(
    u =>
      (search.station === undefined || u.station === search.station) &&
      (search.verdict === undefined || u.verdict === search.verdict),
  );
  const active = Math.max(
    0,
    units.findIndex(u => u.unit === activeUnit),
  );
  const opened = readiness?.units.find(u => u.unit === search.unit);
  const chosen = opened ?? units[active];
  const isWhy = search.item !== undefined && search.duty !== undefined;

  const show = (next: ReadinessSearch) =>
    void navigate({ to: '/readiness', search: { ...filterOf(search), ...next } });
  const filter = (next: ReadinessSearch) => void navigate({ to: '/readiness', search: filterOf(next) });
  const openPage = (item: string) => void navigate({ to: '/thing/$item', params: { item } });
  const openRig = (rig: string) => void navigate({ to: '/rigs/$rig', params: { rig }, search: {} });
  const openDue = (unit: string, days: number) =>
    void navigate({ to: '/due', search: dueWithin(unit, days) });
  const openAt = (at: number) => {
    const unit = units[at];
    if (!unit) return;
    setActiveUnit(unit.unit);
    setReason(null);
    show({ unit: unit.unit });
  };
  const close = () => {
    show({});
    table.current?.focus();
  };
  const closeWhy = () => show(opened ? { unit: opened.unit } : {});
  const follow = useDebouncedCallback((at: number) => {
    if (opened) openAt(at);
  }, 90);
  const writeNote = () => setWriting({ note: 'new', about: opened?.unit ?? null });
  const closeNote = () => {
    const focused = document.activeElement?.closest<HTMLElement>('[data-note]')?.dataset.note;
    const note = readiness?.notes.find(n => n.id === focused) ?? readiness?.notes[0];
    if (note) setWriting({ note });
  };

  useKeys('Readiness', [
    { key: 'f', label: 'Filter by station', run: () => select.current?.focus() },
    { key: 'c', label: 'Clear the filter', run: () => filter({}) },
    {
      key: 'd',
      label: 'What falls due on the unit within 30 days',
      run: () => chosen && openDue(chosen.unit, 30),
    },
    { key: 'n', label: 'Pass on a note', run: writeNote },
    { key: 'x', label: 'Close the note that has the focus, or the newest', run: closeNote },
    { key: 'h', label: 'Closed notes', run: () => setClosedShown(!closedShown) },
    { key: 'l', label: 'Mark as looked', run: changes.mark },
    { key: 'z', label: 'Rows comfortable or dense', run: () => turn(density) },
  ]);

  useKeys(
    'The panel',
    [
      { key: 'Escape', label: 'Back to the reasons', run: closeWhy },
      { key: 'o', label: 'Open the page of the thing', run: () => search.item && openPage(search.item) },
    ],
    isWhy && opened !== undefined,
  );

  if (!readiness || summary == null) return <NotReady loaded={asked} />;
  const station = summary.stations.find(s => s.name === chosen?.station);
  return (
    <div className={`${styles.screen} ${opened ? styles.withPanel : ''}`}>
      <Header
        readiness={readiness}
        search={search}
        onFilter={filter}
        onLeave={() => table.current?.focus()}
        select={select}
      />
      <div className={styles.main}>
        {readiness.units.length === 0 ? <NoUnits /> : null}
        {readiness.units.length > 0 && units.length === 0 ? <NoUnitFits /> : null}
        {units.length > 0 ? (
          <UnitTable
            units={units}
            active={active}
            onActive={at => {
              setActiveUnit(units[at]?.unit ?? null);
              follow(at);
            }}
            onOpen={openAt}
            openUnit={opened?.unit}
            onDue={openDue}
            handle={table}
          />
        ) : null}
        {units.length > 0 && summary.things === 0 ? <NoThings /> : null}
        <div className={styles.pair}>
          <div className={styles.column}>
            <Notes
              open={readiness.notes}
              closedShown={closedShown}
              onClosedShown={setClosedShown}
              onWrite={writeNote}
              onClose={note => setWriting({ note })}
            />
            {summary.things > 0 ? <Elsewhere places={readiness.elsewhere} onOpen={openPlace} /> : null}
          </div>
          <Changed changes={changes} zone={summary.zone} onOpenPage={openPage} />
        </div>
        {summary.things > 0 ? (
          <OutOfService lines={readiness.outOfService} on={readiness.on} onOpenPage={openPage} />
        ) : null}
      </div>
      <footer className={styles.foot}>
        {chosen ? (
          <>
            {opened ? null : (
              <Action weight="quiet" hint="Enter" onClick={() => openAt(active)}>
                {chosen.name}: reasons
              </Action>
            )}
            <Action weight="quiet" hint="d" onClick={() => openDue(chosen.unit, 30)}>
              Due in 30 days
            </Action>
            {station ? (
              <PrintAction
                paper={{ paper: 'morning page', station: station.id }}
                label={`Print the morning page of ${station.name}`}
              />
            ) : null}
          </>
        ) : null}
        <span className={styles.footRight}>
          <Action weight="quiet" hint="z" onClick={() => turn(density)}>
            {density === 'dense' ? 'Comfortable rows' : 'Dense rows'}
          </Action>
        </span>
      </footer>
      {opened && isWhy ? (
        <WhyPanel
          item={search.item ?? ''}
          duty={search.duty ?? ''}
          onClose={closeWhy}
          onOpenPage={openPage}
        />
      ) : null}
      {opened && !isWhy ? (
        <OpenUnit
          key={opened.unit}
          unit={opened.unit}
          notes={readiness.notes.filter(n => isNoteFor(n, { units: [opened.name], station: opened.station }))}
          outOfService={readiness.outOfService}
          focusOn={reason}
          onFocusOn={setReason}
          onClose={close}
          onWhy={(item, duty) => show({ unit: opened.unit, item, duty })}
          onOpenPage={openPage}
          onOpenRig={openRig}
          onOpenList={of => void navigate({ to: '/carry/$of', params: { of } })}
          onStep={by => openAt(active + by)}
        />
      ) : null}
      {writing ? (
        <DeedDialog
          form={writing.note === 'new' ? writeNoteForm(summary, writing.about) : closeNoteForm(writing.note)}
          today={summary.today}
          onClose={() => setWriting(null)}
        />
      ) : null}
    </div>
  );
}

const turn = (density: 'dense' | 'comfortable') => setDensity(density === 'dense' ? 'comfortable' : 'dense');
