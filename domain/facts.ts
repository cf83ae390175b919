/** Facts: what entries say of a thing. The only input of `derive`, with the adopted book. */
import type { When } from './calendar/when.ts';
import type { Photo } from './photos.ts';

export const ASSIGNMENTS = [
  'first line',
  'reserve',
  'ready spare',
  'training only',
  'issued',
  'loaned out',
  'loaned in',
  'storage',
] as const;
export type Assignment = (typeof ASSIGNMENTS)[number];

export const CONDITIONS = [
  'on order',
  'received',
  'serviceable',
  'limited use',
  'tagged out',
  'at repair',
  'retest owed',
  'held for investigation',
  'missing',
  'retired',
  'disposed',
] as const;
export type Condition = (typeof CONDITIONS)[number];

/** How the place of a thing was known: nobody reads numbers in a packed hosebed. */
export const HOW_KNOWN = [
  'sight',
  'count',
  'number read',
  'operated',
  'seal intact',
  'told',
  'sheet',
] as const;
export type HowKnown = (typeof HOW_KNOWN)[number];

export const OUTCOMES = ['pass', 'fail', 'not completed'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** A field's value: decimals are text, whole numbers are numbers; null clears what was known. */
export type Value = string | number | boolean | null;
export type Values = Readonly<Record<string, Value>>;

interface FactBase {
  /** The entry's id, or the entry's id, a colon and a suffix where the entry says several things. */
  id: string;
  effective: When;
  clock: number;
  device: string;
  /** Place among the facts of its entry. */
  n: number;
  /** UTC milliseconds: when the department's file was told. */
  recordedAt: number;
}

export type IdentityFact = FactBase & {
  kind: 'identity';
  values: { family?: string; number?: string; serial?: string | null; attributes?: Values };
};
export type PlaceFact = FactBase & { kind: 'place'; values: { place: string; how: HowKnown } };
export type AssignmentFact = FactBase & { kind: 'assignment'; values: { assignment: Assignment } };
export type ConditionFact = FactBase & {
  kind: 'condition';
  values: {
    condition: Condition;
    reason?: string;
    tag?: string;
    place?: string;
    photos?: readonly Photo[];
  };
};
export type RecordFact = FactBase & {
  kind: 'record';
  values: {
    activity: string;
    outcome: Outcome;
    readings?: Values;
    by?: string;
    agency?: string;
    note?: string;
    photos?: readonly Photo[];
  };
};
/** Activities owed after a repair or a happening, whatever their dates. */
export type OwedFact = FactBase & {
  kind: 'owed';
  values: { activities: readonly string[]; because: string; note?: string };
};

/** A meter as it was read off, whole. */
export type MeterFact = FactBase & {
  kind: 'meter';
  values: { meter: string; reading: number; meterReplaced?: boolean };
};

/** A gauge that was read at a check-off, of the thing that was named: a cylinder, or a pack with its bottle. */
export type GaugeFact = FactBase & {
  kind: 'gauge';
  values: { reading: string; unit: GaugeUnit };
};

/** Used at an incident: a bottle is not full any more. */
export type UsedFact = FactBase & { kind: 'used'; values: { at: string } };

/** What a pressure is read in: of a whole bottle 4500 psi, or 100 percent of what it is rated for. */
export const GAUGE_UNITS = ['psi', 'percent of rated'] as const;
export type GaugeUnit = (typeof GAUGE_UNITS)[number];

export type Fact =
  | IdentityFact
  | PlaceFact
  | AssignmentFact
  | ConditionFact
  | RecordFact
  | OwedFact
  | MeterFact
  | GaugeFact
  | UsedFact;

/** What decides which of two facts is read first. */
type Told = Pick<FactBase, 'effective' | 'clock' | 'device' | 'n'>;

/** The order in which facts are read: effective, then Lamport clock, then device, then place in the entry. */
export function inOrder(a: Told, b: Told): number {
  if (a.effective !== b.effective) return a.effective < b.effective ? -1 : 1;
  if (a.clock !== b.clock) return a.clock - b.clock;
  if (a.device !== b.device) return a.device < b.device ? -1 : 1;
  return a.n - b.n;
}
