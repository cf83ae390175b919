/** The notices of the demo: one that was acted on and is still open, one that means nothing the district has. */
import { addDays, dayText } from '../../../domain/calendar/day.ts';
import { deed, labelOf, type Thing, tagOut, type World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { byNumber } from './incidents.ts';
import { LOGISTICS, memberLabel } from './people.ts';
import { EQUIPMENT } from './stories.ts';

const logistics = memberLabel(LOGISTICS);
const NOTICE: Label = '@notice on facepieces';

/** The maker's notice on facepieces: nine were found and tagged out, two were not. */
export function stopUseNotice(world: World, equipment: readonly Thing[]): void {
  const { diary, on } = world;
  const named = EQUIPMENT.stopUse.map(number => byNumber(equipment, number));
  const lost = named.filter(t => EQUIPMENT.stopUseMissing.includes(t.number));
  const replaced = named.filter(t => EQUIPMENT.stopUseReplaced.includes(t.number));
  const day = addDays(on, -30);
  const searched = addDays(on, -26);
  const given = addDays(on, -19);
  diary.at(day, '11:00', logistics, [
    {
      action: 'notice.issue',
      body: {
        title: 'Vista 3: the lens may come out of its frame',
        kind: 'stop use',
        family: named[0]?.family,
        maker: 'Maker B',
        model: 'Vista 3',
        serialFrom: named[0]?.serial,
        serialTo: named.at(-1)?.serial,
        issuedBy: 'Maker B',
        toDo: 'Take out of use at once. Keep apart and tagged until the maker sends for them; do not repair.',
        on: dayText(addDays(day, -1)),
      },
      as: NOTICE,
    },
    ...named
      .filter(t => !lost.includes(t))
      .map(t => tagOut(t, day, 'Stop-use notice of the maker: Vista 3, serials VB-40410 to VB-40420')),
  ]);
  diary.at(
    searched,
    '16:05',
    logistics,
    lost.map(t =>
      deed('item.missing', t, searched, { note: 'Named by the stop-use notice; not where it was issued' }),
    ),
  );
  diary.at(
    given,
    '14:20',
    logistics,
    replaced.map(
      (t): Planned => ({
        action: 'notice.settle',
        body: {
          notice: NOTICE,
          item: labelOf(t),
          how: 'replaced',
          note: 'Another one was given out from the pack rack; this one is kept apart for the maker',
          on: dayText(given),
        },
      }),
    ),
  );
}

/** A recall that came to everybody: looked through, and nothing here is meant. */
export function recallOfOthers({ diary, on }: World): void {
  const notice: Label = '@notice on radios';
  const day = addDays(on, -71);
  const looked = addDays(on, -70);
  diary.at(day, '10:15', logistics, [
    {
      action: 'notice.issue',
      body: {
        title: 'Portable radios: the charger may overheat the battery',
        kind: 'recall',
        family: 'radio',
        maker: 'Maker E',
        madeFrom: '2023-02',
        madeTo: '2023-06',
        issuedBy: 'Maker E',
        toDo: 'Do not charge. Return radio and charger; others are sent without charge.',
        on: dayText(addDays(day, -6)),
      },
      as: notice,
    },
  ]);
  diary.at(looked, '09:30', logistics, [
    {
      action: 'notice.close',
      body: {
        notice,
        note: 'No radio of Maker E on the list; the spares on the charger shelves were looked through as well.',
        on: dayText(looked),
      },
    },
  ]);
}
