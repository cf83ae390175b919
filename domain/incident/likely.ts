/**
 * Who likely has a thing that is missing after a mixed pick-up, with the reasons in words. A hint where to ask first and
 * no finding: the weights only rank, and are common practice without a source.
 */

import { isNear } from './numbers.ts';
import type { BelievedThing, KnownThing, ReadNumber, Scene } from './pickup.ts';

export interface Holder {
  /** The rig by id; null for another department. */
  rig: string | null;
  name: string;
  reasons: string[];
}

/** How much each reason weighs: only for ranking. */
const WEIGHS = {
  misread: 60,
  'not in yet': 30,
  exchanged: 20,
  over: 25,
  'mixed up': 10,
  'theirs is here': 40,
  'theirs is there': 15,
  'was there': 5,
} as const;

const isOfKind = (a: KnownThing, b: KnownThing): boolean => a.family === b.family && a.what === b.what;

/** Everybody who was there and may have it, the likeliest first. */
export function likelyHolders(
  scene: Scene,
  numbers: readonly ReadNumber[],
  believed: readonly BelievedThing[],
  { thing, rig: home }: Pick<BelievedThing, 'thing' | 'rig'>,
): Holder[] {
  const nameOf = new Map(scene.rigs.map(r => [r.rig, r.name]));
  const homeName = nameOf.get(home) ?? '';
  const foreignOn = (rig: string) => numbers.filter(n => n.rig === rig && n.is === 'foreign');
  const ranked: { holder: Holder; weight: number }[] = [];
  const rank = (holder: Omit<Holder, 'reasons'>, reasons: readonly [keyof typeof WEIGHS, string][]) => {
    if (reasons.length === 0) return;
    ranked.push({
      holder: { ...holder, reasons: reasons.map(([, words]) => words) },
      weight: reasons.reduce((sum, [why]) => sum + WEIGHS[why], 0),
    });
  };
  for (const { rig, name, read, settled } of scene.rigs) {
    const reasons: [keyof typeof WEIGHS, string][] = [];
    for (const { number } of foreignOn(rig).filter(n => isNear(n.number, thing.number)))
      reasons.push(['misread', `${number} was read on it, one character from ${thing.number}`]);
    if (rig !== home) {
      if (read === null && !settled) reasons.push(['not in yet', 'its list has not come in']);
      const swapped = numbers.filter(n => n.rig === home && n.thing?.rig === rig && isOfKind(n.thing, thing));
      const [first] = swapped;
      if (first)
        reasons.push([
          'exchanged',
          `${first.number} of ${name} was read on ${homeName}: they were probably exchanged${
            read === null ? '' : `, though its list does not have ${thing.number}`
          }`,
        ]);
      const ofTheirs = numbers.find(n => n.rig === home && n.thing?.rig === rig);
      if (!first && ofTheirs)
        reasons.push(['mixed up', `${ofTheirs.number} of ${name} was read on ${homeName}`]);
      const over = overBy(numbers, believed, foreignOn(rig).length, rig, thing);
      if (read !== null && over > 0)
        reasons.push(['over', `it has ${over} of the kind more than is believed on it`]);
      const mixed = numbers.find(
        n => n.rig === rig && n.is === 'other rig' && n.thing !== null && isOfKind(n.thing, thing),
      );
      if (mixed?.thing)
        reasons.push([
          'mixed up',
          `it has ${mixed.number} of ${nameOf.get(mixed.thing.rig ?? '') ?? 'another rig'}`,
        ]);
    }
    rank({ rig, name }, reasons);
  }
  const here = foreignOn(home).filter(n => n.near.length === 0);
  const there = scene.rigs
    .filter(r => r.rig !== home)
    .flatMap(r => foreignOn(r.rig).filter(n => n.near.length === 0));
  const agencies =
    scene.agencies.length > 0 ? [...new Set(scene.agencies)] : here.length > 0 ? [NOBODY_NAMED] : [];
  for (const name of agencies) {
    const [first] = here;
    const [other] = there;
    const reasons: [keyof typeof WEIGHS, string][] = first
      ? [
          [
            'theirs is here',
            `${listed(here)} on ${homeName} ${here.length === 1 ? 'is' : 'are'} not ours: probably exchanged`,
          ],
        ]
      : other
        ? [['theirs is there', `${other.number} on ${nameOf.get(other.rig) ?? ''} is not ours`]]
        : [['was there', 'was there']];
    rank({ rig: null, name }, reasons);
  }
  return ranked.sort((a, b) => b.weight - a.weight).map(r => r.holder);
}

const NOBODY_NAMED = 'a department that is not named';

const listed = (numbers: readonly ReadNumber[]): string =>
  numbers.length > 3
    ? `${numbers
        .slice(0, 3)
        .map(n => n.number)
        .join(', ')} and ${numbers.length - 3} more`
    : numbers.map(n => n.number).join(', ');

/** By how many of the kind a rig is over what is believed on it; a number nobody knows may be one. */
function overBy(
  numbers: readonly ReadNumber[],
  believed: readonly BelievedThing[],
  foreign: number,
  rig: string,
  thing: KnownThing,
): number {
  const found = numbers.filter(n => n.rig === rig && n.thing !== null && isOfKind(n.thing, thing)).length;
  const should = believed.filter(b => b.rig === rig && isOfKind(b.thing, thing)).length;
  return found + foreign - should;
}

/** Whose a foreign number likely is: a missing thing of ours misread, or one of the departments that were there. */
export function likelyWhose(number: Pick<ReadNumber, 'near'>, agencies: readonly string[]): string[] {
  return [...number.near.map(t => `ours, misread: ${t.number}`), ...agencies];
}
