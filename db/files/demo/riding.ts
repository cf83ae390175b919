/** The rigs themselves: their meters read each month, what limits one of them, and what shifts pass on. */
import { addDays, addMonths, type Day, dayText } from '../../../domain/calendar/day.ts';
import type { World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { crewOf, memberLabel, SHOP_TECHNICIAN } from './people.ts';
import { at, RIGS } from './places.ts';

/** What a kind of rig gains in a quarter: miles, engine hours, and hours of its pump or aerial. Invented. */
const A_QUARTER: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  engine: { miles: 1900, 'engine hours': 190, 'pump hours': 14 },
  'tower ladder': { miles: 1300, 'engine hours': 170, 'aerial hours': 11 },
  rescue: { miles: 1500, 'engine hours': 160 },
  tender: { miles: 700, 'engine hours': 60, 'pump hours': 6 },
  brush: { miles: 1100, 'engine hours': 80, 'pump hours': 9 },
  'command car': { miles: 3200, 'engine hours': 210 },
  reserve: { miles: 300, 'engine hours': 40, 'pump hours': 3 },
};
const MONTHS = 24;

export function readMeters(world: World): void {
  const { diary, on } = world;
  for (const { name, kind, station } of RIGS) {
    const chance = world.chance(`meters of ${name}`);
    const gains = A_QUARTER[kind ?? 'reserve'] ?? {};
    const stands = Object.fromEntries(
      Object.entries(gains).map(([meter, gain]) => [meter, gain * chance.whole(8, 30)]),
    );
    for (let month = MONTHS; month > 0; month--) {
      const day = addDays(addMonths(on, -month), chance.whole(2, 12));
      const deeds = Object.entries(gains).map(([meter, gain]): Planned => {
        const reading = (stands[meter] ?? 0) + Math.round((gain * chance.whole(80, 120)) / 300);
        stands[meter] = reading;
        return { action: 'rig.read', body: { rig: at(name), meter, reading, on: dayText(day) } };
      });
      diary.at(day, `9:${chance.whole(10, 59)}`, memberLabel(crewOf(station, 'driver', month)), deeds);
    }
  }
}

/** Reserve R-1 goes limited while it waits for parts. */
export function limitedReserve({ diary, on }: World): void {
  const day = addDays(on, -3);
  diary.at(day, '14:20', memberLabel(SHOP_TECHNICIAN), [
    {
      action: 'rig.takeOut',
      body: {
        rig: at('Reserve R-1'),
        condition: 'limited',
        reason: 'Left rear scene light out, parts on order: not for night work',
        on: dayText(day),
      },
    },
  ]);
}

/** Two notes wait for the next shift; one was dealt with. */
export function passOn({ diary, on }: World): void {
  const note = (day: Day, text: string, about: Record<string, Label>, as: Label): Planned => ({
    action: 'note.write',
    body: { text, ...about, on: dayText(day) },
    as,
  });
  const before = addDays(on, -4);
  const yesterday = addDays(on, -1);
  diary.at(before, '18:40', memberLabel(crewOf(33, 'company officer', 0)), [
    note(
      before,
      'Generator hard to start when cold; fresh fuel tried, plug still to do.',
      { unit: '@unit Rescue 33' },
      '@note generator',
    ),
  ]);
  diary.at(addDays(on, -2), '07:15', memberLabel(crewOf(31, 'company officer', 0)), [
    note(addDays(on, -2), 'Bay 2 door stops half way.', { station: at(31) }, '@note door'),
  ]);
  diary.at(yesterday, '11:30', memberLabel(crewOf(31, 'company officer', 1)), [
    {
      action: 'note.close',
      body: { note: '@note door', why: 'Track cleared by the city shop', on: dayText(yesterday) },
    },
  ]);
  diary.at(yesterday, '18:50', memberLabel(crewOf(31, 'company officer', 0)), [
    note(
      yesterday,
      'Hose 31-107 is due for its test: keep it first off the bed on test day.',
      { unit: '@unit Engine 31' },
      '@note hose',
    ),
  ]);
}
