/** The district's hose: about 750 lengths by load and rack, with the deliveries of three years. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import { receive, retire, type World } from './deeds.ts';
import type { Label } from './diary.ts';
import { isSuspect, KINDS, type Kind, type Length, LOADS, suspectLot } from './hose-loads.ts';
import { oldCards, testYear } from './hose-tests.ts';
import { monthText } from './instants.ts';
import { LOGISTICS, memberLabel, STATIONS, type Station } from './people.ts';
import { at } from './places.ts';
import { HOSE } from './stories.ts';

/** Plan the hose and its three years. @returns every length, for the stories */
export function planHose(world: World): Length[] {
  const lengths = STATIONS.flatMap(s => firstLengths(world, s));
  const { diary, opened } = world;
  const logistics = memberLabel(LOGISTICS);
  diary.at(
    addDays(opened, 1),
    '08:10',
    logistics,
    lengths.map(l => receive(l, 'sheet')),
  );
  oldCards(world, lengths);
  lengths.push(...replacements(world, lengths), ...latestDelivery(world));
  for (const year of [2, 1, 0]) testYear(world, lengths, year);
  return lengths;
}

function firstLengths(world: World, station: Station): Length[] {
  const chance = world.chance(`hose ${station}`);
  const lengths: Length[] = [];
  let next = 101;
  for (const [inside, assignment, runs] of LOADS[station])
    for (const [name, kind, count] of runs) {
      const maker = chance.pick(['Maker A', 'Maker B', 'Maker D']);
      const age_months = chance.whole(52, 150);
      for (let i = 0; i < count; i++) {
        const number = `${station}-${next++}`;
        const suspect = (kind === 'attack175' || kind === 'attack25') && (next + station) % 4 === 0;
        lengths.push({
          kind,
          family: 'hose',
          number,
          serial: null,
          attributes: {
            ...KINDS[kind],
            ...(kind === 'supply5' ? { coupling: 'quarter turn' } : { coupling: 'threaded' }),
            ...(suspect
              ? suspectLot(world.on)
              : {
                  maker,
                  made: monthText(world.on, -age_months),
                  inService: monthText(world.on, 3 - age_months),
                }),
          },
          station,
          place: at(inside, name),
          assignment,
          received: addDays(world.opened, 1),
          gone: null,
          taken: HOSE.kept.includes(number),
        });
      }
    }
  return lengths;
}

/** Two dozen old spares were retired after the first test season, and as many new lengths came. */
function replacements(world: World, lengths: Length[]): Length[] {
  const day = addDays(world.on, -702);
  const chance = world.chance('hose replaced');
  const officer = memberLabel(LOGISTICS);
  const fresh: Length[] = [];
  for (const station of [31, 33] as const) {
    const spares = lengths.filter(
      l =>
        l.station === station &&
        l.kind === 'attack175' &&
        l.assignment === 'ready spare' &&
        !isSuspect(l) &&
        !l.taken,
    );
    const old = chance.some(spares, 12);
    for (const length of old) length.taken = true;
    world.diary.at(
      day,
      '14:20',
      officer,
      old.map(l => retire(l, day, 'Replaced by the yearly order: oldest of the rack')),
    );
    for (let i = 0; i < 12; i++)
      fresh.push(newLength(station, 'attack175', 401 + i, at(station, 'hose rack'), addDays(day, 9)));
  }
  world.diary.at(
    addDays(day, 9),
    '10:05',
    officer,
    fresh.map(l => receive(l, 'number read')),
  );
  return fresh;
}

/** The latest delivery came after its station's test day of that year was planned: its first test is owed soon. */
function latestDelivery(world: World): Length[] {
  const day = addDays(world.on, -318);
  const fresh = HOSE.latest.map((_, i) => newLength(32, 'attack25', 401 + i, at(32, 'hose rack'), day));
  for (const length of fresh) length.taken = true;
  world.diary.at(
    day,
    '13:15',
    memberLabel(LOGISTICS),
    fresh.map(l => receive(l, 'number read')),
  );
  return fresh;
}

function newLength(station: Station, kind: Kind, n: number, place: Label, day: Day): Length {
  return {
    kind,
    family: 'hose',
    number: `${station}-${n}`,
    serial: null,
    attributes: {
      ...KINDS[kind],
      coupling: 'threaded',
      maker: 'Maker D',
      made: monthText(day, -1),
      inService: dayText(day),
    },
    station,
    place,
    assignment: 'ready spare',
    received: day,
    gone: null,
    taken: false,
  };
}
