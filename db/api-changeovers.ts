/** What whole-rig swaps ask and are told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { Condition } from '../domain/facts.ts';
import type { Becomes } from '../domain/rigs/changeover.ts';
import type { LeftThing } from './api-desk.ts';

interface Named {
  id: string;
  name: string;
}

/** A thing of either rig, and what becomes of it. */
export interface ChangeoverThing {
  item: string;
  number: string;
  what: string;
  condition: Condition;
  becomes: Becomes;
  /** Why it stays, or is beside the list. */
  why: string;
  /** Where it lies now, by the names of the places below its rig; empty where only the rig is known. */
  place: string;
  /** Where it goes on the rig that is taken; empty where that has no place of the name. */
  to: string;
}

/** A line of the carry list as it stands once everything has moved. */
export interface ChangeoverLine {
  line: string;
  what: string;
  qty: number;
  min: number;
  critical: boolean;
  tracked: boolean;
  there: number;
  moves: number;
  /** Of a counted line, how many stay behind. */
  stays: number;
  lacking: number;
  /** What moves for it and what fills it already; nothing where it is only counted. */
  things: ChangeoverThing[];
}

export interface ChangeoverPlace {
  name: string;
  /** The place of that name on the rig that is taken, or null. */
  at: string | null;
  lines: ChangeoverLine[];
}

export interface ChangeoverPage {
  unit: Named;
  from: Named;
  to: Named;
  /** Back to the unit's own rig. */
  back: boolean;
  /** What state the rig that is taken is in. */
  toCondition: 'in service' | 'limited' | 'out of service';
  toReason: string | null;
  /** Who rides it now; null where nobody does. */
  toRiddenBy: string | null;
  places: ChangeoverPlace[];
  /** Things that no line asks for: what came along, what stays, what is on the rig taken besides. */
  others: ChangeoverThing[];
  counts: { moves: number; there: number; stays: number; besides: number; lacking: number };
}

/** One leg as it was signed. */
export interface ChangeoverLeg {
  id: string;
  unit: Named;
  from: Named;
  to: Named;
  back: boolean;
  on: string;
  byName: string | null;
  /** Whether each thing was seen, or it was only said that everything moved. */
  how: 'told' | 'sight';
  note: string | null;
  moved: number;
  there: number;
  excepted: { item: string; number: string; what: string; condition: Condition; why: string | null }[];
  counted: { what: string; planned: number; moved: number; why: string | null }[];
  /** What moved with this leg and has not come back. */
  notReturned: LeftThing[];
}

export interface ChangeoverQuestions {
  'rig.changeover': { takes: { from: string; to: string }; gives: ChangeoverPage };
  'changeovers.list': {
    takes: { rig?: string };
    /** The latest first; with everything that is not returned, whoever moved it. */
    gives: { legs: ChangeoverLeg[]; notReturned: LeftThing[] };
  };
}
