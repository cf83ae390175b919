/**
 * Full cylinders against seats: whoever rides in a seat should find a full bottle for it. Common practice, no source:
 * what a cylinder is full at, and how often it is read, is the law's.
 */
import type { Day } from '../calendar/day.ts';
import { showDay } from '../calendar/show.ts';
import { firstDay } from '../calendar/when.ts';
import type { Values } from '../facts.ts';
import type { WhenLate } from '../rulebook/types.ts';
import type { FillKnown } from '../supply/fill.ts';

/**
 * A cylinder that was full is taken for full so long after it was read or filled.
 * @source 29 CFR 1910.134(h)(3)(iii) (read): SCBA is inspected monthly, its cylinders kept fully charged
 */
export const READ_WITHIN_days = 31;

/** What a rig carries to breathe from, against its seats. */
export interface AirOnRig {
  seats: number;
  full: number;
  toFill: number;
  notKnown: number;
  /** Of those not known: the latest day on which one was read; null where none ever was. */
  lastRead: Day | null;
}

/** Whether a cylinder is one of an SCBA: by its use, and by its gas; one of which neither is on file is taken for one. */
export function isOfScba({ use, gas }: Values): boolean {
  const isItsUse = use === undefined || use === null || use === 'SCBA';
  return isItsUse && (gas === undefined || gas === null || /\bair\b/i.test(String(gas)));
}

/**
 * Count them. One that was full longer ago than a month is not known; one that was to be filled is so until it is filled.
 * @param cylinders of the rig: those that serve and are in date
 */
export function airOnRig(seats: number, cylinders: readonly FillKnown[], on: Day): AirOnRig {
  const air: AirOnRig = { seats, full: 0, toFill: 0, notKnown: 0, lastRead: null };
  for (const { fill, since } of cylinders) {
    const day = since === null ? null : firstDay(since);
    if (fill === 'to be filled') air.toFill++;
    else if (fill === 'full' && day !== null && on - day <= READ_WITHIN_days) air.full++;
    else {
      air.notKnown++;
      if (day !== null && (air.lastRead === null || day > air.lastRead)) air.lastRead = day;
    }
  }
  return air;
}

/**
 * What it tells of its unit. Fewer that are full, or may be, than seats: it limits. Where seats hang on cylinders that
 * nobody has read, that is to note. Where no seats are known nothing is said.
 */
export function airTells(air: AirOnRig): { effect: WhenLate; what: string }[] {
  const { seats, full, toFill, notKnown, lastRead } = air;
  const told: { effect: WhenLate; what: string }[] = [];
  if (seats === 0) return told;
  if (full + notKnown < seats) {
    const maybe = notKnown === 0 ? '' : `, ${notKnown} more may have`;
    const why = toFill === 0 ? 'no more are on the rig' : `${toFill} to be filled`;
    told.push({
      effect: 'limits',
      what: `${full} of ${seats} ${seats === 1 ? 'seat has' : 'seats have'} a full cylinder${maybe}: ${why}`,
    });
  }
  if (full < seats && notKnown > 0) {
    const since = lastRead === null ? 'yet' : `since ${showDay(lastRead)}`;
    const of = full + toFill + notKnown;
    told.push({
      effect: 'notes',
      what: `${notKnown} of ${of} ${of === 1 ? 'cylinder' : 'cylinders'} ${notKnown === 1 ? 'is' : 'are'} not known to be full: nobody has read ${notKnown === 1 ? 'it' : 'them'} ${since}`,
    });
  }
  return told;
}
