/**
 * The carry list of a unit: what it must carry, line by line, and where on its rig each line rides. Unit, rig and
 * carry list are three records: the list goes with the crew, the compartments belong to the rig.
 */
import type { HowKnown, Values } from '../facts.ts';
import type { Source } from '../rulebook/types.ts';

/** How a line is made sure of at a check-off, the least first. Nobody reads numbers in a packed hosebed. */
export const VERIFY = [
  'sight',
  'count',
  'number read',
  'operated',
  'seal intact',
] as const satisfies readonly HowKnown[];
export type Verify = (typeof VERIFY)[number];

/** What is read off where a line is gone through: a pressure, a level, a charge. */
export interface LineReading {
  title: string;
  unit: string | null;
  /** The least that passes, a decimal as text; null where it is only kept. */
  atLeast: string | null;
}

/** One line as it stands, without its name in the ledger. */
export interface LineBody {
  /** What it is called on the floor: `Spanner wrench`. */
  what: string;
  /** The family whose tracked things fill the line; null where they are counted and not tracked. */
  family: string | null;
  /** What such a thing must be like, attribute by attribute; nothing: any of the family. */
  like: Values;
  /** How many the unit carries, and the least with which the line still serves. */
  qty: number;
  min: number;
  /** Where on the rig it rides: the names of the places below the rig, the outermost first: `L3, tray 2`. */
  place: string;
  /** Whether the unit is not ready without the least of it. */
  critical: boolean;
  verify: Verify;
  reading: LineReading | null;
  /** The published list it was taken from; null for the department's own. */
  source: Source | null;
}

export interface CarryLine extends LineBody {
  /** Its name in the ledger. */
  line: string;
}
