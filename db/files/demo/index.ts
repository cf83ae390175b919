/** The demo department: an invented fire district with three years of history, the same for a seed and a day. */
import { addDays, addMonths, type Day, dayText } from '../../../domain/calendar/day.ts';
import { PERMIT_OFFERS } from '../../../domain/rulebook/cylinder.ts';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { POLICIES } from '../../../domain/rulebook/policies.ts';
import type { Db } from '../../store/statements.ts';
import { care } from './care.ts';
import { planCarry } from './carry.ts';
import { Chance } from './chance.ts';
import { planCheckOffs } from './check-offs.ts';
import { planCylinders } from './cylinders.ts';
import type { World } from './deeds.ts';
import { Diary, type Progress } from './diary.ts';
import { planEquipment } from './equipment.ts';
import { planFills } from './fills.ts';
import { planHose } from './hose.ts';
import * as incidents from './incidents.ts';
import { instantOf, ZONE } from './instants.ts';
import { KITS_SINCE, planKits } from './kits.ts';
import { newLadder, planLadders } from './ladders.ts';
import { recallOfOthers, stopUseNotice } from './notices.ts';
import { decide, duties, PROFILE } from './own-book.ts';
import { CHECKS_SINCE, planPacks } from './packs.ts';
import { CHIEF, memberLabel, peopleDeeds, shopEntitlement, shopQualification } from './people.ts';
import * as pickups from './pickups.ts';
import { layOut } from './places.ts';
import { imagerLeftBehind } from './reserve-swap.ts';
import { limitedReserve, passOn, readMeters } from './riding.ts';
import { meterStories, planRigs, pumpRepair } from './rig-records.ts';
import { planSupply } from './supply.ts';
import { planStock, tell } from './tool-stories.ts';
import { openNow, packRepairs, repairs, retirements, wander } from './upkeep.ts';

export interface DemoOptions {
  /** The day of the demo: its history leads up to the morning of this day. */
  on: Day;
  seed: number;
  /** UTC milliseconds: where the demo is of today, nothing in it was told after now. */
  now?: number;
}

/**
 * Fill a new, empty file with Larkspur Valley Fire District, in one transaction. Every deed goes through the
 * store's own door, recorded at the instant it would have been.
 * @throws Error where a deed is refused: nothing is written then
 */
export function buildDemo(db: Db, options: DemoOptions, progress: Progress): void {
  const { on, seed } = options;
  const isToday =
    options.now !== undefined &&
    options.now >= instantOf(on, '03:00') &&
    options.now < instantOf(addDays(on, 1), '03:00');
  const diary = new Diary(isToday ? options.now : undefined);
  const world: World = {
    on,
    opened: addMonths(on, -36),
    diary,
    chance: subject => new Chance(seed, subject),
  };
  openDepartment(world);
  const hose = planHose(world);
  const ladders = planLadders(world);
  const cylinders = planCylinders(world);
  const packs = planPacks(world);
  const equipment = planEquipment(world);
  const rigs = planRigs(world);
  const stock = planStock(world);
  const sealOf = planKits(world, equipment);
  const lists = planCarry(world, [...hose, ...ladders, ...cylinders, ...packs, ...equipment]);
  newLadder(world);
  pickups.hoseAfterTheFire(world, hose);
  incidents.hoseThatTurnedUp(world);
  incidents.ladderSignedBack(world, ladders);
  incidents.owedTests(world, ladders, cylinders, packs);
  incidents.heldPack(world, packs);
  incidents.chargedAndRacked(world, cylinders);
  pickups.bottlesAtThree(world, cylinders);
  imagerLeftBehind(world, equipment);
  pickups.barnFire(world, hose);
  stopUseNotice(world, equipment);
  recallOfOthers(world);
  openNow(world, equipment);
  packRepairs(world, packs);
  repairs(world, equipment);
  retirements(world, equipment);
  wander(world, equipment);
  readMeters(world);
  meterStories(world);
  pumpRepair(world, rigs);
  tell(world, equipment);
  planFills(world, cylinders, stock);
  decide(world);
  const asked = duties();
  // A full count is no record that upkeep could make: kits tell of their own.
  care(world, [...equipment.filter(t => t.family !== 'kit'), ...rigs, ...stock], asked);
  // Hose is tested by the season; what the season leaves is the dry vacuum test of suction hose.
  const vacuum = (asked.get('hose') ?? []).filter(r => r.id === 'hose.vacuum-test');
  care(world, hose, new Map([['hose', vacuum]]));
  planCheckOffs(world, lists, sealOf);
  planSupply(world);
  limitedReserve(world);
  passOn(world);
  diary.write(db, progress);
}

/** What was taken up later than the rest of the book: so many days ago, and why. */
const LATER = [
  {
    of: (id: string) => id === 'pack.operational-check',
    days: CHECKS_SINCE,
    reason: 'Weekly checks of packs, as agreed with the captains',
  },
  {
    of: (id: string) => id.startsWith('kit.'),
    days: KITS_SINCE,
    reason: 'Bags are sealed and counted each month from now on',
  },
];
/** Permits that somebody has read; the others in the rack are not judged. */
const READ = ['DOT-SP 10915', 'DOT-SP 10945', 'DOT-E 7277'];

/** The first morning: the department with its book, its people and its places. */
function openDepartment(world: World): void {
  const { diary, opened, on } = world;
  const chief = memberLabel(CHIEF);
  const adopted = SHIPPED_REQUIREMENTS.filter(r => !LATER.some(l => l.of(r.id)));
  diary.at(opened, '09:00', null, [
    {
      action: 'department.open',
      body: {
        name: 'Larkspur Valley Fire District',
        zone: ZONE,
        state: 'CO',
        member: { number: CHIEF.number, name: CHIEF.name },
        book: 'empty',
        demo: true,
      },
      as: '@department',
      also: { '.m': chief },
    },
    { action: 'rulebook.adopt', body: { requirements: adopted, from: 'opening' } },
    { action: 'profile.set', body: { ...PROFILE, from: 'opening' } },
  ]);
  diary.at(opened, '09:10', chief, [
    ...peopleDeeds(),
    shopEntitlement(),
    shopQualification(on),
    ...POLICIES.map(p => ({ action: 'policy.choose', body: { policy: p.id, choice: p.offer } })),
    ...PERMIT_OFFERS.filter(p => READ.includes(p.permit)).map(
      ({ permit, construction, months, lifeMonths }) => ({
        action: 'permit.confirm',
        body: { permit, construction, months, lifeMonths, basis: 'the permit in hand' },
      }),
    ),
  ]);
  layOut(diary, opened, on);
  for (const { of, days, reason } of LATER) {
    const since = addDays(on, -days);
    diary.at(since, '08:00', chief, [
      {
        action: 'rulebook.adopt',
        body: { requirements: SHIPPED_REQUIREMENTS.filter(r => of(r.id)), from: dayText(since), reason },
      },
    ]);
  }
}
