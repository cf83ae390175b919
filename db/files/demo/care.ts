/**
 * The upkeep that the book asks for, done as an orderly department does it: each station takes a duty in one go, in
 * its season, and passes over a thing now and then. What is due comes from the requirements themselves.
 */
import { addDays, type Day } from '../../../domain/calendar/day.ts';
import { lastDay } from '../../../domain/calendar/when.ts';
import { whenAttribute } from '../../../domain/derive/clocks/index.ts';
import { holds } from '../../../domain/derive/thing.ts';
import type { Clock, Every, Requirement } from '../../../domain/rulebook/types.ts';
import { isInUse, record, type Thing, type World } from './deeds.ts';
import type { Planned } from './diary.ts';
import { crewOf, memberLabel, SHOP_TECHNICIAN, type Station } from './people.ts';

/** A duty that repeats, as the district does it. */
interface Duty {
  requirement: Requirement;
  days: number;
}

/** Rigs on which nothing is passed over: a story is told of what is wrong there. */
const ORDERLY = ['Engine 31'];

/**
 * @param things with the rules of their family
 * @param duties the requirements in force on the demo's day, by family
 */
export function care(
  world: World,
  things: readonly Thing[],
  duties: ReadonlyMap<string, readonly Requirement[]>,
): void {
  const pages = new Map<
    string,
    { day: Day; time: string; station: Station; isShop: boolean; deeds: Planned[] }
  >();
  for (const thing of things) {
    const done: { activity: string; on: Day }[] = [];
    for (const duty of dutiesOf(thing, duties)) {
      for (const on of daysOf(world, thing, duty, done)) {
        done.push({ activity: duty.requirement.activity, on });
        const isShop = duty.days >= 180;
        const time = duty.days <= 7 ? '06:40' : isShop ? '14:10' : '10:20';
        const toldOn = Math.max(on, thing.received + 1) as Day;
        const key = `${toldOn} ${time} ${thing.station}`;
        const page = pages.get(key) ?? { day: toldOn, time, station: thing.station, isShop, deeds: [] };
        page.deeds.push(
          record(thing, duty.requirement.activity, on, readings(world, thing, duty.requirement)),
        );
        pages.set(key, page);
      }
    }
  }
  for (const { day, time, station, isShop, deeds } of pages.values()) {
    const who = isShop ? SHOP_TECHNICIAN : crewOf(station, 'driver', day);
    world.diary.at(day, time, memberLabel(who), deeds);
  }
}

/** The duties that concern a thing, the longest first: what a longer one settles need not be done again. */
function dutiesOf(thing: Thing, duties: ReadonlyMap<string, readonly Requirement[]>): Duty[] {
  return (duties.get(thing.family) ?? [])
    .filter(
      r =>
        r.satisfiedBy.length > 0 &&
        !thing.leaves?.includes(r.activity) &&
        r.appliesTo.every(c => holds(c, thing.attributes)),
    )
    .flatMap(requirement => {
      const days = intervalOf(requirement.clock);
      return days === null ? [] : [{ requirement, days }];
    })
    .sort((a, b) => b.days - a.days);
}

/** Days between two, by the calendar part of a clock; null where there is none. */
function intervalOf(clock: Clock): number | null {
  const daysIn = (every: Every) => ('days' in every ? every.days : Math.floor(every.months * 30.4));
  if (clock.kind === 'since last') return daysIn(clock.every);
  if (clock.kind === 'fixed month') return daysIn({ months: clock.every_months });
  if (clock.kind === 'once') return 100_000;
  if (clock.kind !== 'first of') return null;
  const parts = clock.clocks.flatMap(c => intervalOf(c) ?? []);
  // Whichever comes first: with meters running it comes sooner than the calendar says.
  return parts.length === 0 ? null : Math.floor(Math.min(...parts) * 0.55);
}

/** On which days a duty was done on a thing, the earliest first. */
function daysOf(
  { on, opened, chance }: World,
  thing: Thing,
  { requirement, days }: Duty,
  done: readonly { activity: string; on: Day }[],
): Day[] {
  const made = whenAttribute(thing.attributes, 'inService');
  const begun = made === null ? 0 : lastDay(made);
  const from = Math.max(opened + 2, thing.received + 1, begun) as Day;
  if (days > 10_000) return done.some(d => settles(requirement, d)) || !isInUse(thing, from) ? [] : [from];
  const until = Math.min(on, thing.gone ?? on) as Day;
  // A station takes a duty in one go.
  const ofStation = chance(`${requirement.id} at ${thing.station}`);
  const isMissed =
    thing.family !== 'hose' &&
    !ORDERLY.includes(thing.place.split(',')[0]?.slice(1) ?? '') &&
    chance(`${requirement.id} ${thing.number}`).happens(1, 45);
  const usual = days <= 1 ? 0 : ofStation.whole(days > 7 ? 1 : 0, Math.max(1, Math.floor(days * 0.82)));
  // What comes every few years may have been done before the district opened its file: it is told when it is known.
  const isRare = days > 1000;
  const last = addDays(until, -(isMissed ? days + ofStation.whole(2, 40) : usual));
  const times = isRare ? 1 : days >= 180 ? 3 : 1;
  return Array.from({ length: times }, (_, i) => addDays(last, -(times - 1 - i) * (days - 6)))
    .filter(day => (isRare ? day > begun : day >= from && isInUse(thing, day)))
    .filter(day => !done.some(d => settles(requirement, d) && d.on >= day && d.on - day < days));
}

function settles(requirement: Requirement, { activity }: { activity: string }): boolean {
  return requirement.satisfiedBy.includes(activity);
}

/** The figures that a record brings, where a rule of the demo's book reads them. */
function readings(world: World, thing: Thing, { activity }: Requirement) {
  const chance = world.chance(`figures ${thing.number} ${activity}`);
  if (activity === 'capacity test') return { readings: { capacity_percent: chance.whole(83, 99) } };
  if (activity === 'pump test')
    return {
      readings: {
        flow_gpm: Number(thing.attributes.pump_gpm ?? 0),
        prime_s: chance.whole(14, 27),
        vacuumLoss_inHg: '2.5',
      },
      performedBy: 'High Plains Pump Service',
    };
  if (thing.family === 'apparatus' && activity === 'inspection')
    return { readings: { steerTread_32nds: chance.whole(8, 14), otherTread_32nds: chance.whole(7, 13) } };
  if (activity === 'brake inspection') return { readings: { airLoss_psi_per_min: '0.8' } };
  return {};
}
