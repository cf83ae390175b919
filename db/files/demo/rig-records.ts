/** The rigs as things: what they are, and the story of a pump that was repaired and tested between its yearly tests. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import type { Values } from '../../../domain/facts.ts';
import type { Thing, World } from './deeds.ts';
import { record } from './deeds.ts';
import { monthText } from './instants.ts';
import { CHIEF, LOGISTICS, memberLabel, SHOP_TECHNICIAN } from './people.ts';
import { at, RIGS } from './places.ts';

const KIND: Readonly<Record<string, Values>> = {
  engine: { kind: 'engine', staffed: true, pump_gpm: 1500, tank_gal: 750, foamSystem: true, gvwr_lb: 44_000 },
  'tower ladder': {
    kind: 'ladder',
    staffed: true,
    aerial: 'platform',
    aerial_ft: 95,
    waterway: true,
    lineVoltage: true,
    gvwr_lb: 76_000,
  },
  rescue: { kind: 'rescue', staffed: true, lineVoltage: true, winch: true, gvwr_lb: 41_000 },
  tender: { kind: 'tender', pump_gpm: 750, tank_gal: 2500, gvwr_lb: 58_000 },
  brush: { kind: 'brush', pump_gpm: 150, tank_gal: 300, gvwr_lb: 19_500 },
  'command car': { kind: 'command', staffed: true },
  reserve: { kind: 'engine', pump_gpm: 1250, tank_gal: 500, gvwr_lb: 42_000 },
};

/** Months since each was made; Reserve R-1 is past fifteen years and was looked at for it. */
const AGE_MONTHS: Readonly<Record<string, number>> = {
  'Reserve R-1': 232,
  'Reserve R-2': 176,
  'Tower 33': 128,
};

/** What the rigs are, told on the second day. @returns each as a thing, for its upkeep */
export function planRigs(world: World): Thing[] {
  const { diary, opened, on } = world;
  const told = addDays(opened, 1);
  const rigs = RIGS.map(({ name, kind, station }): Thing => {
    const chance = world.chance(`rig ${name}`);
    const months = AGE_MONTHS[name] ?? chance.whole(48, 120);
    return {
      family: 'apparatus',
      number: name,
      label: at(name),
      serial: null,
      attributes: {
        ...KIND[kind ?? 'reserve'],
        made: monthText(on, -months),
        inService: monthText(on, 2 - months),
        steerTiresMade: monthText(on, -chance.whole(14, 60)),
        otherTiresMade: monthText(on, -chance.whole(14, 66)),
        maker: 'Maker R',
      },
      station,
      place: at(name),
      assignment: kind === null ? 'reserve' : 'first line',
      received: told,
      gone: null,
      taken: false,
      ...(name === PUMP_REPAIRED ? { leaves: ['pump test'] } : {}),
    };
  });
  diary.at(
    told,
    '16:20',
    memberLabel(LOGISTICS),
    rigs.map(rig => ({ action: 'item.amend', body: { item: rig.label, attributes: rig.attributes } })),
  );
  return rigs;
}

/** The pump whose repair owed a test: passed the next day, it is what the yearly test counts from. */
export const PUMP_REPAIRED = 'Engine 32';
export const PUMP_REPAIRED_AGO = 74;

export function pumpRepair(world: World, rigs: readonly Thing[]): void {
  const rig = rigs.find(r => r.number === PUMP_REPAIRED);
  if (!rig) return;
  const day = addDays(world.on, -PUMP_REPAIRED_AGO);
  const yearly = addDays(world.on, -PUMP_REPAIRED_AGO - 210);
  world.diary.at(yearly, '13:40', memberLabel(SHOP_TECHNICIAN), [pumpTest(rig, yearly)]);
  world.diary.at(day, '15:30', memberLabel(SHOP_TECHNICIAN), [
    {
      action: 'item.repaired',
      body: {
        item: rig.label,
        kind: 'pump or pump drive',
        performedBy: SHOP_TECHNICIAN.name,
        note: 'Mechanical seal replaced',
        on: dayText(day),
      },
    },
  ]);
  const next = addDays(day, 1);
  world.diary.at(next, '13:40', memberLabel(SHOP_TECHNICIAN), [pumpTest(rig, next)]);
}

function pumpTest(rig: Thing, on: Day) {
  return record(rig, 'pump test', on, {
    readings: { flow_gpm: 1500, prime_s: 22, vacuumLoss_inHg: '3' },
    performedBy: 'High Plains Pump Service',
  });
}

/** A reading told wrong and voided, and a meter that was replaced. */
export function meterStories({ diary, on }: World): void {
  const wrong = addDays(on, -33);
  const read = (rig: string, meter: string, reading: number, day: typeof on, more = {}) => ({
    action: 'rig.read',
    body: { rig: at(rig), meter, reading, on: dayText(day), ...more },
  });
  diary.at(wrong, '9:05', memberLabel(CHIEF), [
    { ...read('Brush 32', 'miles', 152_340, wrong, { readTwice: true }), as: '@wrong reading' },
  ]);
  diary.at(addDays(wrong, 1), '9:10', memberLabel(CHIEF), [
    {
      action: 'void',
      body: { target: '@wrong reading', why: 'The odometer of another rig was written down' },
    },
  ]);
  const replaced = addDays(on, -1);
  diary.at(replaced, '11:15', memberLabel(SHOP_TECHNICIAN), [
    read('Tender 34', 'pump hours', 1, replaced, { meterReplaced: true }),
  ]);
}
