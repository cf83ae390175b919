/** What happens to things by the way in three years: moves, small repairs, retirements, and what is open now. */
import { addDays } from '../../../domain/calendar/day.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import {
  deed,
  isInUse,
  move,
  record,
  repaired,
  retire,
  returned,
  type Thing,
  tagOut,
  type World,
} from './deeds.ts';
import { crewOf, LOGISTICS, memberLabel, PACK_TECHNICIAN, SHOP_TECHNICIAN, STATIONS } from './people.ts';
import { at, REPAIR_VENDOR } from './places.ts';

const FAULTS: Readonly<Record<string, readonly string[]>> = {
  'chain saw': ['Will not start', 'Chain brake sticks'],
  'rotary saw': ['Will not start', 'Guard cracked'],
  fan: ['Blade guard loose', 'Cord cut'],
  'four-gas meter': ['Fails its bump', 'Sensor at the end of its life'],
  'portable radio': ['Volume knob broken', 'Will not hold a charge'],
  nozzle: ['Shut-off stiff', 'Baffle chipped'],
  'hand light': ['Lens cracked', 'Will not charge'],
  generator: ['Surges under load'],
  'scene light': ['Lamp out'],
  'rescue spreader': ['Coupling weeps'],
  extinguisher: ['Gauge in the red', 'Pin missing'],
};
const COMMON_FAULTS = ['Handle loose', 'Strap torn', 'Found damaged at check'];

/**
 * Loans between rigs and racks, spread over three years, all of them sound and unremarkable; nearly all were brought
 * home within weeks.
 */
export function wander(world: World, equipment: readonly Thing[]): void {
  const chance = world.chance('moves');
  const movable = equipment.filter(t => !t.taken && t.assignment !== 'issued');
  for (const thing of chance.some(movable, 240)) {
    const day = addDays(world.on, -chance.whole(4, 1050));
    const station = chance.pick(STATIONS);
    const to = chance.happens(1, 3)
      ? at(station, 'tool room')
      : at(`Engine ${station}`, chance.pick(['L1', 'L2', 'L3', 'R1', 'R2', 'R4']));
    if (to === thing.place) continue;
    const who = crewOf(station, chance.pick(['driver', 'firefighter']), chance.whole(0, 9));
    const home = thing.place;
    thing.taken = true;
    world.diary.at(day, `${chance.whole(8, 19)}:${chance.whole(10, 59)}`, memberLabel(who), [
      move(thing, to, day, chance.pick(['sight', 'sight', 'count', 'number read'])),
    ]);
    const returned = addDays(day, chance.whole(3, 20));
    const stays = chance.happens(1, 16);
    if (stays || returned >= world.on) continue;
    world.diary.at(returned, `${chance.whole(8, 19)}:${chance.whole(10, 59)}`, memberLabel(who), [
      move(thing, home, returned, 'sight'),
    ]);
  }
}

/** Small repairs that ran their course: tagged, repaired, looked at, returned. */
export function repairs(world: World, equipment: readonly Thing[]): void {
  const chance = world.chance('repairs');
  for (const thing of chance.some(
    equipment.filter(t => !t.taken),
    84,
  )) {
    thing.taken = true;
    const found = addDays(world.on, -chance.whole(40, 1040));
    const mended = addDays(found, chance.whole(2, 24));
    const officer = crewOf(thing.station, 'company officer', chance.whole(0, 1));
    const shop = memberLabel(SHOP_TECHNICIAN);
    world.diary.at(found, '08:25', memberLabel(crewOf(thing.station, 'driver', chance.whole(0, 1))), [
      tagOut(thing, found, faultOf(world, thing)),
    ]);
    if (chance.happens(1, 5)) {
      world.diary.at(mended, '13:25', shop, [
        repaired(
          thing,
          mended,
          'no fault found',
          SHOP_TECHNICIAN.name,
          'Ran it for half an hour; nothing found',
        ),
      ]);
    } else {
      const [repair] = familyOf(thing.family)?.repairs ?? [];
      if (!repair) throw new Error(`The book has no repair of ${thing.family}.`);
      world.diary.at(mended, '13:25', shop, [
        repaired(thing, mended, repair.kind, SHOP_TECHNICIAN.name),
        ...repair.owes.map(owed => record(thing, owed, mended, { performedBy: SHOP_TECHNICIAN.name })),
      ]);
    }
    world.diary.at(mended, '17:15', memberLabel(officer), [returned(thing, mended)]);
  }
}

/** Worn out and replaced by nothing, or by the yearly order under a new number. */
export function retirements(world: World, equipment: readonly Thing[]): void {
  const chance = world.chance('retirements');
  const worn = chance.some(
    equipment.filter(t => !t.taken && !['AED', 'thermal imager'].includes(t.kind ?? '')),
    46,
  );
  worn.forEach((thing, i) => {
    thing.taken = true;
    const day = addDays(world.on, -chance.whole(25, 1000));
    world.diary.at(day, '16:40', memberLabel(LOGISTICS), [
      retire(thing, day, i % 3 === 0 ? 'Worn out' : 'Beyond economic repair'),
      ...(i % 4 === 0 ? [deed('item.dispose', thing, day, { how: 'Scrapped' })] : []),
    ]);
  });
}

/** What is out of service on the demo's day by the common course of things. */
export function openNow(world: World, equipment: readonly Thing[]): void {
  const chance = world.chance('open now');
  const wanted: readonly (readonly [kind: string, ago: number, atVendor: boolean])[] = [
    ['chain saw', 12, true],
    ['four-gas meter', 40, true],
    ['portable radio', 5, false],
    ['nozzle', 3, false],
    ['hand light', 1, false],
    ['extinguisher', 8, true],
    ['scene light', 19, false],
  ];
  for (const [kind, ago, atVendor] of wanted) {
    const thing = chance.pick(
      equipment.filter(
        t => !t.taken && t.kind === kind && isInUse(t, world.on) && t.assignment === 'first line',
      ),
    );
    thing.taken = true;
    const day = addDays(world.on, -ago);
    const who = crewOf(thing.station, 'driver', ago);
    world.diary.at(day, '07:25', memberLabel(who), [tagOut(thing, day, faultOf(world, thing))]);
    if (!atVendor) continue;
    const sent = addDays(day, 1);
    world.diary.at(sent, '10:40', memberLabel(LOGISTICS), [
      deed('item.sendToRepair', thing, sent, {
        vendor: at(REPAIR_VENDOR),
        reason: 'Shop cannot repair it here',
      }),
    ]);
  }
}

/** A few packs that went through the technician's hands; most were back within days. */
export function packRepairs(world: World, packs: readonly Thing[]): void {
  const chance = world.chance('pack repairs');
  const technician = memberLabel(PACK_TECHNICIAN);
  for (const pack of chance.some(
    packs.filter(p => !p.taken),
    14,
  )) {
    pack.taken = true;
    const found = addDays(world.on, -chance.whole(100, 1000));
    const mended = addDays(found, chance.whole(1, 9));
    world.diary.at(found, '08:05', memberLabel(crewOf(pack.station, 'firefighter', 1)), [
      tagOut(pack, found, chance.pick(['Low-air alarm late', 'Bypass leaks', 'Gauge fogged'])),
    ]);
    world.diary.at(mended, '15:35', technician, [
      repaired(pack, mended, 'regulator, alarm or valve', PACK_TECHNICIAN.name),
      record(pack, 'flow test', mended, {
        readings: { alarm_percent: 34 },
        performedBy: PACK_TECHNICIAN.name,
      }),
    ]);
    world.diary.at(mended, '16:05', memberLabel(crewOf(pack.station, 'company officer', 0)), [
      returned(pack, mended),
    ]);
  }
}

function faultOf(world: World, thing: Thing): string {
  return world.chance(`fault ${thing.number}`).pick(FAULTS[thing.kind ?? ''] ?? COMMON_FAULTS);
}
