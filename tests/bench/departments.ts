/** Departments of a size to measure on, made through the writing door; only the generating goes unsynced. */

import type { Deed } from '../../db/api.ts';
import { act } from '../../db/store/act.ts';
import type { Clock } from '../../db/store/clock.ts';
import { openForWriting } from '../../db/store/open.ts';
import type { Db } from '../../db/store/statements.ts';
import { type Day, dayOf, dayText } from '../../domain/calendar/day.ts';
import { NOON, openingDeed } from '../db/kit/opening.ts';
import { type Seeded, seeded } from '../db/kit/seeded.ts';

export const clock: Clock = { now: () => NOON };

/** Deeds an act while generating: fewer are slower, more hold more in memory. */
const IN_ONE_ACT = 2000;
const THINGS_A_RIG = 250;

/** Make a department of so many things in a new file, with a test or two on record for most of them. */
export function makeDepartment(file: string, things: number): void {
  const db = openForWriting(file, { create: true });
  db.pragma('synchronous = OFF');
  const opened = act(db, clock, { by: null, deeds: [openingDeed()] });
  if (!opened.ok) throw new Error(opened.error.message);
  const by = `${opened.value.entries[0]}.m`;
  const random = seeded(things);
  const places = makePlaces(db, by, Math.max(2, Math.ceil(things / THINGS_A_RIG)));
  let deeds: Deed[] = [];
  const flush = () => {
    if (deeds.length === 0) return;
    const answer = act(db, clock, { by, deeds });
    if (!answer.ok) throw new Error(answer.error.message);
    deeds = [];
  };
  for (let i = 0; i < things; i++) {
    if (deeds.length >= IN_ONE_ACT) flush();
    deeds.push(...aThing(i, deeds.length, random, places));
  }
  flush();
  db.pragma('wal_checkpoint(TRUNCATE)');
  db.close();
}

function makePlaces(db: Db, by: string, rigs: number): string[] {
  const places: string[] = [];
  const write = (deeds: Deed[]): string[] => {
    const answer = act(db, clock, { by, deeds });
    if (!answer.ok) throw new Error(answer.error.message);
    return answer.value.entries;
  };
  const stations = write(
    Array.from({ length: Math.ceil(rigs / 3) }, (_, i) => ({
      action: 'station.add',
      body: { name: `Station ${i + 1}` },
    })),
  );
  const units = write(
    Array.from({ length: rigs }, (_, i) => ({
      action: 'unit.add',
      body: {
        name: `Engine ${i + 1}`,
        kind: 'engine',
        station: stations[i % stations.length],
        rig: { name: `Engine ${i + 1}` },
      },
    })),
  );
  const parts = ['hosebed driver side', 'hosebed officer side', 'crosslay 1', 'left side L1', 'SCBA rack'];
  places.push(
    ...write(
      units.flatMap(unit =>
        parts.map(name => ({ action: 'place.add', body: { name, kind: 'compartment', under: `${unit}.r` } })),
      ),
    ),
  );
  const seats = ['driver seat', 'officer seat', 'seat 3', 'seat 4'];
  write(
    units.flatMap(unit =>
      seats.map(name => ({ action: 'place.add', body: { name, kind: 'seat', under: `${unit}.r` } })),
    ),
  );
  for (const unit of units) write([carryList(unit, parts)]);
  return places;
}

/** A list of 250 lines, most of them counted, as an engine has it. */
function carryList(unit: string, parts: readonly string[]): Deed {
  const tracked = ['hose', 'cylinder', 'pack', 'ladder', 'equipment'].flatMap(family =>
    parts.map(place => ({ what: family, family, qty: 6, min: 1, place, critical: family !== 'equipment' })),
  );
  const counted = Array.from({ length: 250 - tracked.length }, (_, i) => ({
    what: `Part ${i + 1}`,
    qty: 1 + (i % 6),
    min: 1,
    place: parts[i % parts.length],
  }));
  return { action: 'carry.set', body: { of: unit, lines: [...tracked, ...counted] } };
}

/** A thing with what is on record of it; `at` is the place of its receipt in the list of deeds. */
function aThing(i: number, at: number, random: Seeded, places: readonly string[]): Deed[] {
  const family = random.pick([
    'hose',
    'hose',
    'hose',
    'hose',
    'hose',
    'cylinder',
    'cylinder',
    'pack',
    'ladder',
    'equipment',
  ]);
  const made = dayText((dayOf(2010, 1, 1) + random.below(4500)) as Day);
  const inService = dayText((dayOf(2022, 6, 1) + random.below(200)) as Day);
  const item = `&${at}`;
  const deeds: Deed[] = [
    {
      action: 'item.receive',
      body: {
        family,
        number: `${1 + (i % 60)}-${1000 + i}`,
        serial: `SN${700_000 + i}`,
        attributes: { ...attributesOf(family, random), made: made.slice(0, 7), inService },
        place: random.pick(places),
        assignment: random.pick(['first line', 'first line', 'reserve', 'ready spare'] as const),
        on: inService,
      },
    },
  ];
  const done = (activity: string, more: Record<string, unknown> = {}) => {
    const on = dayText((dayOf(2023, 6, 1) + random.below(1270)) as Day);
    const outcome = random.below(40) === 0 ? 'fail' : 'pass';
    deeds.push({ action: 'record.add', body: { item, activity, outcome, on, ...more } });
  };
  if (family === 'hose' && random.chance(0.9)) {
    done('service test', { readings: { testPressure_psi: 300, held_s: 300 } });
    if (random.chance(0.5)) done('service test', { readings: { testPressure_psi: 300, held_s: 300 } });
  } else if (family === 'cylinder' && random.chance(0.8)) done('requalification', { rin: 'A123' });
  else if (family === 'ladder' || family === 'equipment') done('inspection');
  else if (family === 'pack') {
    done('flow test');
    done('inspection');
  }
  return deeds;
}

function attributesOf(family: string, random: Seeded): Record<string, unknown> {
  switch (family) {
    case 'hose':
      return {
        diameter_in: random.pick(['1.75', '2.5', '5']),
        length_ft: random.pick([50, 100]),
        use: random.pick(['attack', 'attack', 'supply']),
        maker: random.pick(['Maker A', 'Maker B', 'Maker C']),
      };
    case 'cylinder':
      return { spec: random.pick(['DOT-3AL', 'DOT-3AA', 'DOT-SP 10915']), servicePressure_psi: 4500 };
    case 'ladder':
      return {
        type: random.pick(['roof', 'extension']),
        length_ft: random.pick([14, 24, 35]),
        material: 'aluminum',
      };
    case 'pack':
      return { maker: 'Maker D', model: 'M4', edition: '2018' };
    default:
      return { kind: random.pick(['Thermal imager', 'Saw', 'Meter']) };
  }
}
