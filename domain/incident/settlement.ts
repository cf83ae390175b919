/**
 * What settling an incident does, worked out once: the screen shows it before it is signed, and the store keeps it with
 * the signature. Nothing else is changed.
 */
import type { BelievedThing, KnownThing, Pickup, ReadNumber } from './pickup.ts';

export const MISSING_AS = ['missing', 'searched', 'leave'] as const;
/** What becomes of a thing that was found nowhere: reported missing; that, and where it was searched for; nothing yet. */
export type MissingAs = (typeof MISSING_AS)[number];

export interface MissingChoice {
  item: string;
  as: MissingAs;
  /** Where it was searched for. */
  where?: string | undefined;
}

/** Of a doubtful number on a rig, which thing it is there. */
export interface WhichChoice {
  rig: string;
  number: string;
  item: string;
}

/** Whose a foreign number on a rig is taken for. */
export interface ForeignChoice {
  rig: string;
  number: string;
  whose: string;
}

export interface Choices {
  missing: readonly MissingChoice[];
  which: readonly WhichChoice[];
  foreign: readonly ForeignChoice[];
}

/** A number as it was read: in which place of the rig, and whether the thing was used. */
export interface Reading {
  rig: string;
  number: string;
  at: string | null;
  used: boolean;
}

/** What settling does, thing by thing. */
export interface Effects {
  /**
   * Lies where its number was read. `again`: it had been reported missing, and is found by this. `moved`: it was believed
   * in another place.
   */
  lies: { item: string; number: string; rig: string; place: string; again: boolean; moved: boolean }[];
  missing: {
    item: string;
    number: string;
    rig: string;
    where: string | null;
    reported: boolean;
    likely: string | null;
  }[];
  /** Found nowhere and left as it is. */
  left: { item: string; number: string; rig: string }[];
  foreign: { rig: string; number: string; whose: string | null }[];
  /** Doubtful numbers that nobody has decided: nothing is done on them. */
  undecided: { rig: string; number: string }[];
  /** Used, and what it owes for that; null where nothing that is adopted asks for it. */
  used: { item: string; number: string; owes: string | null }[];
}

/**
 * @param owes the activity that a used thing owes, or null
 */
export function effectsOf(
  pickup: Pickup,
  readings: readonly Reading[],
  choices: Choices,
  owes: (thing: KnownThing) => string | null,
): Effects {
  const decided = pickup.numbers.map(n => ({ read: n, thing: thingOf(n, choices.which) }));
  const readingOf = (n: ReadNumber) => readings.find(r => r.rig === n.rig && r.number === n.number);
  const found = decided.flatMap(({ read, thing }) => (thing ? [{ read, thing }] : []));
  return {
    lies: found.map(({ read, thing }) => {
      // Read on its own rig in no place that was named: where it is believed there, it was read.
      const place = readingOf(read)?.at ?? (thing.rig === read.rig ? (thing.place ?? read.rig) : read.rig);
      return {
        item: thing.item,
        number: thing.number,
        rig: read.rig,
        place,
        again: thing.condition === 'missing',
        moved: place !== thing.place,
      };
    }),
    missing: chosen(pickup, choices, as => as !== 'leave').map(({ b, choice }) => ({
      item: b.thing.item,
      number: b.thing.number,
      rig: b.rig,
      where: choice?.as === 'searched' ? (choice.where ?? null) : null,
      reported: b.thing.condition === 'missing',
      likely: b.likely[0] ? `${b.likely[0].name} (${b.likely[0].reasons.join('; ')})` : null,
    })),
    left: chosen(pickup, choices, as => as === 'leave').map(({ b }) => ({
      item: b.thing.item,
      number: b.thing.number,
      rig: b.rig,
    })),
    foreign: pickup.numbers
      .filter(n => n.is === 'foreign')
      .map(({ rig, number }) => ({
        rig,
        number,
        whose: choices.foreign.find(f => f.rig === rig && f.number === number)?.whose ?? null,
      })),
    undecided: decided
      .filter(({ read, thing }) => read.is === 'duplicated' && thing === null)
      .map(({ read: { rig, number } }) => ({ rig, number })),
    used: found
      .filter(({ read }) => readingOf(read)?.used === true)
      .map(({ thing }) => ({ item: thing.item, number: thing.number, owes: owes(thing) })),
  };
}

function thingOf(read: ReadNumber, which: readonly WhichChoice[]): KnownThing | null {
  if (read.is !== 'duplicated') return read.thing;
  const choice = which.find(w => w.rig === read.rig && w.number === read.number);
  return read.could.find(t => t.item === choice?.item) ?? null;
}

/** Things found nowhere by what was chosen for each; what is reported missing already is left unless it is named. */
function chosen(
  pickup: Pickup,
  choices: Choices,
  is: (as: MissingAs) => boolean,
): { b: BelievedThing; choice: MissingChoice | undefined }[] {
  return pickup.believed
    .filter(b => b.is === 'missing')
    .map(b => ({ b, choice: choices.missing.find(m => m.item === b.thing.item) }))
    .filter(({ choice }) => is(choice?.as ?? 'leave'));
}

/** What is wrong with the choices, held against what was matched: which list, which of it, and what to do. */
export function choiceProblems(
  pickup: Pickup,
  { missing, which, foreign }: Choices,
): { code: string; field: string; wrong: string; todo: string }[] {
  const lost = pickup.believed.filter(b => b.is === 'missing');
  const unnamed = lost.filter(
    b => b.thing.condition !== 'missing' && !missing.some(m => m.item === b.thing.item),
  );
  const twice = <T>(list: readonly T[], key: (of: T) => string) =>
    list.flatMap((of, i) => (list.findIndex(o => key(o) === key(of)) < i ? [i] : []));
  return [
    ...unnamed.map(({ thing }) => ({
      code: 'not chosen',
      field: 'missing',
      wrong: `${thing.number} was found nowhere, and it is not said what becomes of it.`,
      todo: 'Report it missing, say where it was searched for, or leave it as it is.',
    })),
    ...missing.flatMap(({ item, as, where }, i) => [
      ...(lost.some(b => b.thing.item === item)
        ? []
        : [
            {
              code: 'not missing',
              field: `missing.${i}.item`,
              wrong: 'A thing is named as missing that is not.',
              todo: 'Look at the lists again: something was read since.',
            },
          ]),
      ...(as === 'searched' && !where?.trim()
        ? [
            {
              code: 'where',
              field: `missing.${i}.where`,
              wrong: 'It is not said where it was searched for.',
              todo: 'Say where.',
            },
          ]
        : []),
    ]),
    ...which.flatMap(({ rig, number, item }, i) =>
      pickup.numbers.some(
        n =>
          n.is === 'duplicated' && n.rig === rig && n.number === number && n.could.some(t => t.item === item),
      )
        ? []
        : [
            {
              code: 'not in doubt',
              field: `which.${i}.item`,
              wrong: `${number} is not in doubt there, or cannot be that thing.`,
              todo: 'Choose one of the things that are offered.',
            },
          ],
    ),
    ...foreign.flatMap(({ rig, number }, i) =>
      pickup.numbers.some(n => n.is === 'foreign' && n.rig === rig && n.number === number)
        ? []
        : [
            {
              code: 'not foreign',
              field: `foreign.${i}.number`,
              wrong: `${number} is not a foreign number there.`,
              todo: 'Leave it out.',
            },
          ],
    ),
    ...[
      ...twice(missing, m => m.item).map(i => `missing.${i}.item`),
      ...twice(which, w => w.item).map(i => `which.${i}.item`),
    ].map(field => ({
      code: 'twice',
      field,
      wrong: 'A thing is named twice: it is in one place.',
      todo: 'Name it once.',
    })),
  ];
}
