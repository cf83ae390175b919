/** The deeds that tell the stories, each a few pages of the diary. Their numbers are in `stories.ts`. */
import { addDays, dayText } from '../../../domain/calendar/day.ts';
import { deed, move, receive, record, repaired, returned, type Thing, tagOut, type World } from './deeds.ts';
import { LAST_TEST } from './hose-tests.ts';
import { monthText } from './instants.ts';
import { LAST_FLOW_TEST } from './packs.ts';
import {
  BATTALION_OFFICER,
  crewOf,
  LOGISTICS,
  memberLabel,
  PACK_TECHNICIAN,
  SHOP_TECHNICIAN,
} from './people.ts';
import { at } from './places.ts';
import { CYLINDERS, HOSE, LADDERS, PACKS } from './stories.ts';

const logistics = memberLabel(LOGISTICS);

/** The thing with a number. @throws Error where the plan has none: a story would be lost */
export function byNumber<T extends Thing>(things: readonly T[], number: string): T {
  const found = things.find(t => t.number === number);
  if (!found) throw new Error(`The demo has no ${number}.`);
  return found;
}

/** Two old lengths behind a shelf, and a second length with a number that was given before. */
export function hoseThatTurnedUp(world: World): void {
  const { diary, on } = world;
  const length = (number: string, more: Partial<Thing>): Thing => ({
    family: 'hose',
    number,
    serial: null,
    attributes: { diameter_in: '2.5', length_ft: 50, use: 'attack' },
    station: 33,
    place: at(33, 'storeroom'),
    assignment: 'storage',
    received: addDays(on, -30),
    gone: null,
    taken: true,
    ...more,
  });
  const old = HOSE.madeBefore1987.map((number, i) =>
    length(number, {
      attributes: {
        diameter_in: '2.5',
        length_ft: 50,
        use: 'attack',
        made: i === 0 ? '1985-05' : '1986-09',
        remarks: 'Found behind the shelf',
      },
    }),
  );
  diary.at(
    addDays(on, -30),
    '14:45',
    memberLabel(crewOf(33, 'firefighter', 2)),
    old.map(l => receive(l, 'number read', { condition: 'received' })),
  );
  const day = addDays(on, -LAST_TEST[34]);
  const again = length(HOSE.clash, {
    again: true,
    attributes: {
      diameter_in: '1.75',
      length_ft: 50,
      use: 'attack',
      maker: 'Maker D',
      made: monthText(on, -90),
      inService: monthText(on, -86),
      remarks: 'Stenciled over an older number',
    },
    station: 34,
    place: at(34, 'hose rack'),
    assignment: 'ready spare',
    received: day,
  });
  diary.at(day, '17:20', memberLabel(crewOf(34, 'company officer', 1)), [
    receive(again, 'number read'),
    record(again, 'service test', day, { readings: { testPressure_psi: 300, held_s: 300 } }),
  ]);
}

/** Repaired, called a halyard, signed back by the repairer; corrected a month later. */
export function ladderSignedBack(world: World, ladders: readonly Thing[]): void {
  const { diary, on } = world;
  const ladder = byNumber(ladders, LADDERS.repaired);
  const shop = memberLabel(SHOP_TECHNICIAN);
  const mended = addDays(on, -LADDERS.repairedAgo);
  const found = addDays(mended, -4);
  diary.at(found, '11:25', memberLabel(crewOf(32, 'driver', 1)), [
    tagOut(ladder, found, 'Halyard frayed, lower rung dented after a drill'),
    move(ladder, at(33, 'tool room'), found, 'sight'),
  ]);
  diary.at(mended, '09:30', shop, [
    {
      ...repaired(ladder, mended, 'halyard', SHOP_TECHNICIAN.name, 'Halyard replaced, rung straightened'),
      // The fact alone: an act is named by its first entry, so a void of that entry voids the whole act.
      also: { ':0': '@the halyard repair' },
    },
    record(ladder, 'inspection', mended, { performedBy: SHOP_TECHNICIAN.name }),
    returned(ladder, mended),
    move(ladder, at('Engine 32', 'ladder rack'), mended, 'sight'),
  ]);
  const corrected = addDays(on, -9);
  diary.at(corrected, '10:20', logistics, [
    {
      action: 'void',
      body: {
        target: '@the halyard repair',
        why: 'The rung was straightened too: not a halyard repair alone. Entered again as what it was.',
      },
    },
    repaired(
      ladder,
      mended,
      'rung, beam or hardware',
      SHOP_TECHNICIAN.name,
      'Rung straightened and halyard replaced',
    ),
  ]);
}

/** A ladder that touched flame, a bottle that was gouged, a pack whose regulator was changed: each owes a test. */
export function owedTests(
  world: World,
  ladders: readonly Thing[],
  cylinders: readonly Thing[],
  packs: readonly Thing[],
): void {
  const { diary, on } = world;
  const ladder = byNumber(ladders, LADDERS.flame);
  const burned = addDays(on, -6);
  diary.at(burned, '21:15', memberLabel(BATTALION_OFFICER), [
    deed('item.oweRetest', ladder, burned, {
      trigger: 'flame contact',
      note: 'Stood in the window that flashed',
    }),
    tagOut(ladder, burned, 'Flame contact at the second floor window'),
  ]);
  const bottle = byNumber(cylinders, CYLINDERS.damaged);
  const gouged = addDays(on, -16);
  diary.at(gouged, '18:30', memberLabel(crewOf(34, 'driver', 1)), [
    deed('item.oweRetest', bottle, gouged, {
      trigger: 'damage or accident',
      note: 'Gouge through the outer wrap',
    }),
    tagOut(bottle, gouged, 'Gouged on rubble'),
  ]);
  const pack = byNumber(packs, PACKS.owesFlowTest);
  const leaking = addDays(on, -11);
  diary.at(leaking, '07:55', memberLabel(crewOf(33, 'firefighter', 1)), [
    tagOut(pack, leaking, 'Regulator free-flows'),
  ]);
  const mended = addDays(on, -8);
  diary.at(mended, '14:05', memberLabel(PACK_TECHNICIAN), [
    repaired(
      pack,
      mended,
      'regulator, alarm or valve',
      PACK_TECHNICIAN.name,
      'Regulator changed; bench booked for next week',
    ),
  ]);
}

/** The morning after an injury: first the flow test that had not been entered, then the hold. */
export function heldPack(world: World, packs: readonly Thing[]): void {
  const { diary, on } = world;
  const pack = byNumber(packs, PACKS.held);
  const injury = addDays(on, -PACKS.heldSince);
  const after = addDays(injury, 1);
  diary.at(after, '07:50', memberLabel(PACK_TECHNICIAN), [
    record(pack, 'flow test', addDays(on, -LAST_FLOW_TEST + 1), {
      readings: { alarm_percent: 34 },
      performedBy: PACK_TECHNICIAN.name,
      note: 'From the bench sheet; not entered at the time',
    }),
  ]);
  diary.at(after, '08:30', memberLabel(BATTALION_OFFICER), [
    deed('item.hold', pack, `${dayText(injury)}T14:20`, {
      reason: 'Worn by the member who was injured; held as found',
      tag: 'H-6',
    }),
    move(pack, at(31, 'evidence locker'), after, 'seal intact', 'Bagged and sealed, seal 004411'),
  ]);
}

/** Filled while they were on time and racked; then their five years ran out, and nobody looked. */
export function chargedAndRacked(world: World, cylinders: readonly Thing[]): void {
  const day = addDays(world.on, -112);
  const bottles = CYLINDERS.chargedPastDue.map(number => byNumber(cylinders, number));
  world.diary.at(
    day,
    '17:40',
    memberLabel(crewOf(31, 'firefighter', 3)),
    bottles.map(b =>
      move(b, at(31, 'fill room', 'full rack'), day, 'number read', 'Filled to 4500 psi and racked'),
    ),
  );
}
