/** Engine 34's crew rides a reserve rig for nine days; one thing does not come back with them. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import { deed, labelOf, returned, type Thing, tagOut, type World } from './deeds.ts';
import type { Planned } from './diary.ts';
import { byNumber } from './incidents.ts';
import { crewOf, memberLabel } from './people.ts';
import { at } from './places.ts';
import { EQUIPMENT } from './stories.ts';

const leg = (
  from: string,
  to: string,
  day: Day,
  time: string,
  more: Record<string, unknown> = {},
): Planned => ({
  action: 'rig.changeover',
  body: {
    unit: '@unit Engine 34',
    from: at(from),
    to: at(to),
    ...more,
    on: `${dayText(day)}T${time}`,
  },
});

/**
 * The reserve's own imager is in the shop, so Engine 34's goes along; on the way back nobody finds it. Each leg is
 * signed by the crew that did it.
 */
export function imagerLeftBehind(world: World, equipment: readonly Thing[]): void {
  const { diary, on } = world;
  const imager = byNumber(equipment, EQUIPMENT.imagerLeft);
  const own = byNumber(equipment, EQUIPMENT.imagerOfReserve);
  const over = addDays(on, -62);
  const back = addDays(on, -53);
  diary.at(addDays(over, -3), '10:20', memberLabel(crewOf(34, 'driver', 1)), [
    tagOut(own, addDays(over, -3), 'Charger contacts burned'),
  ]);
  diary.at(over, '09:25', memberLabel(crewOf(34, 'company officer', 0)), [
    leg('Engine 34', 'Reserve R-2', over, '09:10', { note: 'Engine 34 to the shop: brakes' }),
  ]);
  diary.at(back, '16:40', memberLabel(crewOf(34, 'company officer', 1)), [
    leg('Reserve R-2', 'Engine 34', back, '16:20', {
      how: 'sight',
      except: [{ item: labelOf(imager), why: 'not found when the seats were emptied' }],
    }),
  ]);
  diary.at(addDays(back, 4), '11:15', memberLabel(crewOf(34, 'company officer', 0)), [
    returned(own, addDays(back, 4), 'Contacts replaced'),
  ]);
  const looked = addDays(on, -17);
  diary.at(looked, '08:15', memberLabel(crewOf(34, 'company officer', 1)), [
    deed('item.missing', imager, looked, { note: 'Neither on Engine 34 nor on Reserve R-2' }),
  ]);
}
