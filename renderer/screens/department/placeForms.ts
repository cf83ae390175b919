/** The forms that add and amend stations, units, rigs and places. */
import type { DepartmentSummary, PlaceLine } from '../../../db/api.ts';
import { body, type DeedForm, type FormField } from '../../parts/deeds/deedForm.ts';
import { insideOf, type PlaceRow } from './placeRows.ts';

/** Chosen where something stands by itself. */
const NOWHERE = { value: 'none', title: 'Nothing: it stands by itself' };

const NAME: FormField = { kind: 'text', key: 'name', title: 'Name', required: true };

const stationField = (stations: DepartmentSummary['stations']): FormField => ({
  kind: 'pick',
  key: 'station',
  title: 'Station',
  choices: [...stations.map(s => ({ value: s.id, title: s.name })), NOWHERE],
});

const idOf = (value: string | undefined) => (value === NOWHERE.value ? undefined : value);

export const stationForm = (): DeedForm => ({
  title: 'Add a station',
  verb: 'Add it',
  initial: {},
  rows: () => [[NAME]],
  deeds: filled => [{ action: 'station.add', body: body({ name: filled.name }) }],
  done: filled => `${filled.name} is in the book.`,
});

/** @param station the station it is offered to stand at, by id */
export const unitForm = (stations: DepartmentSummary['stations'], station?: string): DeedForm => ({
  title: 'Add a unit',
  verb: 'Add it',
  initial: { station: station ?? '' },
  rows: () => [
    [
      {
        ...NAME,
        note: 'The radio identity that follows the crew: Engine 31.',
      },
      { kind: 'text', key: 'kind', title: 'Kind', note: 'engine, truck, rescue, tender …' },
    ],
    [
      stationField(stations),
      {
        kind: 'text',
        key: 'rig',
        title: 'Its own rig',
        note: 'The vehicle, by its name. Empty: it has none yet.',
      },
    ],
  ],
  deeds: filled => [
    {
      action: 'unit.add',
      body: body({
        name: filled.name,
        kind: filled.kind,
        station: idOf(filled.station),
        rig: filled.rig?.trim() ? { name: filled.rig } : undefined,
      }),
    },
  ],
  done: filled => `${filled.name} is in the book.`,
});

export const rigForm = (summary: DepartmentSummary, station?: string): DeedForm => ({
  title: 'Add a rig',
  verb: 'Add it',
  initial: { station: station ?? '' },
  rows: () => [
    [
      { ...NAME, note: 'The vehicle itself: Reserve R-2.' },
      {
        kind: 'text',
        key: 'chassis',
        title: 'Chassis',
        note: 'Maker, year or number, as you tell it apart.',
      },
    ],
    [
      stationField(summary.stations),
      {
        kind: 'pick',
        key: 'unit',
        title: 'Unit whose own rig it is',
        choices: [
          { value: NOWHERE.value, title: 'None: a reserve rig' },
          ...summary.units.map(u => ({
            value: u.id,
            title: u.name,
            ...(u.station ? { detail: u.station } : {}),
          })),
        ],
      },
    ],
  ],
  deeds: filled => [
    {
      action: 'rig.add',
      body: body({
        name: filled.name,
        chassis: filled.chassis,
        station: idOf(filled.station),
        unit: idOf(filled.unit),
      }),
    },
  ],
  done: filled => `${filled.name} is in the book.`,
});

const KINDS = [
  'compartment',
  'tray',
  'board',
  'pocket',
  'seat',
  'kit',
  'rack',
  'storeroom',
  'member',
  'vendor',
  'other agency',
].map(kind => ({ value: kind, title: kind.charAt(0).toUpperCase() + kind.slice(1) }));

/** @param row what it is offered to lie under */
export function placeForm(places: readonly PlaceLine[], row: PlaceRow | undefined): DeedForm {
  const under = row?.is === 'place' ? row : undefined;
  return {
    title: 'Add a place',
    verb: 'Add it',
    initial: {
      under: under?.id ?? '',
      kind: under?.kind === 'station' ? 'rack' : under ? 'compartment' : 'storeroom',
    },
    rows: () => [
      [{ ...NAME, note: 'As it is marked: L1, crosslay 2, bottle rack.' }],
      [
        { kind: 'pick', key: 'kind', title: 'Kind', required: true, choices: KINDS },
        {
          kind: 'pick',
          key: 'under',
          title: 'In or under',
          choices: [...places.map(p => ({ value: p.id, title: p.path, detail: p.kind })), NOWHERE],
        },
      ],
    ],
    deeds: filled => [
      {
        action: 'place.add',
        body: body({ name: filled.name, kind: filled.kind, under: idOf(filled.under) }),
      },
    ],
    done: filled => `${filled.name} is in the book.`,
  };
}

/** Amending what a row shows: its name, and where it stands. Only what was changed is sent. */
export function amendPlaceForm(
  row: PlaceRow,
  places: readonly PlaceLine[],
  summary: DepartmentSummary,
): DeedForm {
  return row.is === 'unit' ? amendUnit(row, summary) : amendPlace(row, places);
}

function amendUnit(row: PlaceRow, { stations, units }: DepartmentSummary): DeedForm {
  const at = units.find(u => u.id === row.id)?.station;
  const station = stations.find(s => s.name === at)?.id ?? NOWHERE.value;
  return {
    title: `Amend ${row.name}`,
    verb: 'Amend',
    initial: { name: row.name, station, kind: '' },
    rows: () => [
      [NAME, { kind: 'text', key: 'kind', title: 'Kind', note: 'Empty: as it was.' }],
      [stationField(stations)],
    ],
    deeds: filled => [
      {
        action: 'unit.amend',
        body: {
          ...body({ unit: row.id, name: changed(filled.name, row.name), kind: filled.kind }),
          ...moved('station', filled.station, station),
        },
      },
    ],
    done: filled => `${filled.name} is amended.`,
  };
}

function amendPlace(row: PlaceRow, places: readonly PlaceLine[]): DeedForm {
  const under = places.find(p => p.id === row.id)?.parent ?? NOWHERE.value;
  const inside = insideOf(row.id, places);
  const field: FormField = {
    kind: 'pick',
    key: 'under',
    title: row.kind === 'rig' ? 'Stands at' : 'In or under',
    choices: [
      ...places
        .filter(p => !inside.has(p.id) && (row.kind !== 'rig' || p.kind === 'station'))
        .map(p => ({ value: p.id, title: p.path, detail: p.kind })),
      NOWHERE,
    ],
  };
  const chassis: FormField = { kind: 'text', key: 'chassis', title: 'Chassis', note: 'Empty: as it was.' };
  return {
    title: `Amend ${row.name}`,
    verb: 'Amend',
    initial: { name: row.name, under, chassis: '' },
    rows: () => [row.kind === 'rig' ? [NAME, chassis] : [NAME], ...(row.kind === 'station' ? [] : [[field]])],
    deeds: filled => [
      {
        action: 'place.amend',
        body: {
          ...body({ place: row.id, name: changed(filled.name, row.name), chassis: filled.chassis }),
          ...(row.kind === 'station' ? {} : moved('under', filled.under, under)),
        },
      },
    ],
    done: filled => `${filled.name} is amended.`,
  };
}

/** What was typed where it differs from what was there. */
export const changed = (typed: string | undefined, before: string): string | undefined =>
  typed?.trim() === before.trim() ? undefined : typed?.trim();

function moved(key: string, to: string | undefined, from: string): Record<string, string | null> {
  if (to === undefined || to === from) return {};
  return { [key]: to === NOWHERE.value ? null : to };
}
