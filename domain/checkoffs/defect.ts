/**
 * What was found wrong and what became of it. Every exception of a check-off is one defect; one that took a thing out
 * is settled when that thing is back in service or gone for good, every other one when somebody says how.
 */
import type { Condition } from '../facts.ts';
import type { NextStep } from './marks.ts';

export const CLOSED_HOW = [
  'replaced',
  'restocked',
  'found',
  'repaired',
  'put back',
  'no fault found',
  'written off',
  'not ours',
] as const;
export type ClosedHow = (typeof CLOSED_HOW)[number];

/** Steps that put the thing itself out of service: its own history tells when that ends. */
const FOLLOWS_THING: ReadonlySet<NextStep> = new Set(['tag out', 'report missing', 'swap']);

/** Conditions in which a thing does no service, and from which only its own deeds bring it back. */
export const OUT_OF_SERVICE: ReadonlySet<Condition> = new Set([
  'tagged out',
  'at repair',
  'retest owed',
  'held for investigation',
  'missing',
]);

export interface DefectKnown {
  next: NextStep;
  /** The day it was found. */
  since: string;
  /** The day somebody closed it, or null. */
  closedOn: string | null;
}

/** What is known now of the thing it is about. */
export interface ThingNow {
  condition: Condition;
  /** Since when, as the thing's own history has it. */
  since: string | null;
}

/** Whether a defect is settled: by word, by the thing's return to service, or by its end. */
export function isSettledDefect(defect: DefectKnown, thing: ThingNow | null): boolean {
  if (defect.closedOn !== null) return true;
  // What is only to be noted is settled by being noted; what was moved is where it belongs.
  if (defect.next === 'note' || defect.next === 'move') return true;
  if (thing === null) return false;
  if (thing.condition === 'retired' || thing.condition === 'disposed') return true;
  return (
    FOLLOWS_THING.has(defect.next) &&
    (thing.condition === 'serviceable' || thing.condition === 'received') &&
    thing.since !== null &&
    thing.since >= defect.since
  );
}
