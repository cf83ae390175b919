/** Where things are in the district: stations, units and rigs with their compartments, racks, vendors, agencies. */
import { addMonths, type Day, dayText } from '../../../domain/calendar/day.ts';
import type { Diary, Label, Planned } from './diary.ts';
import { CHIEF, LOGISTICS, memberLabel, PEOPLE, STATIONS, type Station } from './people.ts';

interface Rig {
  name: string;
  station: Station;
  /** The kind of its unit; null for a reserve rig, which has none of its own. */
  kind: string | null;
  chassis: string;
  body: readonly string[];
  seats: readonly string[];
}

const SIDES = ['L1', 'L2', 'L3', 'L4', 'R1', 'R2', 'R3', 'R4'];
const FOUR_SEATS = ['driver seat', 'officer seat', 'seat 3', 'seat 4'];
const ENGINE_BODY = [
  'crosslay 1',
  'crosslay 2',
  'crosslay 3',
  'front bumper',
  'hosebed driver side',
  'hosebed officer side',
  'rear preconnect',
  'ladder rack',
  ...SIDES,
];

const engine = (station: Station): Rig => ({
  name: `Engine ${station}`,
  station,
  kind: 'engine',
  chassis: `Engine chassis ${station}-E`,
  body: ENGINE_BODY,
  seats: FOUR_SEATS,
});
const reserve = (name: string, station: Station): Rig => ({
  name: `Reserve ${name}`,
  station,
  kind: null,
  chassis: `Engine chassis ${name}`,
  body: ENGINE_BODY,
  seats: FOUR_SEATS,
});

export const RIGS: readonly Rig[] = [
  engine(31),
  engine(32),
  engine(33),
  engine(34),
  {
    name: 'Tower 33',
    station: 33,
    kind: 'tower ladder',
    chassis: 'Tower chassis 33-T',
    body: ['crosslay 1', 'rear preconnect', 'hosebed driver side', 'ladder rack', 'tower basket', ...SIDES],
    seats: [...FOUR_SEATS, 'seat 5', 'seat 6'],
  },
  {
    name: 'Rescue 33',
    station: 33,
    kind: 'rescue',
    chassis: 'Rescue chassis 33-R',
    body: ['front bumper', 'ladder rack', ...SIDES],
    seats: [...FOUR_SEATS, 'seat 5', 'seat 6'],
  },
  {
    name: 'Tender 34',
    station: 34,
    kind: 'tender',
    chassis: 'Tender chassis 34-W',
    body: ['front bumper', 'hosebed driver side', 'ladder rack', 'L1', 'L2', 'R1', 'R2'],
    seats: ['driver seat', 'officer seat'],
  },
  {
    name: 'Brush 32',
    station: 32,
    kind: 'brush',
    chassis: 'Brush chassis 32-B',
    body: ['hose reel', 'rear bed', 'ladder rack', 'L1', 'L2', 'R1', 'R2'],
    seats: ['driver seat', 'officer seat'],
  },
  {
    name: 'Battalion 3',
    station: 33,
    kind: 'command car',
    chassis: 'Command car 33-C',
    body: ['rear compartment'],
    seats: ['driver seat', 'officer seat'],
  },
  reserve('R-1', 32),
  reserve('R-2', 34),
];

/** What every station has besides its rigs: name and kind. */
const ROOMS: readonly (readonly [string, string])[] = [
  ['hose rack', 'rack'],
  ['out-of-service rack', 'rack'],
  ['pack rack', 'rack'],
  ['bottle rack', 'rack'],
  ['ladder rack', 'rack'],
  ['charger shelf', 'rack'],
  ['tool room', 'storeroom'],
  ['gear room', 'storeroom'],
];

/** Rooms that only some stations have: station, name, kind, and inside which room. */
const SPECIAL: readonly (readonly [Station, string, string, string?])[] = [
  [31, 'storeroom', 'storeroom'],
  [31, 'fill room', 'storeroom'],
  [31, 'full rack', 'rack', 'fill room'],
  [31, 'empty rack', 'rack', 'fill room'],
  [31, 'evidence locker', 'storeroom'],
  [32, 'wildland cache', 'storeroom'],
  [33, 'storeroom', 'storeroom'],
  [33, 'training shed', 'storeroom'],
];

export const REPAIR_VENDOR = 'Saltgrass Equipment Repair';
export const TEST_VENDOR = 'Ridgeback Ladder Testing';
export const NEIGHBOR = 'Cottonwood Basin Fire';
export const CYLINDER_TESTER: Label = '@agency Juniper Cylinder Testing';
export const OTHER_TESTER: Label = '@agency Basin Hydrostatic';

/** How deeds call a place by its name and what it lies in: `@Engine 31, crosslay 2`. */
export function at(inside: string | Station, ...names: string[]): Label {
  return `@${[typeof inside === 'number' ? `Station ${inside}` : inside, ...names].join(', ')}`;
}

/** How deeds call the place of what a member was issued. */
export function gearOf(name: string): Label {
  return `@gear of ${name}`;
}

/** Set up every place: the chief opens stations and units, logistics names what is inside them. */
export function layOut(diary: Diary, day: Day, on: Day): void {
  const chief = memberLabel(CHIEF);
  const logistics = memberLabel(LOGISTICS);
  diary.at(day, '09:20', chief, [
    ...STATIONS.map(s => ({ action: 'station.add', body: { name: `Station ${s}` }, as: at(s) })),
    ...RIGS.flatMap(rigDeeds),
    ...[REPAIR_VENDOR, TEST_VENDOR].map(name => place(at(name), name, 'vendor')),
    place(at(NEIGHBOR), NEIGHBOR, 'other agency'),
    agency(CYLINDER_TESTER, 'A123', addMonths(on, 30)),
    agency(OTHER_TESTER, 'B456', addMonths(on, 9)),
  ]);
  RIGS.forEach((rig, i) => {
    const inside = [
      ...rig.body.map(name => place(at(rig.name, name), name, 'compartment', at(rig.name))),
      ...rig.seats.map(name => place(at(rig.name, name), name, 'seat', at(rig.name))),
    ];
    diary.at(day, `10:${10 + i}`, logistics, inside);
  });
  for (const s of STATIONS)
    diary.at(day, `11:${s}`, logistics, [
      ...ROOMS.map(([name, kind]) => place(at(s, name), name, kind, at(s))),
      ...SPECIAL.filter(([station]) => station === s).map(([, name, kind, room]) =>
        room ? place(at(s, room, name), name, kind, at(s, room)) : place(at(s, name), name, kind, at(s)),
      ),
      ...PEOPLE.filter(p => p.station === s).map(p => place(gearOf(p.name), p.name, 'member', at(s))),
    ]);
}

function rigDeeds(rig: Rig): Planned[] {
  const station = at(rig.station);
  const chassis = { name: rig.name, chassis: rig.chassis, station };
  if (rig.kind === null) return [{ action: 'rig.add', body: chassis, as: at(rig.name) }];
  const unit: Label = `@unit ${rig.name}`;
  return [
    { action: 'unit.add', body: { name: rig.name, kind: rig.kind, station }, as: unit },
    { action: 'rig.add', body: { ...chassis, unit }, as: at(rig.name) },
  ];
}

function place(as: Label, name: string, kind: string, under?: Label): Planned {
  return { action: 'place.add', body: { name, kind, ...(under ? { under } : {}) }, as };
}

function agency(as: Label, rin: string, rinExpires: Day): Planned {
  return {
    action: 'agency.add',
    body: { name: as.replace('@agency ', ''), rin, rinExpires: dayText(rinExpires) },
    as,
  };
}
