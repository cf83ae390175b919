/** The district's SCBA packs: checked weekly, inspected monthly, flow tested yearly by the technician. */
import { addDays } from '../../../domain/calendar/day.ts';
import type { Assignment } from '../../../domain/facts.ts';
import { isInUse, receive, record, type Spot, type Thing, type World } from './deeds.ts';
import { monthText } from './instants.ts';
import { crewOf, LOGISTICS, memberLabel, PACK_TECHNICIAN, STATIONS, type Station } from './people.ts';
import { at, RIGS } from './places.ts';
import { PACKS } from './stories.ts';

/** Seats and compartments that hold packs, by rig; a place named twice holds two. */
const BESIDE_SEATS: Readonly<Record<string, readonly string[]>> = {
  engine: ['L1', 'R1'],
  'tower ladder': ['L1', 'R1'],
  rescue: ['L1', 'R1', 'L2'],
  tender: ['L1', 'R1'],
  reserve: ['L1', 'R1'],
};

/** Days before the demo's day of each station's latest monthly inspection. */
const LAST_LOOK: Readonly<Record<Station, number>> = { 31: 7, 32: 9, 33: 11, 34: 13 };
/** The same for the latest weekly check: Station 31 checks on the morning itself. */
const LAST_CHECK: Readonly<Record<Station, number>> = { 31: 0, 32: 1, 33: 2, 34: 3 };
/** The district took up the weekly check so many days before the demo's day. */
export const CHECKS_SINCE = 44;
/** Days before the demo's day of the first day at the bench. */
export const LAST_FLOW_TEST = 75;
const YEAR = 358;

/** Plan the packs and their three years. @returns every pack, for the stories */
export function planPacks(world: World): Thing[] {
  const packs = allPacks(world);
  const first = packs.filter(p => !PACKS.new.includes(p.number));
  const { diary, opened, on } = world;
  const logistics = memberLabel(LOGISTICS);
  diary.at(
    addDays(opened, 1),
    '13:05',
    logistics,
    first.map(p => receive(p, 'sheet')),
  );
  diary.at(
    addDays(on, -20),
    '11:20',
    logistics,
    packs
      .filter(p => PACKS.new.includes(p.number))
      .map(p => receive(p, 'number read', { condition: 'received' })),
  );
  for (const year of [3, 2, 1, 0]) flowTests(world, first, year);
  for (const station of STATIONS) {
    inspections(world, first, station);
    weeklyChecks(world, first, station);
  }
  return packs;
}

function allPacks(world: World): Thing[] {
  const chance = world.chance('packs');
  const spots: Spot[] = RIGS.flatMap((rig): Spot[] => {
    if (rig.kind === 'brush') return [];
    const seats = rig.kind === 'command car' ? rig.seats : rig.seats.filter(s => s !== 'driver seat');
    const beside = BESIDE_SEATS[rig.kind ?? 'reserve'] ?? [];
    const as: Assignment = rig.kind === null ? 'reserve' : 'first line';
    return [...seats, ...beside].map(name => ({ place: at(rig.name, name), station: rig.station, as }));
  });
  for (const station of STATIONS)
    for (let i = 0; i < 8; i++) spots.push({ place: at(station, 'pack rack'), station, as: 'ready spare' });
  while (spots.length < 98) spots.push({ place: at(33, 'training shed'), station: 33, as: 'training only' });
  while (spots.length < 110) spots.push({ place: at(31, 'storeroom'), station: 31, as: 'storage' });
  return spots.map(({ place, station, as }, i): Thing => {
    const number = `P-${i + 1}`;
    const isNew = PACKS.new.includes(number);
    const older = i % 9 < 5;
    const age_months = isNew ? 2 : older ? 104 : 49;
    return {
      family: 'pack',
      number,
      serial: `HX${(older ? 40_000 : 70_000) + i * 37 + chance.whole(0, 30)}`,
      attributes: {
        maker: 'Maker B',
        model: older ? 'Ridge 4' : 'Ridge 5',
        edition: older ? '2013' : '2018',
        servicePressure_psi: 4500,
        made: monthText(world.on, -age_months),
        ...(isNew ? {} : { inService: monthText(world.on, 3 - age_months) }),
      },
      station,
      place,
      assignment: as,
      received: isNew ? addDays(world.on, -20) : addDays(world.opened, 1),
      gone: null,
      taken: PACKS.kept.includes(number) || isNew,
    };
  });
}

/** The technician's week at the bench, a fifth of the packs a day. Year 3 lies before the opening. */
function flowTests(world: World, packs: readonly Thing[], year: number): void {
  const chance = world.chance(`flow tests ${year}`);
  // The held one was at the bench too; its record was entered late.
  const notAtTheBench = [...PACKS.flowMissed, ...PACKS.flowEarly, PACKS.held];
  for (let bench = 0; bench < 5; bench++) {
    const day = addDays(world.on, -LAST_FLOW_TEST - year * YEAR + bench);
    const told = year === 3 ? addDays(world.opened, 2) : day;
    const tested = packs.filter(
      (p, i) => i % 5 === bench && isInUse(p, told) && !(year === 0 && notAtTheBench.includes(p.number)),
    );
    world.diary.at(
      told,
      `16:${20 + bench}`,
      memberLabel(PACK_TECHNICIAN),
      tested.map(p =>
        record(p, 'flow test', day, {
          readings: { alarm_percent: chance.whole(33, 36) },
          performedBy: PACK_TECHNICIAN.name,
          ...(year === 3 ? { note: 'From the technician’s own book' } : {}),
        }),
      ),
    );
  }
  if (year !== 0) return;
  // Five were tested early, with a load of repairs, so they are the first to be due again.
  const day = addDays(world.on, -318);
  world.diary.at(
    day,
    '15:15',
    memberLabel(PACK_TECHNICIAN),
    packs
      .filter(p => PACKS.flowEarly.includes(p.number))
      .map(p =>
        record(p, 'flow test', day, {
          readings: { alarm_percent: 34 },
          performedBy: PACK_TECHNICIAN.name,
        }),
      ),
  );
}

/** Every four weeks for a year, every quarter before that. */
function inspections(world: World, packs: readonly Thing[], station: Station): void {
  const { diary, on, opened } = world;
  const days: number[] = [];
  for (let ago = LAST_LOOK[station]; ago < on - opened - 10; ago += ago < 360 ? 28 : 91) days.push(ago);
  days.forEach((ago, turn) => {
    const day = addDays(on, -ago);
    const chance = world.chance(`packs ${station} ${ago}`);
    const who = crewOf(station, 'firefighter', turn);
    const looked = packs.filter(
      p => p.station === station && isInUse(p, day) && !(p.number === PACKS.held && ago <= PACKS.heldSince),
    );
    diary.at(
      day,
      '09:35',
      memberLabel(who),
      looked.map(p =>
        record(p, 'inspection', day, {
          readings: { cylinder_psi: 4300 + 50 * chance.whole(0, 5) },
          performedBy: who.name,
        }),
      ),
    );
  });
}

/** The weekly check, for the six weeks since it was taken up; the reserve rig's packs were passed over lately. */
function weeklyChecks(world: World, packs: readonly Thing[], station: Station): void {
  for (let week = 5; week >= 0; week--) {
    const ago = LAST_CHECK[station] + 7 * week;
    const day = addDays(world.on, -ago);
    const who = crewOf(station, 'driver', week);
    const checked = packs.filter(
      p =>
        p.station === station &&
        !(p.place.startsWith('@Reserve R-2') && week < 2) &&
        !(p.number === PACKS.held && ago <= PACKS.heldSince),
    );
    world.diary.at(
      day,
      '06:40',
      memberLabel(who),
      checked.map(p => record(p, 'operational check', day, { performedBy: who.name })),
    );
  }
}
