/** Three incidents after which hose or bottles went home on the wrong rigs. Their numbers are in `stories.ts`. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import { showDay } from '../../../domain/calendar/show.ts';
import { deed, labelOf, move, receive, record, returned, type Thing, type World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import type { Length } from './hose-loads.ts';
import { LAST_TEST } from './hose-tests.ts';
import { byNumber } from './incidents.ts';
import { monthText } from './instants.ts';
import { crewOf, memberLabel } from './people.ts';
import { at, NEIGHBOR, OTHER_TESTER } from './places.ts';
import { CYLINDERS, HOSE } from './stories.ts';

interface Read {
  number: string;
  at?: Label;
  used?: boolean;
}

/** What is believed on a rig at a time, as somebody who reads every number there would write it. */
function readOn(world: World, things: readonly Thing[], rig: string, day: Day, time: string): Read[] {
  const lies = world.diary.whereAt(day, time);
  return things
    .filter(t => lies.get(labelOf(t))?.startsWith(`${at(rig)},`))
    .map(t => ({ number: t.number, at: lies.get(labelOf(t)) as Label }));
}

const open = (as: Label, name: string, units: readonly string[], on: string, more: object): Planned => ({
  action: 'incident.open',
  body: { name, units: units.map(u => `@unit ${u}`), ...more, on },
  as,
});

const found = (incident: Label, rig: string, reads: readonly Read[], on: string): Planned => ({
  action: 'incident.found',
  body: { incident, rig: at(rig), reads, on },
});

const settle = (incident: Label, on: string, more: object = {}): Planned => ({
  action: 'incident.settle',
  body: { incident, ...more, on },
});

/** After a two-alarm fire two lengths were packed on the wrong rigs; the numbers were read on test day. */
export function hoseAfterTheFire(world: World, hose: readonly Length[]): void {
  const { diary, on } = world;
  const fire = addDays(on, -196);
  const incident: Label = '@incident two-alarm';
  const right = byNumber(hose, HOSE.found);
  const overdue = byNumber(hose, HOSE.overdue);
  const officer = memberLabel(crewOf(31, 'company officer', 0));
  diary.at(fire, '08:20', officer, [
    open(
      incident,
      'Two-alarm fire, Mill Road',
      ['Engine 31', 'Engine 33', 'Tower 33'],
      `${dayText(fire)}T02:10`,
      {
        families: ['hose'],
        note: 'Picked up in the rain by both engines; numbers not read that night',
      },
    ),
  ]);
  const day = addDays(on, -LAST_TEST[31]);
  const bed = at('Engine 31', 'hosebed driver side');
  const reads = readOn(world, hose, 'Engine 31', day, '15:10').filter(r => r.number !== overdue.number);
  diary.at(day, '15:10', officer, [
    found(incident, 'Engine 31', [...reads, { number: right.number, at: bed }], dayText(day)),
    settle(incident, dayText(day), {
      missing: [{ item: labelOf(overdue), as: 'searched', where: 'Crosslays, both beds and the rack' }],
      note: 'Read on test day',
    }),
  ]);
  right.place = bed;
  const later = addDays(day, 11);
  const crosslay = at('Engine 33', 'crosslay 2');
  const read33 = readOn(world, hose, 'Engine 33', later, '09:50').filter(r => r.number !== right.number);
  diary.at(later, '09:50', memberLabel(crewOf(33, 'driver', 0)), [
    found(incident, 'Engine 33', [...read33, { number: overdue.number, at: crosslay }], dayText(later)),
    settle(incident, dayText(later), { note: `In crosslay 2 since the fire of ${showDay(fire)}` }),
  ]);
  const home = addDays(day, 13);
  diary.at(home, '10:35', officer, [
    record(overdue, 'inspection', home, { note: 'Jacket, couplings and liner sound; test day had passed' }),
    move(overdue, at('Engine 31', 'crosslay 2'), home, 'number read'),
    returned(overdue, home),
  ]);
}

/** Bottles changed hands in the dark at a neighbor's cascade; in the morning the numbers were read. */
export function bottlesAtThree(world: World, cylinders: readonly Thing[]): void {
  const { diary, on } = world;
  const missing = byNumber(cylinders, CYLINDERS.missing);
  const late = byNumber(cylinders, CYLINDERS.filledPastDue);
  const before = addDays(on, -80);
  diary.at(before, '10:55', memberLabel(crewOf(32, 'driver', 0)), [
    move(missing, at('Engine 32', 'L1'), before, 'number read'),
    deed('item.assign', missing, before, { assignment: 'first line' }),
  ]);
  const morning = addDays(on, -2);
  const night = `${dayText(morning)}T03:10`;
  const foreign: Thing = {
    family: 'cylinder',
    number: CYLINDERS.foreign,
    serial: 'OK771204',
    attributes: {
      spec: 'DOT-SP 10945',
      construction: 'carbon',
      servicePressure_psi: 4500,
      ratedDuration_min: 45,
      gas: 'air',
      maker: 'Maker B',
      made: monthText(on, -80),
      remarks: `Belongs to ${NEIGHBOR}`,
    },
    station: 32,
    place: at('Engine 32', 'L1'),
    assignment: 'loaned in',
    received: morning,
    gone: null,
    taken: true,
  };
  const incident: Label = '@incident cascade';
  const reads = readOn(world, cylinders, 'Engine 32', morning, '07:20').filter(
    r => r.number !== missing.number && r.number !== late.number,
  );
  late.place = at('Engine 32', 'R1');
  diary.at(morning, '07:30', memberLabel(crewOf(32, 'company officer', 1)), [
    open(incident, 'Bottle swap at the cascade, Cottonwood Road', ['Engine 32'], night, {
      agencies: [NEIGHBOR],
      families: ['cylinder'],
    }),
    found(
      incident,
      'Engine 32',
      [
        ...reads,
        { number: foreign.number, at: at('Engine 32', 'L1') },
        { number: late.number, at: late.place },
      ],
      night,
    ),
    settle(incident, night, {
      missing: [{ item: labelOf(missing), as: 'missing' }],
      foreign: [{ rig: at('Engine 32'), number: foreign.number, whose: NEIGHBOR }],
    }),
    receive(foreign, 'number read', { on: night }),
    record(foreign, 'requalification', monthText(on, -21), {
      agency: OTHER_TESTER,
      note: 'As marked on the bottle',
    }),
    // What spoke against it, its tag and its chain come with the fill.
    deed('cylinder.fill', late, night, {
      from_psi: 700,
      to_psi: 4500,
      hydroDate: monthText(on, -62),
      note: `At the cascade of ${NEIGHBOR} at 3 am; the mark was read in daylight`,
    }),
  ]);
}

/** Yesterday's fire is not settled: one list is in, with a neighbor's length in it, the other is not. */
export function barnFire(world: World, hose: readonly Length[]): void {
  const { diary, on } = world;
  const day = addDays(on, -1);
  const incident: Label = '@incident barn';
  const reads = readOn(world, hose, 'Engine 34', day, '18:05')
    .filter(r => r.number !== HOSE.afterBarn)
    .map(r => ({ ...r, used: r.at === at('Engine 34', 'crosslay 1') }));
  diary.at(day, '18:05', memberLabel(crewOf(34, 'company officer', 0)), [
    open(incident, 'Barn fire, County Road 9', ['Engine 34', 'Tender 34'], `${dayText(day)}T13:40`, {
      agencies: [NEIGHBOR],
      families: ['hose'],
    }),
    found(
      incident,
      'Engine 34',
      [...reads, { number: HOSE.neighbors, at: at('Engine 34', 'crosslay 1') }],
      dayText(day),
    ),
  ]);
}
