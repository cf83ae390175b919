/**
 * The rule book as plain data: what a family is, and what must be done to its things, by which rule.
 * Everything here can be written to JSON and read back the same: a department adopts requirements **in full**
 * into its ledger, so an upgrade of the program cannot change what an old day is judged by.
 */

/** Where a value was seen. `memory` and `practice` are never enforced before the department confirms them. */
export type Confidence = 'read' | 'read second-hand' | 'memory' | 'common practice';
/** What kind of authority a requirement carries, before it is asked where that authority binds. */
export type Force = 'law' | 'standard' | 'manufacturer' | 'practice';
/** What being late does to the thing's unit; the department decides. */
export type WhenLate = 'blocks' | 'limits' | 'notes';

export interface Source {
  document: string;
  section: string;
  edition: string;
  confidence: Confidence;
  note?: string;
}

/** What a department is: some intervals and some laws differ by it. */
export const DEPARTMENT_KINDS = ['career', 'volunteer', 'combination', 'private brigade'] as const;
export type DepartmentKind = (typeof DEPARTMENT_KINDS)[number];

/**
 * How far a law reaches.
 * - `osha`: private employers in every state, and public ones where the state runs an OSHA-approved plan that covers
 *   them; a benchmark elsewhere (29 U.S.C. 652(5), 667(c)(6))
 * - `everywhere`: anyone in the United States who fills, offers or carries it (49 CFR)
 * - states: the named states alone, by their two letters
 */
export type Reach = 'osha' | 'everywhere' | { states: readonly string[] };

/** Where a requirement has the force of law, and by which clause. */
export interface Binding {
  reach: Reach;
  cite: string;
}

export interface Choice {
  value: string;
  title: string;
}

/** A field of a thing or a reading of a test. Decimals are text (`"2.5"`); `when` is a partial date. */
export interface Attribute {
  key: string;
  title: string;
  type: 'text' | 'choice' | 'whole' | 'decimal' | 'when' | 'flag';
  unit?: string;
  choices?: readonly Choice[];
  note?: string;
}

/** Something that is done to a thing and recorded with an outcome. */
export interface Activity {
  id: string;
  title: string;
  /** Whether only an outside agency with a requalifier's identification number (RIN) may do it. */
  outside?: boolean;
  readings: readonly Attribute[];
}

/** A kind of repair and the activities it owes before the thing may be returned; none: a signature closes it. */
export interface RepairKind {
  kind: string;
  title: string;
  owes: readonly string[];
  source: Source;
}

/** A happening after which an activity is owed again, whatever its date. */
export interface Trigger {
  id: string;
  title: string;
  owes: string;
  source: Source;
}

export interface Family {
  id: string;
  title: string;
  plural: string;
  attributes: readonly Attribute[];
  activities: readonly Activity[];
  repairs: readonly RepairKind[];
  triggers: readonly Trigger[];
  requirements: readonly Requirement[];
  /** The meters that a thing of this family may have; absent: none. */
  meters?: readonly Meter[];
}

/** What is counted by reading it off: whole miles, whole hours, whole turns. */
export const METERS = [
  'miles',
  'engine hours',
  'pump hours',
  'aerial hours',
  'hours',
  'cycles',
  'fills',
  'uses',
] as const;
export type Meter = (typeof METERS)[number];

/** A span that repeats: so many calendar months, or so many days. */
export type Every = { months: number } | { days: number };

/** From what the first one counts, for a thing with nothing on record. */
export type First =
  /** The manufacture date plus a span (a cylinder's first requalification). */
  | { counts: 'made'; plus: Every }
  /** The later of the manufacture date plus a span and the day it was placed in service (new hose). */
  | { counts: 'later of made and in service'; plus: Every }
  /** The day it was placed in service, plus a span; zero months: before first use. */
  | { counts: 'in service'; plus: Every };

/** One line of the requalification table: years by cylinder specification. */
export interface SpecPeriod {
  spec: string;
  construction: string;
  /** null: this specification is not requalified. */
  months: number | null;
  /** null: no fixed life. */
  lifeMonths: number | null;
  /** Another period by a named paragraph, where an attribute of the thing says so (the star mark, the gas). */
  unless?: { attribute: string; is: string | boolean; months: number; clause: string };
}

/** One line of the table by construction, for composite cylinders whose permit is not on file. */
export interface ConstructionPeriod {
  construction: string;
  months: number;
  lifeMonths: number | null;
}

/**
 * How a requirement's date is reached. **A kind's meaning never changes**; a new meaning is a new kind, because
 * adopted requirements in old ledgers name these kinds.
 */
export type Clock =
  | { kind: 'since last'; every: Every; first: First }
  | {
      kind: 'cylinder period';
      specs: readonly SpecPeriod[];
      constructions: readonly ConstructionPeriod[];
    }
  | {
      kind: 'cylinder life';
      specs: readonly SpecPeriod[];
      constructions: readonly ConstructionPeriod[];
    }
  /**
   * The date itself, or a span after it (a tire's date code). `needed`: without the date it is not judged; else a
   * thing with no such date on file has none.
   */
  | { kind: 'printed date'; attribute: string; plus?: Every; needed?: true }
  | { kind: 'made before'; day: string }
  /**
   * The end of one month each year (or every so many months of it), which does not drift: a test up to `early_months`
   * before that month counts for it, a late one moves nothing. Never later than `atMost` after the last one, where given.
   */
  | {
      kind: 'fixed month';
      /** 1 January to 12 December. */
      month: number;
      every_months: number;
      early_months: number;
      atMost?: Every;
      first: First;
    }
  /** So many units of a meter since the last one that counts, or since new where nothing is on record. */
  | { kind: 'meter'; meter: Meter; every: number }
  /** The earliest of several clocks; each is shown. */
  | { kind: 'first of'; clocks: readonly Clock[] }
  /**
   * An end of life: a span from a date of the thing. Nothing restores it. With `dueAt: 'day'` it ends on the day
   * the span is full: the thing is not used from that day on.
   */
  | { kind: 'life'; counts: 'made' | 'in service'; plus: Every }
  /** Owed one time, by the first date; a record that counts settles it for good. */
  | { kind: 'once'; first: First }
  /** Owed while the last reading lies beyond a limit, until an activity that satisfies it is done. */
  | ReadingLimit
  /** Never due by a date: owed after happenings and repairs alone. */
  | { kind: 'after happenings' };

/** A reading beyond which something is owed, whatever the date. Decimals are text. */
export interface ReadingLimit {
  kind: 'reading limit';
  /** The reading of any record by this key. */
  reading: string;
  owedWhen: 'at or under' | 'under' | 'over' | 'at or over';
  /** The limit itself, or so many percent of `percentOf`. */
  value: string;
  /** An attribute of the thing that the percentage is of (its service pressure, its charge). */
  percentOf?: string;
  /** An attribute that the reading is taken from first: what was lost is full weight less reading. */
  lostFrom?: string;
}

/**
 * When a requirement concerns a thing: every condition must hold. An unknown attribute is in no list, matches nothing
 * and is at least nothing. `matches` compares text without regard to capitals and spaces.
 */
export type Condition =
  | { attribute: string; in: readonly string[] }
  | { attribute: string; notIn: readonly string[] }
  | { attribute: string; known: boolean }
  | { attribute: string; is: boolean }
  | { attribute: string; matches: readonly string[] }
  | { attribute: string; atLeast: string }
  | { attribute: string; below: string };

export interface Requirement {
  id: string;
  family: string;
  title: string;
  /** The activity that is owed. */
  activity: string;
  appliesTo: readonly Condition[];
  clock: Clock;
  /** `day`: on time through that day. `month end`: through the month's last day. `month start`: through the day before the month. */
  dueAt: 'day' | 'month end' | 'month start';
  /** Days before the due day from which it shows as due soon. */
  warnDays: number;
  /** Activities whose record counts, and with which outcomes. */
  satisfiedBy: readonly string[];
  countedOutcomes: readonly ('pass' | 'fail')[];
  /** Requirements whose activity settles this one too: while one of them is due no later, this one is not shown beside it. */
  coveredBy?: readonly string[];
  sources: readonly Source[];
  force: Force;
  /** Where that force binds, in words. */
  binds: string;
  late: WhenLate;
  who: string;
  cautions: readonly string[];
  /** Where it is law; read together with the department's profile. Absent: `force` is taken as it stands. */
  bindings?: readonly Binding[];
  /** Judged only in a department of these states and kinds; absent: in every one. */
  where?: { states?: readonly string[]; kinds?: readonly DepartmentKind[] };
  /** Days after the due day in which the department does not call it late. Never where it is law. */
  graceDays?: number;
  /** `waits`: while the thing is in storage nothing is due; it is owed before it comes back. Absent: it keeps running. */
  inStorage?: 'waits';
  /** The requirement of the same duty that this one stands beside; the earlier of the two is listed, both are shown. */
  besides?: string;
  /** The qualification that whoever does it should hold, as the department names it. */
  asks?: string;
  /** On what the department confirmed a requirement whose sources are all from memory; absent: it is not judged. */
  confirmed?: string;
  /** How the department's own version stands to the shipped one: written by the store when it is adopted. */
  own?: OwnVersion;
}

/** A requirement of the department's own making, and why. */
export interface OwnVersion {
  change: 'stricter' | 'looser' | 'other' | 'local';
  reason: string;
  authority: string;
}

/**
 * A special permit or exemption as the department has confirmed it from the paper or the label in hand.
 * `lifeMonths: 'label'` means the life printed on the cylinder's own label decides.
 */
export interface Permit {
  permit: string;
  construction: string;
  months: number;
  lifeMonths: number | null | 'label';
  /** What it was confirmed from: the permit in hand, the label, or the book's offer taken as it is. */
  basis: string;
}

/** A permit as the shipped table offers it: nothing is judged by it until the department confirms it. */
export interface PermitOffer {
  permit: string;
  construction: string;
  months: number;
  lifeMonths: number | null | 'label';
  confidence: Confidence;
  note: string;
}
