/** Oxygen, the cascade, and bottles that have reached their end. */
import { addDays, addMonths } from '../../../domain/calendar/day.ts';
import type { Values } from '../../../domain/facts.ts';
import { atOpening, bottle, CARBON, CARBON_READINGS, marked, numbers, trip } from './bottles.ts';
import { deed, receive, retire, type Spot, type Thing, tagOut, type World } from './deeds.ts';
import type { Planned } from './diary.ts';
import { monthText } from './instants.ts';
import { crewOf, LOGISTICS, memberLabel } from './people.ts';
import { at, CYLINDER_TESTER, OTHER_TESTER, RIGS } from './places.ts';
import { CYLINDERS } from './stories.ts';

/** Medical oxygen, 3AL: ten go to the tester each year; two were forgotten, four are next. */
export function oxygen(world: World): Thing[] {
  const marks: Planned[] = [];
  const medical = ['Engine 31', 'Engine 32', 'Engine 33', 'Engine 34', 'Rescue 33', 'Tower 33'];
  const trips: Thing[][] = [[], [], []];
  const lot = numbers('O', 1, 30).map((number, i) => {
    const rig = medical[i % medical.length] ?? 'Rescue 33';
    const station = RIGS.find(r => r.name === rig)?.station ?? 33;
    const thing = bottle(
      world,
      number,
      {
        spec: '3AL',
        construction: 'aluminum',
        alloy: '6061-T6',
        servicePressure_psi: 2015,
        gas: 'oxygen',
        maker: 'Maker D',
        made: monthText(world.on, -(130 + i)),
      },
      i < 18
        ? { place: at(rig, 'R2'), station, as: 'first line' }
        : { place: at(station, 'bottle rack'), station, as: 'ready spare' },
    );
    const late = CYLINDERS.oxygenLate.includes(number);
    const soon = CYLINDERS.oxygenSoon.includes(number);
    if (late || soon)
      marks.push(marked(thing, monthText(world.on, late ? -62 : -57), { testPressure_psi: 3360 }));
    else {
      // Each went to the tester in the month before its five years ran out.
      marks.push(marked(thing, monthText(world.on, -(68 + 11 * (i % 3))), { testPressure_psi: 3360 }));
      trips[i % 3]?.push(thing);
    }
    return thing;
  });
  atOpening(world, '20', lot, marks);
  trips.forEach((bottles, year) => {
    trip(world, bottles, addDays(world.on, -(260 + 330 * year)), OTHER_TESTER, 3360);
  });
  return lot;
}

/** The fill station's cascade, 3AA: half went to the tester since the opening. No star: it is filled where it stands. */
export function cascade(world: World): Thing[] {
  const marks: Planned[] = [];
  const lot = numbers('K', 1, 12).map((number, i) => {
    const thing = bottle(
      world,
      number,
      {
        spec: '3AA',
        construction: 'steel',
        servicePressure_psi: 4500,
        gas: 'air',
        maker: 'Maker D',
        made: monthText(world.on, -(200 + i)),
      },
      { place: at(31, 'fill room'), station: 31, as: 'first line' },
    );
    marks.push(marked(thing, monthText(world.on, i < 6 ? -81 : -44), { testPressure_psi: 7500 }));
    return thing;
  });
  atOpening(world, '25', lot, marks);
  trip(world, lot.slice(0, 6), addDays(world.on, -652), CYLINDER_TESTER, 7500);
  return lot;
}

/** Bottles that have reached their end: an order retired year by year, and the last hoop-wrapped ones. */
export function goneLots(world: World): Thing[][] {
  const { diary, on } = world;
  const logistics = memberLabel(LOGISTICS);
  const marks: Planned[] = [];
  const shed: Spot = { place: at(31, 'fill room', 'empty rack'), station: 31, as: 'ready spare' };
  const order = numbers('C', 75, 26).map((number, i) => {
    const ended_months = 3 + i;
    const thing = bottle(
      world,
      number,
      {
        ...CARBON,
        spec: 'DOT-SP 10915',
        maker: 'Maker A',
        model: 'Crest 30',
        made: monthText(on, -180 - ended_months),
      },
      shed,
    );
    marks.push(marked(thing, monthText(on, -62 - ended_months), CARBON_READINGS));
    return thing;
  });
  const hoop = CYLINDERS.hoopGone.map((number, i) => {
    const thing = bottle(world, number, hoopOf(i), { ...shed, as: 'training only' });
    marks.push(marked(thing, monthText(world.opened, -40), { testPressure_psi: 3693 }));
    return thing;
  });
  atOpening(world, '30', [...order, ...hoop], marks);
  order.forEach((thing, i) => {
    const day = addMonths(on, -(3 + i));
    diary.at(day, '13:45', logistics, [retire(thing, day, 'Fifteen years old: end of its life')]);
    if (i % 2 === 1)
      diary.at(addDays(day, 1), '13:55', logistics, [
        deed('item.dispose', thing, addDays(day, 1), {
          how: 'Condemned and made unusable by the requalifier',
        }),
      ]);
  });
  const audit = addDays(world.opened, 120);
  diary.at(
    audit,
    '15:25',
    logistics,
    hoop.flatMap(c => [tagOut(c, audit, 'Past its life'), retire(c, audit, 'Past its life')]),
  );
  const found = addDays(on, -38);
  const late = CYLINDERS.hoopFound.map((number, i) => ({
    ...bottle(world, number, hoopOf(i + 4), {
      place: at(33, 'training shed'),
      station: 33,
      as: 'training only',
    }),
    received: found,
  }));
  const officer = crewOf(33, 'company officer', 1);
  diary.at(
    found,
    '17:05',
    memberLabel(officer),
    late.map(c => receive(c, 'number read', { condition: 'received' })),
  );
  diary.at(
    found,
    '17:10',
    memberLabel(officer),
    late.map(c =>
      marked(c, monthText(world.opened, -40), { testPressure_psi: 3693 }, 'Last mark on the sidewall'),
    ),
  );
  return [order, hoop, late];
}

/** Marked DOT-E, so made before the autumn of 2007, when new ones began to be marked DOT-SP. */
function hoopOf(i: number): Values {
  return {
    spec: 'DOT-E 7277',
    construction: 'hoop',
    servicePressure_psi: 2216,
    ratedDuration_min: 30,
    gas: 'air',
    maker: 'Maker C',
    made: `200${5 + (i % 2)}-0${1 + i}`,
  };
}
