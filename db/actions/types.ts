/** What an action is: a schema for its body, a check that may refuse, and an apply that never does. */
import type { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import type { When } from '../../domain/calendar/when.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import type { Concerns, Notice } from '../../domain/chains/notice.ts';
import type { Standing } from '../../domain/chains/settled.ts';
import type { PlaceMark } from '../../domain/checkoffs/marks.ts';
import type { Schedule } from '../../domain/checkoffs/schedule.ts';
import type { Derived } from '../../domain/derive/thing.ts';
import type { Condition } from '../../domain/facts.ts';
import type { KitKnown } from '../../domain/kits/kit.ts';
import type { Entitlement } from '../../domain/people/entitlements.ts';
import type { Ride } from '../../domain/rigs/rides.ts';
import type { Book } from '../../domain/rulebook/book.ts';
import type { Problem } from '../api.ts';
import type { Difference, Leg } from '../caches/changeovers.ts';
import type { IncidentSeen } from '../caches/incidents.ts';
import type { StockTold } from '../caches/stock.ts';
import type { SwapTold } from '../caches/swaps.ts';
import type { Entry } from '../ledger/entry.ts';

/** A refusal before it knows which deed it stands in. */
export type Refusal = Omit<Problem, 'deed'>;

/** What `check` may look at: the department as it is inside the running transaction. */
export interface Look {
  today: Day;
  department: { id: string; name: string; zone: string } | null;
  book: Book;
  /** The kind of a thing, or null where no thing has this id. */
  kindOf(id: string): string | null;
  item(id: string): Derived | null;
  /** A thing as it was at a time: by what took effect until then, as far as it is told. */
  itemAsOf(id: string, at: When): Derived | null;
  /** The latest time of a day at which anything was told of a thing; null where nothing was told with a time. */
  lastToldOn(thing: string, day: When): When | null;
  /** Living things of a family with this number. */
  withNumber(family: string, number: string): string[];
  /** Living things of a family that lie in a place. */
  lyingIn(place: string, family: string): string[];
  agency(id: string): { name: string; rin: string | null } | null;
  /** Whether a place is a rig. */
  rig(id: string): boolean;
  /** What a rig is in now, and since when: the fact that counts; null where it was never taken out. */
  rigCondition(rig: string): { condition: string; effective: When } | null;
  /** When a rig was last taken or left, or a unit last took one; null where neither ever was. */
  lastRide(rig: string, unit: string | null): When | null;
  /** The readings of a meter before (or at) and after a time, or null where there is none. */
  readingsAround(
    thing: string,
    meter: string,
    at: string,
  ): { before: MeterRead | null; after: (MeterRead & { replaced: boolean }) | null };
  noteClosed(note: string): boolean;
  /** The carry list of a unit or rig as it stands, with what earlier deeds of the act made of it. */
  carryList(of: string): readonly CarryLine[];
  /** The rig that a unit's crew rides now, or null. */
  riddenBy(unit: string): string | null;
  /** Every ride ever, with those of earlier deeds of the act. */
  rides(): readonly Ride[];
  /** What two rigs differ in for a crew that changes from one to the other. */
  difference(leg: Leg): Difference;
  /** The schedules by which it is gone through. */
  schedules(of: string): readonly Schedule[];
  checkoff(id: string): CheckoffKnown | null;
  /** The member who told of the last repair of a thing, while it is out for it; null where there is none. */
  repairedBy(item: string): string | null;
  /** A swap of many, with how many numbers were read of it. */
  swap(id: string): SwapTold | null;
  /** A defect, and the thing it put out of service where that is still out. */
  defect(id: string): { closed: boolean; out: { number: string; condition: string } | null } | null;
  notice(id: string): NoticeSeen | null;
  /** A kit by its seal and last full count, and the lines of its template (none where its kind has none); null: no kit. */
  kit(id: string): { number: string; known: KitKnown; lines: readonly CarryLine[] } | null;
  /** Open defects, found by a day, that tell of a kit’s seal: a new one settles them. */
  sealDefects(kit: string, by: When): readonly string[];
  /** The template of the kits of this name, in any letter case, or null. */
  kitTemplate(what: string): string | null;
  /** The number of the kit that this seal was ever put on, or null. */
  sealedWith(seal: string): string | null;
  /** An incident, with what the lists that are not settled come to. */
  incident(id: string): IncidentSeen | null;
  /** A kind of counted stock with what is on hand of it, or null. */
  stock(id: string): StockTold | null;
  /** The kind of stock that bears this name, in any letter case, or null. */
  stockNamed(what: string): string | null;
  memberNumbers(): ReadonlySet<string>;
  memberNumber(member: string): string | null;
  /** What a place stands under, or where a kit lies; null where neither is known. */
  placeUnder(place: string): string | null;
  placeNamed(under: string | null, name: string): string | null;
  /** What a void of this target would void, and what later facts depend on it. */
  voiding(target: string): Voiding;
  /** The one family whose things a void of this target concerns; null where it concerns several or something else. */
  familyOfTarget(target: string): string | null;
}

/** A check-off with what was marked in it. */
export interface CheckoffKnown {
  of: string;
  rig: string | null;
  /** The places it goes through, by name; null for all. */
  places: readonly string[] | null;
  /** Every line of those places, or those alone that are operated or read. */
  scope: 'whole' | 'operated only';
  started: When;
  /** The marks in the order in which they were told, each with its fact and who told it. */
  marks: readonly (PlaceMark & { fact: string; byName: string | null })[];
  /** The day it was signed, or null. */
  signed: When | null;
  signedBy: string | null;
  countersigned: boolean;
  setAside: boolean;
}

/** A recall or stop-use notice, with every thing it concerns or perhaps does. */
export interface NoticeSeen extends Notice {
  closed: boolean;
  things: readonly {
    item: string;
    number: string;
    serial: string | null;
    condition: Condition;
    concerns: Concerns;
    standing: Standing;
  }[];
  /** Serials that the maker names and nobody could find; `found` is the thing that has turned up as one. */
  expected: readonly { serial: string; found: { number: string } | null; open: boolean }[];
}

export interface MeterRead {
  reading: number;
  on: When;
}

export interface Voiding {
  /** Facts that the target names and that are not voided yet. */
  facts: number;
  /** Whether the target exists but was voided already, or is itself a void. */
  already: boolean;
  isVoid: boolean;
  /** In words, what stands on it: `record of 14 Jun 2026 on hose 31-107`. */
  dependants: string[];
}

export interface NewThing {
  id: string;
  kind: string;
}

/** The effective date of what was so from the beginning: an identity, a rule from the opening on. */
export const ALWAYS = '0000';

/** A fact as an action states it; the store adds who, when told and in which order. */
export interface FactDraft {
  thing: string;
  kind: string;
  effective: string;
  values: Record<string, unknown>;
  /** Other things it speaks of. */
  refs?: string[];
}

export interface Applied {
  things?: NewThing[];
  facts?: FactDraft[];
  voids?: { target: string; why: string }[];
}

/** An entry being applied, with the id it is known by. */
export type Applying = Entry & { id: string };

export interface Action<B = Record<string, unknown>> {
  name: string;
  /** The version of the body this program writes. */
  v: number;
  title: string;
  schema: z.ZodType<B>;
  entitlement: Entitlement;
  /** Fields that name a thing; `&N` in them is resolved to what deed N brought into being. */
  refs: readonly string[];
  /** The family a deed concerns, for entitlements that cover some families only; null where it concerns none. */
  family?(look: Look, body: NoInfer<B>): string | null;
  check(look: Look, body: NoInfer<B>, deed: { fromSheet: boolean; by: string | null }): Refusal[];
  /** Fill in, where the deed is authored, what must stay as it was then: what a kind of repair owes by today's book. */
  complete?(look: Look, body: NoInfer<B>): NoInfer<B>;
  apply(entry: Applying, body: NoInfer<B>): Applied;
  /** Bodies of older versions, brought up to this one on reading, for ever. */
  upgrade?(v: number, body: Record<string, unknown>): Record<string, unknown>;
  /**
   * Whether it only adds to a draft that takes no effect until somebody signs it: then a member who signs with a PIN
   * is believed without one.
   */
  isDraft?: true;
  example: Record<string, unknown>;
}

/** Keep an action's body type inside its definition and hand it on as one of the registry. */
export function action<B>(definition: Action<B>): Action {
  return definition as unknown as Action;
}

export function refuse(code: string, message: string, todo: string, field: string | null = null): Refusal {
  return { code, message, todo, field };
}
