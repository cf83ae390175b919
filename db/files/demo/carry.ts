/** What each unit and reserve rig of the district must carry: its list as it was drawn up in the first week. */
import { addDays } from '../../../domain/calendar/day.ts';
import type { LineBody, Verify } from '../../../domain/carry/types.ts';
import { describe as inWords } from '../../../domain/describe.ts';
import type { Values } from '../../../domain/facts.ts';
import { labelOf, type Thing, type World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { LOGISTICS, memberLabel } from './people.ts';
import { at, RIGS } from './places.ts';

/** A line of a list, and how deeds call it. */
export interface PlannedLine {
  label: Label;
  what: string;
  family: string | null;
  place: string;
  verify: Verify;
  isRead: boolean;
  /** The kits that ride there, where it is made sure of by their seals. */
  kits: readonly Label[];
}

/** What tells one line of a family from another. */
const LIKE: Readonly<Record<string, readonly string[]>> = {
  hose: ['diameter_in', 'length_ft', 'use'],
  ladder: ['type', 'length_ft'],
  rope: ['kind'],
  nozzle: ['kind'],
  extinguisher: ['type'],
  kit: ['kind'],
};

/** Families whose things a crew operates when it goes through the rig, and those that it counts in their place. */
const OPERATED = new Set(['power-tool', 'rescue-tool', 'gas-meter', 'imager', 'radio', 'aed']);
const COUNTED = new Set(['hand-tool', 'appliance', 'equipment']);
/** Families without which a unit is not ready. The district's choice. */
const CRITICAL = new Set(['hose', 'pack', 'cylinder', 'ladder', 'nozzle', 'radio']);

/** Counted and not tracked: what, how many, the least, where. */
const PLAIN: readonly (readonly [what: string, qty: number, min: number, place: string])[] = [
  ['Double male 2½', 3, 2, 'L4'],
  ['Double female 2½', 3, 2, 'L4'],
  ['Rubber mallet', 1, 1, 'L4'],
  ['Absorbent, bag', 4, 2, 'R2'],
  ['Door wedge', 6, 4, 'L3'],
  ['Extension cord 50 ft', 2, 2, 'R4'],
  ['Salvage sheeting, roll', 1, 1, 'R4'],
];
const FOAM = ['Foam concentrate 5 gal', 4, 3, 'L3'] as const;

/** How deeds call the holder of a list: the unit, or the rig that stands by without one. */
export const holderOf = (rig: (typeof RIGS)[number]): Label =>
  rig.kind === null ? at(rig.name) : `@unit ${rig.name}`;

/** Draw up every list from what rides where on the first day. @returns the lines by the name of the rig */
export function planCarry(world: World, things: readonly Thing[]): Map<string, PlannedLine[]> {
  const day = addDays(world.opened, 4);
  const lists = new Map<string, PlannedLine[]>();
  for (const rig of RIGS) {
    const bodies = [...rig.body, ...rig.seats].flatMap(name => [
      ...trackedIn(
        name,
        things.filter(t => t.place === at(rig.name, name) && t.received <= day && !t.again),
      ),
      ...plainIn(name, rig.kind === 'command car' || rig.kind === 'brush'),
    ]);
    const label = (i: number): Label => `@line ${rig.name} ${i}`;
    const deed: Planned = {
      action: 'carry.set',
      body: { of: holderOf(rig), lines: bodies },
      also: Object.fromEntries(bodies.map((_, i) => [`.${i.toString(36)}`, label(i)])),
    };
    world.diary.at(day, '14:00', memberLabel(LOGISTICS), [deed]);
    lists.set(
      rig.name,
      bodies.map(({ what, family, like, place, verify, reading }, i) => ({
        label: label(i),
        what,
        family,
        place,
        verify,
        isRead: reading !== null,
        kits: things
          .filter(
            t =>
              family === 'kit' &&
              t.family === family &&
              t.place === at(rig.name, place) &&
              t.attributes.kind === like.kind,
          )
          .map(labelOf),
      })),
    );
  }
  return lists;
}

type LineOfPlan = Omit<LineBody, 'source'>;

/** A line for each kind of thing in a place. */
function trackedIn(place: string, things: readonly Thing[]): LineOfPlan[] {
  const kinds = new Map<string, { like: Values; things: Thing[] }>();
  for (const thing of things) {
    const like = Object.fromEntries(
      (LIKE[thing.family] ?? ['kind']).flatMap(key => {
        const value = thing.attributes[key];
        return value === undefined ? [] : [[key, value]];
      }),
    );
    const key = `${thing.family} ${JSON.stringify(like)}`;
    const kind = kinds.get(key) ?? { like, things: [] };
    kind.things.push(thing);
    kinds.set(key, kind);
  }
  return [...kinds.values()].map(({ like, things: [first, ...others] }) => {
    const family = first?.family ?? '';
    const qty = others.length + 1;
    return {
      what: inWords(family, like),
      family,
      like,
      qty,
      min: qty > 3 ? qty - 1 : qty,
      place,
      critical: CRITICAL.has(family),
      verify: verifyOf(family),
      reading:
        family === 'pack' ? { title: 'Cylinder pressure', unit: 'percent of rated', atLeast: '90' } : null,
    };
  });
}

function verifyOf(family: string): Verify {
  if (family === 'kit') return 'seal intact';
  if (OPERATED.has(family)) return 'operated';
  return COUNTED.has(family) ? 'count' : 'sight';
}

/** Counted lines of a place; a small rig carries no foam and none of the rest. */
function plainIn(place: string, isSmall: boolean): LineOfPlan[] {
  if (isSmall) return [];
  return [...PLAIN, FOAM]
    .filter(([, , , where]) => where === place)
    .map(([what, qty, min, where]) => ({
      what,
      family: null,
      like: {},
      qty,
      min,
      place: where,
      critical: what === FOAM[0],
      verify: 'count' as const,
      reading: null,
    }));
}
