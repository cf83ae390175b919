/**
 * After a mixed pick-up: the numbers read on each rig, held against what each was believed to carry. Hose and bottles
 * of several companies lie in one heap, and in the dark they go home on whatever rig is nearest. Common practice, no
 * source.
 */
import type { Condition, Values } from '../facts.ts';
import { type Holder, likelyHolders } from './likely.ts';
import { isNear, sameNumber } from './numbers.ts';

/** A rig that was there, with the numbers that were read on it. */
export interface RigThere {
  rig: string;
  name: string;
  /** Null while its list has not come in. */
  read: readonly string[] | null;
  /** It was settled and nothing was read on it since: nothing of it is judged again. */
  settled: boolean;
}

/** A living thing of the department. */
export interface KnownThing {
  item: string;
  number: string;
  family: string;
  /** Its kind in words: what is of one kind is exchanged for one another. */
  what: string;
  attributes: Values;
  condition: Condition;
  /** The place it is believed in, its rig (null: on none), and both in words. */
  place: string | null;
  rig: string | null;
  where: string;
}

export interface Scene {
  rigs: readonly RigThere[];
  /** Other departments that were there, by name. */
  agencies: readonly string[];
  /** What was picked up. */
  families: readonly string[];
  /** Every living thing of those families, and whatever else bears a number that was read. */
  things: readonly KnownThing[];
}

/**
 * What a number is that was read on a rig: a thing of its own; one of another rig of ours; one of ours that was
 * believed on no rig; foreign, where no living thing of ours has it; or doubtful, where it was read on several rigs or
 * several things bear it.
 */
export type NumberIs = 'own' | 'other rig' | 'elsewhere' | 'foreign' | 'duplicated';

export interface ReadNumber {
  rig: string;
  number: string;
  is: NumberIs;
  /** The thing it is; null where it is foreign or doubtful. */
  thing: KnownThing | null;
  /** The things it could be, where it is doubtful; the one believed on the rig first. */
  could: KnownThing[];
  /** Other rigs it was read on. */
  alsoOn: string[];
  /** Missing things whose number differs by one character: it may have been misread. */
  near: KnownThing[];
}

/**
 * What became of a thing that was believed on a rig: read there; read on another; perhaps, where its number is
 * doubtful; missing, where it was read nowhere; not looked for, where the list of its rig has not come in.
 */
export type BelievedIs = 'found' | 'found elsewhere' | 'doubtful' | 'missing' | 'not looked for';

export interface BelievedThing {
  thing: KnownThing;
  /** The rig it was believed on. */
  rig: string;
  is: BelievedIs;
  /** The rig its number was read on, where that is one. */
  on: string | null;
  /** Who likely has it, the likeliest first; of what is missing alone. */
  likely: Holder[];
}

export interface Pickup {
  numbers: ReadNumber[];
  believed: BelievedThing[];
}

/** A thing that is away for repair or not here yet is not looked for on a rig. */
const AWAY: ReadonlySet<Condition> = new Set(['at repair', 'on order', 'retired', 'disposed']);

/** Every number that was read and every thing that was believed there, each in exactly one class. */
export function matchPickup(scene: Scene): Pickup {
  const { rigs, things } = scene;
  const byNumber = new Map<string, KnownThing[]>();
  for (const thing of things) {
    const key = sameNumber(thing.number);
    byNumber.set(key, [...(byNumber.get(key) ?? []), thing]);
  }
  const readings = rigs.flatMap(r => unique(r.read ?? []).map(number => ({ rig: r.rig, number })));
  const readOn = new Map<string, string[]>();
  for (const { rig, number } of readings) {
    const key = sameNumber(number);
    readOn.set(key, [...(readOn.get(key) ?? []), rig]);
  }
  const believed = believedOn(scene).map(({ thing, rig }): BelievedThing => {
    const on = readOn.get(sameNumber(thing.number)) ?? [];
    const bearers = byNumber.get(sameNumber(thing.number)) ?? [];
    const list = rigs.find(r => r.rig === rig)?.read ?? null;
    return { thing, rig, ...becomes(on, bearers.length, rig, list !== null), likely: [] };
  });
  const missing = [
    ...believed.filter(b => b.is === 'missing').map(b => b.thing),
    ...things.filter(t => t.condition === 'missing' && scene.families.includes(t.family)),
  ];
  const gone = [...new Set(missing)].filter(t => !readOn.has(sameNumber(t.number)));
  const numbers = readings.map(({ rig, number }): ReadNumber => {
    const could = byNumber.get(sameNumber(number)) ?? [];
    const alsoOn = (readOn.get(sameNumber(number)) ?? []).filter(r => r !== rig);
    const [thing = null, ...others] = could;
    const none = { rig, number, thing: null, could: [], alsoOn: [], near: [] };
    if (thing === null)
      return { ...none, is: 'foreign', alsoOn, near: gone.filter(t => isNear(t.number, number)) };
    if (others.length > 0 || alsoOn.length > 0)
      return { ...none, is: 'duplicated', could: believedFirst(could, rig), alsoOn };
    const is = thing.rig === rig ? 'own' : thing.rig !== null ? 'other rig' : 'elsewhere';
    return { ...none, is, thing };
  });
  return {
    numbers,
    believed: believed.map(b =>
      b.is === 'missing' ? { ...b, likely: likelyHolders(scene, numbers, believed, b) } : b,
    ),
  };
}

/** The things of the families picked up that were believed on a rig that is judged. */
function believedOn({ rigs, things, families }: Scene): { thing: KnownThing; rig: string }[] {
  const judged = new Set(rigs.filter(r => r.read !== null || !r.settled).map(r => r.rig));
  return things.flatMap(thing =>
    thing.rig !== null &&
    judged.has(thing.rig) &&
    families.includes(thing.family) &&
    !AWAY.has(thing.condition)
      ? [{ thing, rig: thing.rig }]
      : [],
  );
}

function becomes(
  on: readonly string[],
  bearers: number,
  rig: string,
  isIn: boolean,
): Pick<BelievedThing, 'is' | 'on'> {
  const [first = null, ...others] = on;
  if (first === null) return { is: isIn ? 'missing' : 'not looked for', on: null };
  if (others.length > 0 || bearers > 1) return { is: 'doubtful', on: null };
  return { is: first === rig ? 'found' : 'found elsewhere', on: first };
}

const believedFirst = (things: readonly KnownThing[], rig: string): KnownThing[] =>
  [...things].sort((a, b) => Number(b.rig === rig) - Number(a.rig === rig));

/** Each number once, as it was first written. */
function unique(numbers: readonly string[]): string[] {
  const seen = new Set<string>();
  return numbers.filter(number => {
    const key = sameNumber(number);
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
}
