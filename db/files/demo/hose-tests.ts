/** Three seasons of hose testing: each station's day, what failed on it, and what became of that. */
import { addDays, type Day } from '../../../domain/calendar/day.ts';
import type { Assignment } from '../../../domain/facts.ts';
import { deed, isInUse, move, record, repaired, retire, returned, tagOut, type World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { isSuspect, type Length } from './hose-loads.ts';
import { crewOf, LOGISTICS, memberLabel, STATIONS, type Station } from './people.ts';
import { at, REPAIR_VENDOR } from './places.ts';
import { HOSE } from './stories.ts';

/** Days before the demo's day on which each station tested last. */
export const LAST_TEST: Readonly<Record<Station, number>> = { 31: 171, 32: 190, 33: 239, 34: 212 };
/** Days between one test day and the one before it; once one station was two weeks late. */
const BETWEEN = (station: Station, year: number) => (station === 34 && year === 1 ? 379 : 359);

/** The test day of a station `year` years back; 3 lies before the opening and is on the old cards. */
export function testDay(world: World, station: Station, year: number): Day {
  let days = LAST_TEST[station];
  for (let y = 0; y < year; y++) days += BETWEEN(station, y);
  return addDays(world.on, -days);
}

/** What the old test cards said of the last test before the file was opened. */
export function oldCards(world: World, lengths: readonly Length[]): void {
  for (const station of STATIONS)
    world.diary.at(
      addDays(world.opened, 2),
      `09:${station}`,
      memberLabel(crewOf(station, 'company officer', 0)),
      lengths
        .filter(l => l.station === station)
        .map(l => tested(l, testDay(world, station, 3), { note: 'From the old test card' })),
    );
}

function tested(length: Length, on: Day, more: { note?: string; fails?: boolean; by?: string }): Planned {
  const psi = length.attributes.markedTest_psi;
  const held = more.fails ? {} : { held_s: 300 };
  return record(length, 'service test', on, {
    outcome: more.fails ? 'fail' : 'pass',
    ...(typeof psi === 'number' ? { readings: { testPressure_psi: psi, ...held } } : {}),
    ...(more.note ? { note: more.note } : {}),
    ...(more.by ? { performedBy: more.by } : {}),
  });
}

/** One season: every station's test day, what failed, and what became of it. */
export function testYear(world: World, lengths: readonly Length[], year: number): void {
  const chance = world.chance(`hose tests ${year}`);
  const skipped: readonly string[] = year === 0 ? HOSE.notTested : [];
  const able = lengths.filter(l => !l.taken && isInUse(l, testDay(world, l.station, year)));
  const left = year === 0 ? HOSE.failedStill : [];
  const fails = new Set([
    ...chance.some(able.filter(isSuspect), year === 0 ? 2 : 4),
    ...chance.some(
      able.filter(l => !isSuspect(l)),
      2,
    ),
    ...lengths.filter(l => left.includes(l.number)),
  ]);
  for (const length of fails) length.taken = true;
  for (const station of STATIONS) {
    const day = testDay(world, station, year);
    const officer = crewOf(station, 'company officer', year);
    const loaned: readonly string[] = year === 0 && station === 31 ? [HOSE.found] : [];
    const today = lengths.filter(
      l =>
        ((l.station === station && !skipped.includes(l.number)) || loaned.includes(l.number)) &&
        isInUse(l, day),
    );
    world.diary.at(
      day,
      '15:40',
      memberLabel(officer),
      today.map(l => tested(l, day, { fails: fails.has(l), by: officer.name })),
    );
    const failed = today.filter(l => fails.has(l));
    failed.forEach((length, i) => {
      afterFailure(world, length, lengths, day, `16:${10 + i}`, left.includes(length.number));
    });
  }
}

const FAULTS = [
  'Leak at the coupling',
  'Coupling slipped',
  'Jacket burst at 20 ft',
  'Liner weeps along its length',
];

/** A failed length comes off the rig and a spare takes its place; later it is recoupled and tested, or retired. */
function afterFailure(
  world: World,
  length: Length,
  lengths: readonly Length[],
  day: Day,
  time: string,
  leftThere: boolean,
): void {
  const { diary } = world;
  const chance = world.chance(`after ${length.number} ${day}`);
  const officer = memberLabel(crewOf(length.station, 'company officer', 0));
  const rack = at(length.station, 'hose rack');
  const from = length.place;
  const fault = chance.pick(FAULTS);
  const spare = lengths.find(
    l =>
      l.kind === length.kind &&
      l.place === rack &&
      !l.taken &&
      l.assignment === 'ready spare' &&
      isInUse(l, day),
  );
  diary.at(day, time, officer, [
    tagOut(length, day, fault),
    move(length, at(length.station, 'out-of-service rack'), day, 'number read'),
    ...(spare && from !== rack ? swapIn(spare, length.assignment, from, day) : []),
  ]);
  if (leftThere) return;
  if (chance.happens(1, 3)) {
    const end = addDays(day, 27);
    diary.at(end, '11:30', memberLabel(LOGISTICS), [retire(length, end, `${fault}; not worth a repair`)]);
    return;
  }
  const [sent, back, again] = [addDays(day, 6), addDays(day, 20), addDays(day, 22)];
  diary.at(sent, '09:25', officer, [
    deed('item.sendToRepair', length, sent, { vendor: at(REPAIR_VENDOR), reason: fault }),
  ]);
  diary.at(back, '14:10', officer, [repaired(length, back, 'recoupled', REPAIR_VENDOR)]);
  diary.at(again, '10:50', officer, [
    tested(length, again, { note: 'Retest after repair' }),
    returned(length, again),
    move(length, rack, again, 'number read'),
    deed('item.assign', length, again, { assignment: 'ready spare' }),
  ]);
  length.assignment = 'ready spare';
}

function swapIn(spare: Length, assignment: Assignment, to: Label, day: Day): Planned[] {
  spare.assignment = assignment;
  return [move(spare, to, day, 'number read'), deed('item.assign', spare, day, { assignment })];
}
