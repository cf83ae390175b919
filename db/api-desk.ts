/** What Readiness, Rigs and Department ask and are told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { Verdict } from '../domain/coverage/readiness.ts';
import type { DueState } from '../domain/derive/due.ts';
import type { Assignment, Condition, HowKnown } from '../domain/facts.ts';
import type { Box } from '../domain/rigs/drawing.ts';
import type { OwnVersion, WhenLate } from '../domain/rulebook/types.ts';
import type { FillLogFilter } from './api-supply.ts';

/** One thing that tells against a unit, with where its why is. */
export interface Reason {
  effect: WhenLate;
  /** In words: `Service test overdue since 13 Jun 2026`, `Tagged out: jacket cut`. */
  what: string;
  item: string | null;
  /** The line of the carry list of which something is lacking; null for everything else. */
  line: string | null;
  number: string | null;
  /** The requirement behind it, for its why; null for a condition. */
  requirement: string | null;
  state: DueState | null;
  condition: Condition | null;
  dueOn: string | null;
  /** Whether the date goes by a version of the department's own, and to which side; null for the book's or none. */
  own: OwnVersion['change'] | null;
  since: string | null;
  place: string | null;
  /**
   * For a thing that blocks or limits, where its unit is asked about alone: the nearest ready spare of its kind and
   * size, by the unit's station. No two things are offered the same one.
   */
  fix: { item: string; number: string; place: string } | null;
}

/** What makes a unit ready: spares to bring, things to take off; and what is not to be had. */
export interface ReadyFix {
  /** Whether the moves make it ready. */
  ready: boolean;
  moves: {
    item: string;
    number: string;
    what: string;
    from: string;
    /** Where it goes, as the carry list names the place; null where no line says. */
    place: string | null;
    /** The thing it stands in for, which comes off. */
    instead: { item: string; number: string } | null;
  }[];
  /** Things on the rig that serve nothing and block while they lie there. */
  off: { item: string; number: string; what: string }[];
  /** What cannot be had, a sentence each; nothing where it is ready by the moves. */
  lacking: string[];
}

export interface UnitReadiness {
  unit: string;
  name: string;
  station: string | null;
  /** The rig its crew rides now, and whether that is its own. */
  rig: { id: string; name: string; own: boolean } | null;
  verdict: Verdict;
  /** In words, one line. */
  says: string;
  /** How many reasons of each weight there are. */
  byEffect: Record<WhenLate, number>;
  /** The heaviest first: the first 3, or all where one unit is asked about. */
  reasons: Reason[];
  things: number;
  /** The latest day anything on the rig was seen, tested or read. */
  lastSeen: string | null;
  /** Things not seen, counted or tested within the last so many days. */
  notSeenFor: { days: number; things: number };
  /** Rows that fall due within 7, 30 and 90 days. */
  within: { d7: number; d30: number; d90: number };
  /** Of a unit that is not ready, where it is asked about alone: the shortest fix over the whole department. */
  shortestFix: ReadyFix | null;
}

export interface Readiness {
  on: string;
  units: UnitReadiness[];
  counts: Record<Verdict, number>;
  /** Reserve rigs and stations: what is known against things there. */
  elsewhere: { place: string; blocks: number; limits: number }[];
  notes: NoteLine[];
  /** Things tagged out, at repair, held or missing in the whole department, the oldest first. */
  outOfService: {
    item: string;
    number: string;
    what: string;
    condition: Condition;
    since: string | null;
    place: string | null;
    reason: string | null;
  }[];
}

export interface NoteLine {
  id: string;
  text: string;
  unit: string | null;
  station: string | null;
  on: string;
  byName: string | null;
  recordedAt: string;
  closed: { on: string; byName: string | null; why: string | null } | null;
}

/** One deed since a time, in words. */
export interface ChangeLine {
  entry: string;
  recordedAt: string;
  byName: string | null;
  /** What was done: `Service test, passed`, `Tagged out: jacket cut`. */
  what: string;
  item: string | null;
  number: string | null;
  /** What the thing is, `1¾ in attack hose, 50 ft`; of a deed on a rig or place, its name. */
  thing: string | null;
}

export interface RigLine {
  id: string;
  name: string;
  /** The unit whose crew rides it now. */
  unit: string | null;
  unitId: string | null;
  station: string | null;
  chassis: string | null;
  /** `first line` where a unit rides it as its own, `reserve` where it has no unit of its own. */
  standing: 'first line' | 'reserve';
  condition: 'in service' | 'limited' | 'out of service';
  conditionReason: string | null;
  conditionSince: string | null;
  meters: { meter: string; reading: number; on: string }[];
  things: number;
  byState: Partial<Record<DueState, number>>;
  notReturned: number;
}

export interface RigPlace {
  id: string;
  name: string;
  kind: string;
  parent: string | null;
  items: RigItem[];
}

export interface RigItem {
  item: string;
  number: string;
  family: string;
  what: string;
  condition: Condition;
  assignment: Assignment | null;
  /** The heaviest of its states. */
  state: DueState;
  how: HowKnown | null;
  since: string | null;
}

export interface RigPage extends RigLine {
  /** The heaviest state of what the rig itself owes: its checks, its inspection, its pump. */
  itself: DueState;
  places: RigPlace[];
  /** Things known to be on the rig, in no place of it. */
  loose: RigItem[];
  /** As arranged, or a first arrangement by the names of the places. */
  drawing: Box[];
  arranged: boolean;
  rides: { unit: string; from: string; until: string | null }[];
  readings: { meter: string; reading: number; on: string; meterReplaced: boolean; fact: string }[];
  /** Things that came with a crew from another rig and were left here. */
  leftHere: LeftThing[];
  /** Things of this rig that went along to another and are still there. */
  leftElsewhere: LeftThing[];
}

/** A thing that went along with a crew and did not come back. */
export interface LeftThing {
  item: string;
  number: string;
  what: string;
  condition: Condition;
  /** The rig it came from, by name and id. */
  home: string;
  homeRig: string;
  /** The rig it is on, by name and id. */
  here: string;
  on: string;
  since: string;
  /** What the crew said of it when it went back; null where it named it not. */
  why: string | null;
}

/** An outside agency, and whether its RIN still stands. */
export interface AgencyLine {
  id: string;
  name: string;
  rin: string | null;
  rinExpires: string | null;
  /** By the last day the RIN can mean; null where it has no expiry. */
  rinState: 'current' | 'due soon' | 'overdue' | null;
  rinDaysLeft: number | null;
}

/** What the Department screen shows beside its places and members. */
export interface DepartmentPage {
  id: string;
  name: string;
  zone: string;
  state: string | null;
  /** The units it wishes to read in. */
  measures: 'US' | 'SI';
  /** Seconds a line under which a check-off is noted as hasty; null: none is. */
  hasteUnder_s: number | null;
  agencies: AgencyLine[];
  /** Of the file: the number of its format, and the device that writes in it from here. */
  file: { format: number; device: string };
}

/** What a thing could be swapped with, or the thing itself. */
export interface SpareLine {
  item: string;
  number: string;
  what: string;
  condition: Condition;
  assignment: Assignment | null;
  /** The heaviest of its states. */
  state: DueState;
  /** The whole name of its place and the place's id; the rig it rides on, by name. */
  place: string | null;
  placeId: string | null;
  rig: string | null;
  /** What speaks against taking it, in words; nothing where it serves. */
  against: string[];
}

export interface Spares {
  /** How many fit; `spares` holds the first of them. */
  total: number;
  current: SpareLine;
  spares: SpareLine[];
}

/** A whole file as text, to be saved. */
export interface TextFile {
  name: string;
  text: string;
}

/** A printed paper: what it is about. */
export type Paper =
  | { paper: 'morning page'; station: string; on?: string }
  | { paper: 'coming due'; filter: Record<string, unknown>; on?: string }
  | { paper: 'item history'; item: string }
  | { paper: 'tag'; item: string }
  | { paper: 'rig sheet'; rig: string; on?: string }
  | { paper: 'check-off sheet'; of: string }
  | { paper: 'changeover sheet'; from: string; to: string }
  | { paper: 'rule sheet'; family: string }
  | { paper: 'reorder list'; on?: string }
  | ({ paper: 'fill log' } & Omit<FillLogFilter, 'limit'>);

/** A PDF, base64, with the name it would be saved under. */
export interface PdfFile {
  name: string;
  pages: number;
  base64: string;
}

/** A paper that a host made and showed: opened in the system's viewer, saved where it was wished, or only kept. */
export interface PaperShown {
  name: string;
  pages: number;
  shown: 'opened' | 'saved' | 'kept';
}

export interface DeskQuestions {
  'readiness.now': { takes: { on?: string; unit?: string }; gives: Readiness };
  'changes.since': {
    takes: { since: string; limit?: number };
    /** `total` counts all of them; `lines` holds the newest, 200 where no limit is named. */
    gives: { total: number; lines: ChangeLine[] };
  };
  'notes.list': { takes: { open?: boolean }; gives: NoteLine[] };
  'rigs.list': { takes: { on?: string }; gives: RigLine[] };
  'rig.page': { takes: { rig: string; on?: string }; gives: RigPage };
  'item.spares': { takes: { item: string; text?: string; limit?: number; on?: string }; gives: Spares };
  'export.items': { takes: { family: string; on?: string }; gives: TextFile };
  'export.ledger': { takes: Record<string, never>; gives: TextFile };
  'department.page': { takes: { on?: string }; gives: DepartmentPage | null };
  'ledger.heads': {
    takes: Record<string, never>;
    gives: { entries: number; devices: { device: string; seq: number; hash: string }[] };
  };
  'paper.make': { takes: Paper & { by?: string }; gives: PdfFile };
}
