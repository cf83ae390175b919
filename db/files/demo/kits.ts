/** Kits of the district: two kinds, counted in full and sealed each month since they were taken up; one seal is broken. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import { KIT_TEMPLATES } from '../../../domain/kits/templates.ts';
import { labelOf, type Thing, type World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { monthText } from './instants.ts';
import { crewOf, LOGISTICS, memberLabel } from './people.ts';
import { KITS } from './stories.ts';

/** So many days ago the district began to seal its kits. */
export const KITS_SINCE = 200;
const COUNTED_EACH = 30;

export const MEDICAL = 'First-in medical bag';
export const HYDRANT = 'Hydrant bag';
const KINDS = [MEDICAL, HYDRANT];

/** What has a printed date, and so many months ahead at the most when it is packed. */
const DATED: Readonly<Record<string, number>> = {
  'Bag-valve mask, adult': 40,
  'Oral airway set': 48,
  Tourniquet: 60,
  'Trauma dressing': 48,
  'Gauze roll': 50,
  'Aspirin, chewable, pack': 22,
  'Oral glucose': 26,
};

const templateOf = (kind: string): Label => `@kit template ${kind}`;
const lineOf = (kind: string, i: number): Label => `@kit line ${kind} ${i}`;
const listOf = (kind: string) => KIT_TEMPLATES.find(t => t.what === kind)?.lines ?? [];

/** A seal of a kit as it was put on. */
interface Seal {
  day: Day;
  number: string;
}

/** Plan the kits among the district's equipment. @returns the seal that a kit bore on the morning of a day, if any */
export function planKits(world: World, equipment: readonly Thing[]): (kit: Label, day: Day) => string | null {
  const { diary, on } = world;
  const began = addDays(on, -KITS_SINCE);
  diary.at(began, '09:40', memberLabel(LOGISTICS), KINDS.flatMap(templateDeeds));
  const kits = equipment.filter(t => t.family === 'kit');
  const sealed = new Map(kits.map((kit, i) => [labelOf(kit), seals(world, kit, i, began)]));
  return (kit, day) => sealed.get(kit)?.findLast(s => s.day < day)?.number ?? null;
}

function templateDeeds(kind: string): Planned[] {
  const lines = listOf(kind);
  return [
    { action: 'kit.template', body: { what: kind }, as: templateOf(kind) },
    {
      action: 'carry.set',
      body: { of: templateOf(kind), lines: lines.map(l => ({ ...l, source: null })) },
      also: Object.fromEntries(lines.map((_, i) => [`.${i.toString(36)}`, lineOf(kind, i)])),
    },
  ];
}

/** Every full count of a kit, the last one some weeks ago at the most. */
function seals(world: World, kit: Thing, nth: number, began: Day): Seal[] {
  const { diary, chance, on } = world;
  const luck = chance(`seals of ${kit.number}`);
  const kind = String(kit.attributes.kind);
  const done: Seal[] = [];
  for (
    let day = addDays(began, 1 + luck.whole(0, 9));
    day < addDays(on, -2);
    day = addDays(day, COUNTED_EACH)
  ) {
    const number = String(40_000 + nth * 20 + done.length);
    done.push({ day, number });
    diary.at(day, `14:${luck.whole(10, 55)}`, memberLabel(crewOf(kit.station, 'driver', nth)), [
      {
        action: 'kit.seal',
        body: { item: labelOf(kit), seal: number, counts: countsOf(world, kit, kind), on: dayText(day) },
      },
    ]);
  }
  return done;
}

function countsOf({ on, chance }: World, kit: Thing, kind: string): Record<string, unknown>[] {
  return listOf(kind).map((line, i) => {
    const months = DATED[line.what];
    const expired = kit.number === KITS.expired && line.what.startsWith('Aspirin');
    const ahead = months === undefined ? null : chance(`${kit.number} ${line.what}`).whole(4, months);
    return {
      line: lineOf(kind, i),
      amount: line.qty,
      expires: ahead === null ? null : monthText(on, expired ? -1 : ahead),
    };
  });
}
