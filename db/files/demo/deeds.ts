/** The deeds of the demo in short form, and the plan's own picture of a thing. */
import { type Day, dayText } from '../../../domain/calendar/day.ts';
import type { Assignment, HowKnown, Outcome, Values } from '../../../domain/facts.ts';
import type { Chance } from './chance.ts';
import type { Diary, Label, Planned } from './diary.ts';
import type { Station } from './people.ts';

/** What every part of the plan works with. */
export interface World {
  /** The day of the demo. */
  on: Day;
  /** The day the district opened its file, three years before. */
  opened: Day;
  diary: Diary;
  chance(subject: string): Chance;
}

export interface Thing {
  family: string;
  number: string;
  serial: string | null;
  attributes: Values;
  station: Station;
  /** Where the plan has it at the moment; a move changes it. */
  place: Label;
  assignment: Assignment;
  received: Day;
  /** From this day on it is retired. */
  gone: Day | null;
  /** Left out of what happens by chance: a story or an earlier chance has it. */
  taken: boolean;
  /** The second of two with one number. */
  again?: boolean;
  /** Activities that a story tells of itself: upkeep leaves them alone. */
  leaves?: readonly string[];
  /** What the plan calls its kind. */
  kind?: string;
  /** How deeds call it, where that is not by its family and number: a rig, which is a place as well. */
  label?: Label;
}

/** A place for one thing, whose it is and as what it counts there. */
export interface Spot {
  place: Label;
  station: Station;
  as: Assignment;
}

/** A day, or a partial date or time as a deed writes it. */
type On = Day | string;

const text = (on: On): string => (typeof on === 'string' ? on : dayText(on));

/** How deeds call a thing. Two with one number differ by `again`. */
export function labelOf(thing: Pick<Thing, 'family' | 'number' | 'again' | 'label'>): Label {
  return thing.label ?? `@${thing.family} ${thing.number}${thing.again ? ' again' : ''}`;
}

export function isInUse(thing: Thing, day: Day): boolean {
  return thing.received <= day && (thing.gone === null || day < thing.gone);
}

export function receive(thing: Thing, how: HowKnown, more: Record<string, unknown> = {}): Planned {
  return {
    action: 'item.receive',
    body: {
      family: thing.family,
      number: thing.number,
      ...(thing.serial === null ? {} : { serial: thing.serial }),
      attributes: thing.attributes,
      place: thing.place,
      how,
      assignment: thing.assignment,
      ...(thing.again ? { evenIfNumberInUse: true } : {}),
      on: text(thing.received),
      ...more,
    },
    as: labelOf(thing),
  };
}

export interface Done {
  outcome?: Outcome;
  readings?: Values;
  performedBy?: string;
  agency?: Label;
  note?: string;
}

/** A record: passed unless said otherwise. */
export function record(thing: Thing, activity: string, on: On, done: Done = {}): Planned {
  const { outcome = 'pass', ...rest } = done;
  return {
    action: 'record.add',
    body: { item: labelOf(thing), activity, outcome, ...rest, on: text(on) },
  };
}

/** Move it, in the plan too. */
export function move(thing: Thing, to: Label, on: On, how: HowKnown, note?: string): Planned {
  thing.place = to;
  return deed('item.move', thing, on, { to, how, ...(note ? { note } : {}) });
}

export function tagOut(thing: Thing, on: On, reason: string): Planned {
  return deed('item.tagOut', thing, on, { reason });
}

export function repaired(thing: Thing, on: On, kind: string, performedBy: string, note?: string): Planned {
  return deed('item.repaired', thing, on, { kind, performedBy, ...(note ? { note } : {}) });
}

export function returned(thing: Thing, on: On, note?: string): Planned {
  return deed('item.return', thing, on, note ? { note } : {});
}

/** Retire it, in the plan too. */
export function retire(thing: Thing, on: Day, reason: string): Planned {
  thing.gone = on;
  return deed('item.retire', thing, on, { reason });
}

/** Any deed on one thing. */
export function deed(action: string, thing: Thing, on: On, more: Record<string, unknown> = {}): Planned {
  return { action, body: { item: labelOf(thing), ...more, on: text(on) } };
}
