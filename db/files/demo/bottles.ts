/** What every lot of cylinders needs: a bottle, the marks on it, and the way to the tester and back. */
import { addDays, type Day } from '../../../domain/calendar/day.ts';
import type { Values } from '../../../domain/facts.ts';
import { deed, move, receive, record, retire, type Spot, type Thing, type World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { LOGISTICS, memberLabel } from './people.ts';
import { CYLINDER_TESTER } from './places.ts';
import { CYLINDERS } from './stories.ts';

export const CARBON = {
  construction: 'carbon',
  servicePressure_psi: 4500,
  ratedDuration_min: 45,
  gas: 'air',
};
export const CARBON_READINGS: Values = { testPressure_psi: 7500 };

export function bottle(world: World, number: string, attributes: Values, spot: Spot): Thing {
  const chance = world.chance(`serial ${number}`);
  return {
    family: 'cylinder',
    number,
    serial: `${attributes.maker === 'Maker A' ? 'ALT' : 'OK'}${chance.whole(100_000, 999_999)}`,
    attributes,
    station: spot.station,
    place: spot.place,
    assignment: spot.as,
    received: addDays(world.opened, 1),
    gone: null,
    taken: CYLINDERS.kept.includes(number),
  };
}

export const numbers = (letter: string, from: number, count: number) =>
  Array.from({ length: count }, (_, i) => `${letter}-${from + i}`);

/** A requalification as its mark says it: month and year. */
export function marked(thing: Thing, month: string, readings: Values, note?: string): Planned {
  return record(thing, 'requalification', month, {
    agency: CYLINDER_TESTER,
    readings,
    ...(note ? { note } : {}),
  });
}

/** What logistics entered on the first days: the bottles as found, and the marks read on them. */
export function atOpening(
  world: World,
  time: string,
  lot: readonly Thing[],
  marks: readonly Planned[],
): void {
  const { diary, opened } = world;
  const logistics = memberLabel(LOGISTICS);
  diary.at(
    addDays(opened, 1),
    `14:${time}`,
    logistics,
    lot.map(c => receive(c, 'number read')),
  );
  diary.at(addDays(opened, 2), `14:${time}`, logistics, marks);
}

/** To the tester and back a week later, with one condemned bottle less where it is among them. */
export function trip(
  world: World,
  bottles: readonly Thing[],
  day: Day,
  agency: Label,
  testPressure_psi: number,
  condemned?: Thing,
): void {
  const { diary } = world;
  const chance = world.chance(`requalified ${day}`);
  const logistics = memberLabel(LOGISTICS);
  const back = addDays(day, 8);
  const homes = new Map(bottles.map(b => [b, b.place]));
  diary.at(
    day,
    '08:25',
    logistics,
    bottles.map(b => deed('item.sendToRepair', b, day, { reason: 'To the requalifier' })),
  );
  diary.at(
    back,
    '16:15',
    logistics,
    bottles.flatMap(b => {
      const total_tenths = chance.whole(680, 760);
      const permanent_tenths = b === condemned ? chance.whole(80, 110) : chance.whole(4, 25);
      const test = record(b, 'requalification', addDays(back, -3), {
        outcome: b === condemned ? 'fail' : 'pass',
        agency,
        readings: {
          testPressure_psi,
          totalExpansion_cc: tenths(total_tenths),
          permanentExpansion_cc: tenths(permanent_tenths),
        },
      });
      if (b === condemned)
        return [test, retire(b, back, 'Condemned: permanent expansion over 10 % of total')];
      return [test, deed('item.return', b, back), move(b, homes.get(b) ?? b.place, back, 'number read')];
    }),
  );
  if (condemned && bottles.includes(condemned))
    diary.at(addDays(back, 1), '09:00', logistics, [
      deed('item.dispose', condemned, addDays(back, 1), { how: 'Destroyed by the requalifier' }),
    ]);
}

const tenths = (n: number) => `${Math.floor(n / 10)}.${n % 10}`;
