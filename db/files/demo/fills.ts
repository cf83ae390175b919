/** A month at the fill station: what was filled at Station 31's compressor, and what should not have been. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import { deed, isInUse, record, type Thing, type World } from './deeds.ts';
import type { Planned } from './diary.ts';
import { monthText } from './instants.ts';
import { crewOf, memberLabel, PACK_TECHNICIAN } from './people.ts';
import { NEIGHBOR } from './places.ts';
import { CYLINDERS } from './stories.ts';
import { TOLD } from './tool-stories.ts';

/** The log begins so many days ago. */
const SINCE = 31;
const COMPRESSOR = `@compressor ${TOLD.compressor}` as const;

/** Plan the fills. Bottles of the last two orders bear their original test month, which is what a filler reads. */
export function planFills(world: World, cylinders: readonly Thing[], stock: readonly Thing[]): void {
  const { on, diary } = world;
  const chance = world.chance('fills');
  const sound = cylinders.filter(
    c =>
      /^C-(2[2-9]\d|3[0-2]\d|330)$/.test(c.number) &&
      isInUse(c, addDays(on, -SINCE - 1)) &&
      !isOfStory(c.number),
  );
  sampled(world, stock);
  let turn = 0;
  for (let ago = SINCE; ago >= 1; ago--) {
    if (chance.happens(1, 4)) continue;
    const day = addDays(on, -ago);
    const hour = chance.whole(8, 19);
    const bottles = chance.some(sound, chance.whole(2, 5));
    const by = memberLabel(crewOf(31, 'firefighter', turn++));
    diary.at(
      day,
      `${hour}:${chance.whole(40, 58)}`,
      by,
      bottles.map((b, i) =>
        filled(b, `${dayText(day)}T${String(hour).padStart(2, '0')}:${10 + 4 * i}`, {
          from_psi: chance.whole(2, 40) * 100,
          to_psi: 4500 - chance.whole(0, 4) * 20,
          hydroDate: String(b.attributes.made),
        }),
      ),
    );
  }
  others(world, cylinders);
}

/** Before the log begins the air was sampled and the alarm tested. */
function sampled({ on, diary }: World, stock: readonly Thing[]): void {
  const compressor = stock.find(t => t.number === TOLD.compressor);
  if (!compressor) throw new Error(`The demo has no ${TOLD.compressor}.`);
  const day = addDays(on, -SINCE - 3);
  diary.at(day, '15:35', memberLabel(PACK_TECHNICIAN), [
    record(compressor, 'alarm test', day, { performedBy: PACK_TECHNICIAN.name }),
    record(compressor, 'air sample', day, {
      readings: {
        oxygen_percent: '20.9',
        carbonMonoxide_ppm: '0.6',
        carbonDioxide_ppm: '410',
        oil_mgm3: '0.1',
        dewPointBelowZero_F: '71',
        water_ppm: '9',
        odor: false,
      },
      note: 'Sampled by the laboratory’s instructions; its sheet is posted at the compressor',
    }),
  ]);
}

const isOfStory = (number: string) => CYLINDERS.kept.includes(number);

function filled(bottle: Thing, at: string, more: Record<string, unknown>): Planned {
  return deed('cylinder.fill', bottle, at, { compressor: COMPRESSOR, ...more });
}

/** One filled hot and a little over, one whose permit nobody has read, one of the neighbor's past its date. */
function others({ on, diary }: World, cylinders: readonly Thing[]): void {
  const bottle = (number: string): Thing => {
    const found = cylinders.find(c => c.number === number);
    if (!found) throw new Error(`The demo has no ${number}.`);
    return found;
  };
  const at = (day: Day, time: string) => `${dayText(day)}T${time}`;
  const [drill, hot] = [addDays(on, -9), addDays(on, -5)];
  diary.at(drill, '16:50', memberLabel(crewOf(31, 'firefighter', 1)), [
    {
      action: 'cylinder.fill',
      body: {
        foreign: {
          number: 'CB-231',
          owner: NEIGHBOR,
          marking: 'DOT-SP 10915',
          servicePressure_psi: 4500,
        },
        compressor: COMPRESSOR,
        from_psi: 300,
        to_psi: 4500,
        hydroDate: monthText(on, -66),
        note: 'After the joint drill; the mark was read when it was full',
        on: at(drill, '16:30'),
      },
    },
    filled(bottle(CYLINDERS.notJudged[0] ?? ''), at(drill, '16:38'), { from_psi: 1100, to_psi: 4480 }),
  ]);
  diary.at(hot, '14:25', memberLabel(crewOf(31, 'firefighter', 2)), [
    filled(bottle('C-301'), at(hot, '14:10'), {
      from_psi: 200,
      to_psi: 4620,
      note: 'Filled fast and hot; 4,480 when it had cooled',
    }),
    filled(bottle('C-301'), at(hot, '14:20'), { from_psi: 4480, to_psi: 4500 }),
  ]);
}
