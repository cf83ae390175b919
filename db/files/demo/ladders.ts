/** The district's ground ladders: looked over every month, loaded once a year by an outside tester. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import type { Assignment } from '../../../domain/facts.ts';
import {
  deed,
  isInUse,
  receive,
  record,
  repaired,
  retire,
  returned,
  type Thing,
  tagOut,
  type World,
} from './deeds.ts';
import type { Planned } from './diary.ts';
import { monthText } from './instants.ts';
import { crewOf, LOGISTICS, memberLabel, SHOP_TECHNICIAN, STATIONS, type Station } from './people.ts';
import { at, TEST_VENDOR } from './places.ts';
import { LADDERS } from './stories.ts';

const TYPES: Readonly<Record<string, string>> = {
  R: 'roof',
  E: 'extension',
  A: 'folding',
  C: 'combination',
  S: 'single',
};

type Lot = readonly [
  ladders: readonly string[],
  inside: string | Station,
  place: string,
  station: Station,
  as: Assignment,
];

/** Which ladders ride or hang where, in the order in which their numbers were given. */
const LOTS: readonly Lot[] = [
  ...STATIONS.map((s): Lot => [['R-14', 'E-28', 'A-10'], `Engine ${s}`, 'ladder rack', s, 'first line']),
  [['R-14', 'E-24', 'A-10'], 'Reserve R-1', 'ladder rack', 32, 'reserve'],
  [['R-14', 'E-24', 'A-10'], 'Reserve R-2', 'ladder rack', 34, 'reserve'],
  [
    ['R-16', 'R-16', 'R-20', 'E-24', 'E-28', 'E-35', 'E-35', 'S-16', 'S-20', 'A-10', 'A-14', 'C-12'],
    'Tower 33',
    'ladder rack',
    33,
    'first line',
  ],
  [['C-10', 'C-10', 'A-10'], 'Rescue 33', 'ladder rack', 33, 'first line'],
  [['R-14', 'E-24'], 'Tender 34', 'ladder rack', 34, 'first line'],
  [['A-8'], 'Brush 32', 'ladder rack', 32, 'first line'],
  ...STATIONS.map((s): Lot => [['R-14', 'E-24', 'A-10'], s, 'ladder rack', s, 'ready spare']),
  [
    ['E-28', 'E-28', 'E-35', 'R-14', 'R-14', 'R-16', 'A-10', 'S-16'],
    33,
    'training shed',
    33,
    'training only',
  ],
  [['R-14', 'E-24', 'S-14'], 31, 'storeroom', 31, 'storage'],
];

/** Days before the demo's day of each station's latest inspection. */
const LAST_LOOK: Readonly<Record<Station, number>> = { 31: 6, 32: 9, 33: 12, 34: 15 };
/** Days before the demo's day of the yearly test, and between one year's and the next. */
const LAST_TEST = 128;
const YEAR = 359;

/** Plan the ladders and their three years. @returns every ladder, for the stories */
export function planLadders(world: World): Thing[] {
  const ladders = firstLadders(world);
  const { diary, opened, on } = world;
  const logistics = memberLabel(LOGISTICS);
  diary.at(
    addDays(opened, 1),
    '10:30',
    logistics,
    ladders.map(l => receive(l, 'sheet')),
  );
  diary.at(
    addDays(opened, 2),
    '11:10',
    logistics,
    ladders.map(l => loaded(l, addDays(on, -LAST_TEST - 3 * YEAR), 'From the old test record')),
  );
  const scrapped = failures(world, ladders);
  for (const year of [2, 1, 0]) {
    const day = addDays(on, -LAST_TEST - year * YEAR);
    const tested = ladders.filter(l => l !== scrapped && isInUse(l, day));
    diary.at(
      day,
      '16:30',
      logistics,
      tested.map(l => loaded(l, day)),
    );
  }
  for (const station of STATIONS) inspections(world, ladders, station);
  return ladders;
}

function firstLadders(world: World): Thing[] {
  const chance = world.chance('ladders');
  const given = new Map<string, number>();
  return LOTS.flatMap(([list, inside, name, station, assignment]) =>
    list.map((size): Thing => {
      const n = (given.get(size) ?? 0) + 1;
      given.set(size, n);
      const number = `${size}-${n}`;
      const [letter = '', length = ''] = size.split('-');
      const age_months = chance.whole(50, 200);
      return {
        family: 'ladder',
        number,
        serial: `${letter}${length}${chance.whole(10_000, 99_999)}`,
        attributes: {
          type: TYPES[letter] ?? 'single',
          length_ft: Number(length),
          material: chance.happens(1, 6) ? 'fiberglass' : 'aluminum',
          maker: chance.pick(['Maker A', 'Maker B']),
          made: monthText(world.on, -age_months),
          inService: monthText(world.on, 2 - age_months),
          heatLabelExpires: monthText(world.on, labelMonths(number, chance.whole(7, 70))),
        },
        station,
        place: at(inside, name),
        assignment,
        received: addDays(world.opened, 1),
        gone: null,
        taken: LADDERS.kept.includes(number),
      };
    }),
  );
}

/** Months from the demo's month to the printed expiry of a ladder's heat label. */
function labelMonths(number: string, otherwise: number): number {
  if (LADDERS.labelExpired.includes(number)) return -2;
  return LADDERS.labelExpires.includes(number) ? LADDERS.labelExpires.indexOf(number) % 2 : otherwise;
}

function loaded(ladder: Thing, on: Day, note?: string): Planned {
  return record(ladder, 'service test', on, {
    // What a folding ladder is loaded with is its maker's figure, which the tester does not tell.
    readings: {
      ...(ladder.attributes.type === 'folding' ? {} : { load_lb: 500 }),
      permanentSet_in: '0.00',
    },
    performedBy: TEST_VENDOR,
    ...(note ? { note } : {}),
  });
}

/**
 * One spare failed its test two years ago and was retired; one was bent a year ago, repaired, tested, returned.
 * @returns the one that failed
 */
function failures(world: World, ladders: readonly Thing[]): Thing {
  const chance = world.chance('ladder failures');
  const { diary, on } = world;
  const logistics = memberLabel(LOGISTICS);
  const [scrapped, mended] = chance.some(
    ladders.filter(l => !l.taken && l.assignment === 'ready spare'),
    2,
  );
  if (!scrapped || !mended) throw new Error('There are no spare ladders.');
  scrapped.taken = true;
  mended.taken = true;
  const day = addDays(on, -LAST_TEST - 2 * YEAR);
  diary.at(day, '16:50', logistics, [
    record(scrapped, 'service test', day, {
      outcome: 'fail',
      readings: { load_lb: 500, permanentSet_in: '0.62' },
      performedBy: TEST_VENDOR,
    }),
    tagOut(scrapped, day, 'Permanent set over the limit'),
  ]);
  diary.at(addDays(day, 12), '09:40', logistics, [
    retire(scrapped, addDays(day, 12), 'Failed its load test; cut up'),
  ]);
  const bent = addDays(on, -402);
  diary.at(bent, '18:20', memberLabel(crewOf(mended.station, 'driver', 0)), [
    deed('item.oweRetest', mended, bent, { trigger: 'impact or unusual use', note: 'Fell from the rack' }),
    tagOut(mended, bent, 'Beam bent when it fell from the rack'),
  ]);
  const done = addDays(bent, 16);
  diary.at(done, '15:00', memberLabel(SHOP_TECHNICIAN), [
    repaired(mended, done, 'rung, beam or hardware', SHOP_TECHNICIAN.name, 'Beam section replaced'),
  ]);
  const tested = addDays(bent, 23);
  diary.at(tested, '11:45', logistics, [
    loaded(mended, tested, 'After the repair'),
    returned(mended, tested),
  ]);
  return scrapped;
}

/** Every four weeks for a year, every quarter before that. */
function inspections(world: World, ladders: readonly Thing[], station: Station): void {
  const { diary, on, opened } = world;
  const days: number[] = [];
  for (let ago = LAST_LOOK[station]; ago < on - opened - 10; ago += ago < 360 ? 28 : 91) days.push(ago);
  days.forEach((ago, turn) => {
    const day = addDays(on, -ago);
    const who = crewOf(station, turn % 2 === 0 ? 'driver' : 'firefighter', turn);
    const looked = ladders.filter(
      l => l.station === station && isInUse(l, day) && !(turn < 2 && LADDERS.notLookedAt.includes(l.number)),
    );
    diary.at(
      day,
      '08:50',
      memberLabel(who),
      looked.map(l => record(l, 'inspection', day, { performedBy: who.name })),
    );
  });
}

/** A ladder that came days ago and hangs on the rack before its first test. */
export function newLadder(world: World): void {
  const day = addDays(world.on, -12);
  const ladder: Thing = {
    family: 'ladder',
    number: LADDERS.untested,
    serial: 'E2870114',
    attributes: {
      type: 'extension',
      length_ft: 28,
      material: 'aluminum',
      maker: 'Maker B',
      made: monthText(day, -2),
      inService: dayText(day),
      heatLabelExpires: monthText(day, 58),
    },
    station: 34,
    place: at(34, 'ladder rack'),
    assignment: 'ready spare',
    received: day,
    gone: null,
    taken: true,
  };
  world.diary.at(day, '10:15', memberLabel(LOGISTICS), [receive(ladder, 'number read')]);
}
