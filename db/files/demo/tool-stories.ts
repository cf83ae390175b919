/** What shows of single tools and gear on the demo's day: hours, worn packs, lost agent, an old coat, gear in storage. */
import { addDays, addMonths, dayText } from '../../../domain/calendar/day.ts';
import { deed, labelOf, receive, record, type Thing, type World } from './deeds.ts';
import type { Planned } from './diary.ts';
import { monthText } from './instants.ts';
import { crewOf, LOGISTICS, memberLabel, SHOP_TECHNICIAN } from './people.ts';
import { at } from './places.ts';

/** The numbers of what each is told of. */
export const TOLD = {
  /** Generators whose hours are read: a range of days for the next service. */
  hours: ['GEN-1', 'GEN-2', 'GEN-3', 'GEN-4'],
  /** A rescue tool battery at 74 % of its capacity. */
  worn: 'BAT-9',
  /** Carbon dioxide: 2.5 lb of 20 lb are gone. */
  lightExtinguisher: 'EXT-21',
  /** Made ten years and some months ago. */
  oldCoat: 'TC-40',
  /** In storage since last winter: the yearly inspection waits. */
  stored: ['TC-68', 'TT-68'],
  /** Pads past their printed date. */
  pads: 'AED-7',
  /** Fell from a roof: it owes a service whatever its date. */
  droppedImager: 'TIC-9',
  compressor: 'CMP-1',
  gas: ['CAL-1', 'CAL-2'],
} as const;

/** The compressor of Station 31 and two lots of calibration gas. */
export function planStock(world: World): Thing[] {
  const { on, opened, diary } = world;
  const base = {
    serial: null,
    station: 31,
    assignment: 'first line',
    received: addDays(opened, 1),
    gone: null,
    taken: true,
  } as const;
  const things: Thing[] = [
    {
      ...base,
      family: 'compressor',
      number: TOLD.compressor,
      kind: 'compressor',
      attributes: {
        kind: 'compressor and fill station',
        lubrication: 'oil',
        pressure_psi: 6000,
        filterDue: monthText(on, 3),
        maker: 'Maker C',
        made: monthText(on, -90),
        inService: monthText(on, -88),
      },
      place: at(31, 'fill room'),
    },
    ...TOLD.gas.map(
      (number, i): Thing => ({
        ...base,
        family: 'calibration-gas',
        number,
        kind: 'calibration gas',
        attributes: {
          lot: `G-${4410 + i}`,
          gases: 'CO 50 ppm, H2S 25 ppm, CH4 50 % LEL, O2 18 %',
          expires: monthText(on, i === 0 ? 1 : 14),
          made: monthText(on, i === 0 ? -23 : -10),
          inService: monthText(on, i === 0 ? -22 : -9),
        },
        place: at(31, 'tool room'),
        received: addDays(on, i === 0 ? -640 : -240),
      }),
    ),
  ];
  for (const thing of things)
    diary.at(thing.received, '16:05', memberLabel(LOGISTICS), [receive(thing, 'sight')]);
  return things;
}

/** What is known of a few things otherwise than of their kind; before they are received. */
export function prepare(world: World, things: readonly Thing[]): void {
  const set = (number: string, attributes: Record<string, string>) => {
    const thing = things.find(t => t.number === number);
    if (!thing) throw new Error(`The demo has no ${number}.`);
    thing.attributes = { ...thing.attributes, ...attributes };
    thing.taken = true;
  };
  set(TOLD.oldCoat, { made: monthText(world.on, -123), inService: monthText(world.on, -121) });
  set(TOLD.pads, { padsExpire: monthText(world.on, -2) });
  for (const number of [TOLD.worn, TOLD.lightExtinguisher, TOLD.droppedImager, ...TOLD.hours])
    set(number, {});
  for (const number of TOLD.stored) {
    const thing = things.find(t => t.number === number);
    if (!thing) throw new Error(`The demo has no ${number}.`);
    thing.taken = true;
    thing.assignment = 'storage';
    thing.leaves = ['advanced inspection'];
  }
}

export function tell(world: World, things: readonly Thing[]): void {
  const { diary, on } = world;
  const byNumber = (number: string): Thing => {
    const thing = things.find(t => t.number === number);
    if (!thing) throw new Error(`The demo has no ${number}.`);
    return thing;
  };
  const shop = memberLabel(SHOP_TECHNICIAN);
  // Hours, read each month for a year.
  for (let month = 12; month > 0; month--) {
    const day = addDays(addMonths(on, -month), 3);
    diary.at(
      day,
      '15:20',
      shop,
      TOLD.hours.map((number, i): Planned => {
        const chance = world.chance(`hours ${number} ${month}`);
        return deed('item.read', byNumber(number), day, {
          meter: 'hours',
          reading: 40 + 61 * i + (12 - month) * (5 + i) + chance.whole(0, 3),
        });
      }),
    );
  }
  const stored = addDays(on, -520);
  diary.at(
    stored,
    '14:30',
    shop,
    TOLD.stored.map(number => record(byNumber(number), 'advanced inspection', stored)),
  );
  const tested = addDays(on, -9);
  diary.at(tested, '15:40', shop, [
    record(byNumber(TOLD.worn), 'capacity test', tested, { readings: { capacity_percent: 74 } }),
  ]);
  const weighed = addDays(on, -6);
  diary.at(weighed, '10:35', memberLabel(crewOf(32, 'driver', 1)), [
    record(byNumber(TOLD.lightExtinguisher), 'weighing', weighed, { readings: { weight_lb: '47.5' } }),
  ]);
  const dropped = addDays(on, -4);
  diary.at(dropped, '19:25', memberLabel(crewOf(33, 'company officer', 0)), [
    {
      action: 'item.oweRetest',
      body: {
        item: labelOf(byNumber(TOLD.droppedImager)),
        trigger: 'dropped, heated or wet',
        note: 'Fell from the roof of a garage',
        on: dayText(dropped),
      },
    },
  ]);
}
