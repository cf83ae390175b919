/** What the Rule book, the meters and the profile ask and are told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { DueState } from '../domain/derive/due.ts';
import type { Edition } from '../domain/rulebook/editions.ts';
import type { BoundForce, Profile } from '../domain/rulebook/force.ts';
import type { Policy } from '../domain/rulebook/policies.ts';
import type { Difference } from '../domain/rulebook/strictness.ts';
import type { OwnVersion, Permit, PermitOffer, Requirement } from '../domain/rulebook/types.ts';
import type { Problem } from './api.ts';

/** One version of a requirement, adopted or offered. */
export interface RuleLine {
  requirement: Requirement;
  /** The days it is in force; null: from the opening on, and until further notice. */
  from: string | null;
  to: string | null;
  adopted: boolean;
  /** Its force in this department, by its profile today. */
  force: BoundForce;
  /** Whether all its sources are from memory and the department has not confirmed it: nothing is judged by it. */
  toConfirm: boolean;
  /** Whether the program ships another text than the one adopted, and the department's is not its own. */
  hasNewer: boolean;
  /** Whether the profile lets it be judged here; a rule of another state is offered and rests. */
  isJudgedHere: boolean;
}

export interface RulebookList {
  rules: RuleLine[];
  permits: { offer: PermitOffer | null; confirmed: Permit | null; permit: string; cylinders: number }[];
  policies: (Policy & { choice: string; adopted: boolean })[];
  /** What the department has said of itself, as it holds today. */
  profile: Profile;
}

/** One decision on a requirement, the newest first. */
export interface RuleHistoryLine {
  /** The entry that decided it. */
  entry: string;
  /** ISO instant, and who. */
  at: string;
  by: string | null;
  did: 'adopted' | 'ended';
  requirement: Requirement;
  /** From when it was decided to hold; null: from the opening on. */
  from: string | null;
  /** The days it was or is in force; null where a later decision of the same day took its place. */
  inForce: { from: string | null; to: string | null } | null;
  reason: string | null;
  authority: string | null;
  change: OwnVersion['change'] | null;
  /** Against the version decided before it: what, before and after, in words. */
  changed: { what: string; was: string; now: string }[];
}

/** What a change would do before it is signed. */
export interface RulePreview {
  /** Why it would be refused, and what to do; empty where it would be taken. */
  problems: Problem[];
  /** For each requirement: in what it differs from the shipped one, and the force that it has here. */
  verdicts: {
    requirement: string;
    change: OwnVersion['change'] | null;
    differences: Difference[];
    force: BoundForce;
  }[];
  /** Decided for later, or for that very day, and replaced by this before it began. */
  falls: { requirement: Requirement; from: string; ended: boolean }[];
  /** The day that both books are judged on: the first of the change, today, or the last day that something falls on. */
  on: string;
  /** Living things of the families concerned. */
  things: number;
  /** Rows of those requirements, before and after. */
  concerned: { before: number; after: number };
  /** Rows whose date moves earlier, later, or that get or lose one. */
  moved: { earlier: number; later: number; gained: number; lost: number };
  /** Rows that would be late (overdue, never done, life ended) on the day and are not now, and the other way round. */
  becomesLate: number;
  noLongerLate: number;
  /** Rows that would not be judged. */
  notJudged: number;
  /** By month of the new date, for what moves: `2026-11`, and how many there are before and after. */
  months: { month: string; before: number; after: number }[];
  /** The first fifty things that change, what becomes late first. */
  changes: {
    item: string;
    number: string;
    place: string | null;
    requirement: string;
    was: { state: DueState; dueOn: string | null };
    becomes: { state: DueState; dueOn: string | null };
  }[];
}

/** One make and model of a family in the department. */
export interface MakeLine {
  family: string;
  maker: string | null;
  model: string | null;
  things: number;
  /** Requirements that name it. */
  requirements: string[];
}

/** A requirement that counts a meter: how far along the thing is. */
export interface MeterMark {
  requirement: string;
  title: string;
  every: number;
  /** The total at which it is due; null where it cannot be told, with the reason. */
  mark: number | null;
  left: number | null;
  from: string | null;
  to: string | null;
  says: string;
}

export interface MeterPage {
  meter: string;
  /** In order; a voided reading is not among them. */
  points: {
    fact: string;
    on: string;
    reading: number;
    total: number;
    replaced: boolean;
    by: string | null;
  }[];
  /** Two readings that contradict each other, in words; null where none do. */
  contradiction: string | null;
  marks: MeterMark[];
}

/** The questions that `Questions` takes in. */
export interface RuleQuestions {
  'rulebook.list': { takes: { family?: string }; gives: RulebookList };
  'rulebook.history': { takes: { requirement: string }; gives: RuleHistoryLine[] };
  /**
   * What adopting, ending or another profile would do, from a day on, seen from `on` (default: that day, or today
   * where it is past). Writes nothing.
   */
  'rulebook.preview': {
    takes: {
      adopt?: Requirement[];
      end?: string[];
      profile?: Profile;
      from: string;
      reason?: string;
      authority?: string;
      on?: string;
    };
    gives: RulePreview;
  };
  /** Editions that the book knows, with what each would renumber in the department's own book. */
  'rulebook.editions': {
    takes: Record<string, never>;
    gives: { edition: Edition; adopts: Requirement[] }[];
  };
  'makes.list': { takes: { family?: string }; gives: MakeLine[] };
  /** Meters of a rig or a tool, with their readings and what counts them. */
  'item.meters': { takes: { item: string; on?: string }; gives: MeterPage[] };
}
