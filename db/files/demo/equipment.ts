/** Everything else the district tracks one by one: some 1,300 plain things, known and placed. */
import { addDays } from '../../../domain/calendar/day.ts';
import type { Assignment } from '../../../domain/facts.ts';
import { receive, type Spot, type Thing, type World } from './deeds.ts';
import { asFamily } from './equipment-families.ts';
import { KINDS, type Kind, type RigKind, TURNOUT } from './equipment-kinds.ts';
import { monthText } from './instants.ts';
import { LOGISTICS, memberLabel, PEOPLE, STATIONS } from './people.ts';
import { at, gearOf, RIGS } from './places.ts';
import { EQUIPMENT } from './stories.ts';
import { prepare } from './tool-stories.ts';

/** Plan what there is of other equipment. What happens to it is upkeep. @returns every thing */
export function planEquipment(world: World): Thing[] {
  const things = [...KINDS.flatMap(kind => ofKind(world, kind)), ...turnout(world), ...facepieces(world)];
  prepare(world, things);
  const { diary, opened } = world;
  const logistics = memberLabel(LOGISTICS);
  const half = Math.ceil(things.length / 2);
  diary.at(
    addDays(opened, 1),
    '15:05',
    logistics,
    things.slice(0, half).map(t => receive(t, 'count')),
  );
  diary.at(
    addDays(opened, 1),
    '15:50',
    logistics,
    things.slice(half).map(t => receive(t, 'count')),
  );
  return things;
}

function ofKind(world: World, [prefix, kind, model, rides, perRig, perStation]: Kind): Thing[] {
  const spots: Spot[] = RIGS.flatMap(rig => {
    const rigKind = (rig.kind ?? 'reserve') as RigKind;
    const inside = [...rig.body, ...rig.seats];
    // A rig without that compartment carries it in its first one.
    const name = inside.includes(rides) ? rides : (inside[0] ?? '');
    const as: Assignment = rig.kind === null ? 'reserve' : 'first line';
    return Array.from({ length: perRig[rigKind] ?? 0 }, () => ({
      place: at(rig.name, name),
      station: rig.station,
      as,
    }));
  });
  for (const station of STATIONS)
    for (let i = 0; i < perStation; i++)
      spots.push({
        place: at(station, prefix === 'RAD' ? 'charger shelf' : 'tool room'),
        station,
        as: 'ready spare',
      });
  return spots.map((spot, i) => thing(world, `${prefix}-${i + 1}`, kind, model, spot));
}

function turnout(world: World): Thing[] {
  const crew = PEOPLE.filter(p => p.station !== null);
  return TURNOUT.flatMap(([prefix, kind, model]) => {
    const spots: Spot[] = crew.map(p => ({ place: gearOf(p.name), station: p.station ?? 31, as: 'issued' }));
    const seconds = ['TC', 'TT'].includes(prefix)
      ? crew.filter(p => ['driver', 'firefighter', 'company officer'].includes(p.position))
      : [];
    for (const p of seconds)
      spots.push({ place: at(p.station ?? 31, 'gear room'), station: p.station ?? 31, as: 'issued' });
    for (let i = 0; i < 8; i++) spots.push({ place: at(31, 'gear room'), station: 31, as: 'ready spare' });
    return spots.map((spot, i) => thing(world, `${prefix}-${i + 1}`, kind, model, spot));
  });
}

/** Facepieces; eleven of one model and serial range, which a notice will name. */
function facepieces(world: World): Thing[] {
  const crew = PEOPLE.filter(p => p.station !== null);
  return Array.from({ length: 96 }, (_, i) => {
    const number = `FP-${i + 1}`;
    const member = crew[i];
    const station = member?.station ?? STATIONS[i % 4] ?? 31;
    const spot: Spot = member
      ? { place: gearOf(member.name), station, as: 'issued' }
      : { place: at(station, 'pack rack'), station, as: 'ready spare' };
    const named = EQUIPMENT.stopUse.indexOf(number);
    const base = thing(world, number, 'facepiece', named < 0 ? 'Vista 2' : 'Vista 3', spot);
    return named < 0
      ? base
      : { ...base, serial: `VB-${40_410 + named}`, attributes: { ...base.attributes, maker: 'Maker B' } };
  });
}

function thing(world: World, number: string, kind: string, model: string, spot: Spot): Thing {
  const chance = world.chance(`equipment ${number}`);
  const age_months = chance.whole(40, 110);
  const made = monthText(world.on, -age_months);
  return {
    kind,
    number,
    serial: chance.happens(4, 5) ? `${number.split('-')[0]}${chance.whole(10_000, 99_999)}` : null,
    ...asFamily(world, kind, number, {
      model,
      maker: chance.pick(['Maker A', 'Maker B', 'Maker C', 'Maker D']),
      made,
      inService: monthText(world.on, 1 - age_months),
    }),
    station: spot.station,
    place: spot.place,
    assignment: spot.as,
    received: addDays(world.opened, 1),
    gone: null,
    // What lies where in a kit is counted: kits do not stray.
    taken: EQUIPMENT.kept.includes(number) || kind === 'medical bag' || kind === 'hydrant kit',
  };
}
