/** The district's cylinders: carbon bottles by the order they came with. */
import { addDays, dayText, type Month } from '../../../domain/calendar/day.ts';
import { atOpening, bottle, CARBON, CARBON_READINGS, marked, numbers, trip } from './bottles.ts';
import { receive, type Spot, type Thing, type World } from './deeds.ts';
import type { Planned } from './diary.ts';
import { monthText, nextQuarter } from './instants.ts';
import { cascade, goneLots, oxygen } from './older-cylinders.ts';
import { LOGISTICS, memberLabel } from './people.ts';
import { at, CYLINDER_TESTER, RIGS } from './places.ts';
import { CYLINDERS } from './stories.ts';

/** Plan the cylinders and their three years. @returns every one, for the stories */
export function planCylinders(world: World): Thing[] {
  const spots = spotsFor();
  const lots = [
    cliff(world, spots),
    middleLot(world, spots),
    ...youngerLots(world, spots),
    oxygen(world),
    cascade(world),
    ...goneLots(world),
  ];
  return lots.flat();
}

/** Where bottles are kept, in the order in which numbers were given: seats first, then racks. */
function spotsFor(): (i: number) => Spot {
  const onRigs = RIGS.filter(r => r.kind !== 'brush').flatMap(rig =>
    [...rig.seats, ...rig.body.filter(b => /^[LR][12]$/.test(b))].map(
      (name): Spot => ({
        place: at(rig.name, name),
        station: rig.station,
        as: rig.kind === null ? 'reserve' : 'first line',
      }),
    ),
  );
  const racks: Spot[] = ([31, 32, 33, 34] as const).flatMap(station => [
    { place: at(station, 'bottle rack'), station, as: 'ready spare' as const },
    { place: at(31, 'fill room', 'full rack'), station: 31 as const, as: 'ready spare' as const },
  ]);
  // Two of three ride, one is in a rack; steps of 29 spread an order over the rigs.
  return i => {
    const inRack = i % 3 === 2;
    const turn = inRack ? Math.floor(i / 3) : (i - Math.floor(i / 3)) * 29;
    const list = inRack ? racks : onRigs;
    return list[turn % list.length] ?? { place: at(31), station: 31, as: 'storage' };
  };
}

/** Fifty bottles of one order: fifteen years old in the quarter after the demo's day. */
function cliff(world: World, spots: (i: number) => Spot): Thing[] {
  const months = nextQuarter(world.on);
  const marks: Planned[] = [];
  const lot = CYLINDERS.cliff.map((number, i) => {
    const late = CYLINDERS.chargedPastDue.indexOf(number);
    const ends = months[i % 3] ?? months[0];
    const thing = bottle(
      world,
      number,
      { ...CARBON, spec: 'DOT-SP 10915', maker: 'Maker A', model: 'Crest 45', made: monthOfText(ends, -180) },
      spots(i),
    );
    marks.push(marked(thing, monthOfText(ends, -120), CARBON_READINGS));
    // Three came back from the tester ahead of the others, so their five years ran out first.
    marks.push(
      marked(thing, late < 0 ? monthOfText(ends, -60) : monthText(world.on, -61 - late), CARBON_READINGS),
    );
    return thing;
  });
  atOpening(world, '05', lot, marks);
  return lot;
}

function monthOfText(month: Month, plus: number): string {
  const moved = month + plus;
  return `${1970 + Math.floor(moved / 12)}-${String((((moved % 12) + 12) % 12) + 1).padStart(2, '0')}`;
}

/** Seventy bottles between seven and ten years old: half were requalified before the opening, half since. */
function middleLot(world: World, spots: (i: number) => Spot): Thing[] {
  const marks: Planned[] = [];
  const trips = new Map<number, Thing[]>();
  const lot = numbers('C', 151, 70).map((number, i) => {
    const late = number === CYLINDERS.filledPastDue;
    const old = i < 35 || late;
    const age_months = late ? 122 : old ? 104 - (i % 9) : 83 - (i % 6);
    const thing = bottle(
      world,
      number,
      {
        ...CARBON,
        spec: 'DOT-SP 10945',
        maker: 'Maker B',
        model: 'Span 45',
        made: monthText(world.on, -age_months),
      },
      spots(i + 50),
    );
    if (late) marks.push(marked(thing, monthText(world.on, -62), CARBON_READINGS));
    else if (old) marks.push(marked(thing, monthText(world.on, 59 - age_months), CARBON_READINGS));
    else {
      const ago = (age_months - 59) * 30;
      trips.set(ago, [...(trips.get(ago) ?? []), thing]);
    }
    return thing;
  });
  atOpening(world, '10', lot, marks);
  const [condemned] = [...trips.values()].flat().filter(c => !c.taken);
  for (const [ago, bottles] of trips)
    trip(world, bottles, addDays(world.on, -ago), CYLINDER_TESTER, 7500, condemned);
  return lot;
}

/** Two later orders, inside their first five years, and five bottles of a permit nobody has read yet. */
function youngerLots(world: World, spots: (i: number) => Spot): Thing[][] {
  const fourYears = numbers('C', 221, 60).map((number, i) =>
    bottle(
      world,
      number,
      {
        ...CARBON,
        spec: 'DOT-SP 10915',
        maker: 'Maker A',
        model: 'Crest 45',
        made: monthText(world.on, -(42 + (i % 8))),
        inService: monthText(world.on, -(39 + (i % 8))),
      },
      spots(i + 120),
    ),
  );
  atOpening(world, '15', fourYears, []);
  const order = addDays(world.on, -655);
  const twoYears = numbers('C', 281, 50).map((number, i) => ({
    ...bottle(
      world,
      number,
      {
        ...CARBON,
        spec: 'DOT-SP 10945',
        maker: 'Maker B',
        model: 'Span 45',
        made: monthText(order, -(2 + (i % 2))),
        inService: dayText(order),
      },
      spots(i + 180),
    ),
    received: order,
  }));
  const unread = CYLINDERS.notJudged.map(number => ({
    ...bottle(
      world,
      number,
      {
        ...CARBON,
        spec: 'DOT-SP 14232',
        maker: 'Maker C',
        model: 'Long 45',
        lifeLabel_months: 360,
        made: monthText(order, -5),
        inService: dayText(order),
      },
      { place: at(33, 'bottle rack'), station: 33 as const, as: 'ready spare' as const },
    ),
    received: order,
  }));
  world.diary.at(
    order,
    '11:05',
    memberLabel(LOGISTICS),
    [...twoYears, ...unread].map(c => receive(c, 'number read')),
  );
  return [fourYears, twoYears, unread];
}
