import { type CSSProperties, useMemo, useState } from 'react';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './department.module.css';
import { Foot } from './Foot.tsx';
import { amendPlaceForm, placeForm, rigForm, stationForm, unitForm } from './placeForms.ts';
import { type PlaceRow, placeRows } from './placeRows.ts';
import { useActiveRow, useFocusWhen } from './useActiveRow.ts';

/** What is folded unless it was opened, and open unless it was folded. */
const startsFolded = (row: { kind: string }) => row.kind !== 'station' && row.kind !== 'unit';

/** Stations, units, rigs and the places inside them, with how many things are there. */
export function Places() {
  const places = useAsk('places.list', {});
  const summary = useAsk('department.summary', {});
  const [turned, setTurned] = useState<ReadonlySet<string>>(new Set());
  const [form, setForm] = useState<DeedForm | null>(null);
  const isFolded = (row: { id: string; kind: string }) => startsFolded(row) !== turned.has(row.id);
  const rows = useMemo(
    () =>
      placeRows(
        places.data ?? [],
        summary.data?.units ?? [],
        row => startsFolded(row) !== turned.has(row.id),
      ),
    [places.data, summary.data, turned],
  );
  const active = useActiveRow(rows);
  const isEmpty = rows.length === 0;
  useFocusWhen(summary.data !== undefined && places.data !== undefined && !isEmpty);

  const stations = summary.data?.stations ?? [];
  const { row } = active;
  const placeOfRow = places.data?.find(p => p.id === row?.id);
  const stationName = placeOfRow?.kind === 'station' ? placeOfRow.name : placeOfRow?.station;
  const unitStation = summary.data?.units.find(u => u.id === row?.id)?.station;
  const station = stations.find(s => s.name === (stationName ?? unitStation))?.id;

  const turn = (r: PlaceRow) =>
    setTurned(before => {
      const after = new Set(before);
      if (!after.delete(r.id)) after.add(r.id);
      return after;
    });
  const foldable = (r: PlaceRow) => r.inside > 0;
  const amend = (r: PlaceRow | undefined) => {
    if (r && summary.data) setForm(amendPlaceForm(r, places.data ?? [], summary.data));
  };
  const addUnit = () => setForm(unitForm(stations, station));
  const addRig = () => summary.data && setForm(rigForm(summary.data, station));
  const addPlace = () => setForm(placeForm(places.data ?? [], row));
  const addStation = () => setForm(stationForm());
  const openAll = () =>
    setTurned(before =>
      before.size > 0 ? new Set() : new Set((places.data ?? []).filter(startsFolded).map(p => p.id)),
    );

  useKeys('Places', [
    { key: 't', label: 'Add a station', run: addStation },
    { key: 'u', label: 'Add a unit', run: addUnit },
    { key: 'r', label: 'Add a rig', run: addRig },
    { key: 'c', label: 'Add a compartment or another place', run: addPlace },
    { key: 'e', label: 'Amend: rename, put under', run: () => amend(row) },
    { key: 'o', label: 'Open all rigs, or fold them', run: openAll },
  ]);

  if (!places.data || !summary.data) return <NotReady loaded={places.data ? summary : places} />;
  return (
    <>
      <div className={styles.body}>
        {isEmpty ? (
          <Empty>
            <p>
              Nothing stands anywhere yet. Begin with a station, then the units that run from it and the rigs
              they ride, then the compartments of each rig.
            </p>
            <p>An imported sheet brings the places it names.</p>
            <p>
              <Action weight="main" hint="t" onClick={addStation}>
                Add the first station
              </Action>
            </p>
          </Empty>
        ) : (
          <RowTable
            onActive={active.onActive}
            label="Places"
            columns={columnsWith(isFolded)}
            rows={rows}
            keyOf={r => r.id}
            onOpen={r => (foldable(r) ? turn(r) : amend(r))}
            onKey={(r, key) => {
              if (key === 'ArrowRight' && foldable(r) && isFolded(r)) turn(r);
              else if (key === 'ArrowLeft' && foldable(r) && !isFolded(r)) turn(r);
              else return false;
              return true;
            }}
          />
        )}
      </div>
      <Foot
        adds={
          <>
            <Action weight="quiet" hint="t" onClick={addStation}>
              Add station
            </Action>
            <Action weight="quiet" hint="u" onClick={addUnit}>
              Add unit
            </Action>
            <Action weight="quiet" hint="r" onClick={addRig}>
              Add rig
            </Action>
            <Action weight="quiet" hint="c" onClick={addPlace}>
              Add place
            </Action>
          </>
        }
      >
        {row ? (
          <>
            <Action weight="quiet" hint="e" onClick={() => amend(row)}>
              Amend {row.name}
            </Action>
            {foldable(row) ? (
              <Action
                weight="quiet"
                hint={isFolded(row) ? 'ArrowRight' : 'ArrowLeft'}
                onClick={() => turn(row)}
              >
                {isFolded(row) ? 'Open' : 'Fold'}
              </Action>
            ) : null}
            <Action weight="quiet" hint="o" onClick={openAll}>
              All rigs
            </Action>
          </>
        ) : null}
      </Foot>
      {form ? <DeedDialog form={form} today={summary.data.today} onClose={() => setForm(null)} /> : null}
    </>
  );
}

const figure = (n: number) => (n === 0 ? '' : n.toLocaleString('en-US'));

function columnsWith(isFolded: (row: PlaceRow) => boolean): TableColumn<PlaceRow>[] {
  return [
    {
      key: 'name',
      head: 'Name',
      cell: row => (
        <span className={styles.indent} style={{ '--depth': row.depth } as CSSProperties}>
          <span className={styles.fold} aria-hidden="true">
            {row.inside === 0 ? '' : isFolded(row) ? '+' : '–'}
          </span>
          <span className={row.depth === 0 ? styles.strong : undefined}>{row.name}</span>
        </span>
      ),
    },
    { key: 'kind', head: 'Kind', cell: row => row.kind },
    {
      key: 'note',
      head: 'Standing',
      cell: row => (
        <span className={styles.soft}>
          {[row.note, row.inside > 0 && isFolded(row) ? `${row.inside} inside` : '']
            .filter(Boolean)
            .join(', ')}
        </span>
      ),
    },
    { key: 'here', head: 'Things right here', figure: true, cell: row => figure(row.here) },
    { key: 'all', head: 'Things in all', figure: true, cell: row => figure(row.inAll) },
  ];
}
