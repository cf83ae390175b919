/** A sensible thing of each family to try the book on, with a history that reaches back from today. */
import { addDays, addMonths, dayText, parseDay } from '../../../domain/calendar/day.ts';
import type { Outcome } from '../../../domain/facts.ts';

/** One line of an imagined history, as typed. */
export interface Happened {
  /** Tells the lines apart while they are typed in. */
  id: number;
  activity: string;
  on: string;
  outcome: Outcome;
}

export interface Example {
  /** Attributes by their keys, as typed. */
  attributes: Readonly<Record<string, string>>;
  history: readonly Omit<Happened, 'id'>[];
}

const EMPTY: Example = { attributes: {}, history: [] };

/** @param today `YYYY-MM-DD` */
export function exampleOf(family: string, today: string): Example {
  const now = parseDay(today);
  if (now === null) return EMPTY;
  const monthsAgo = (months: number) => dayText(addMonths(now, -months));
  const daysAgo = (days: number) => dayText(addDays(now, -days));
  const month = (text: string) => text.slice(0, 7);
  switch (family) {
    case 'hose':
      return {
        attributes: {
          diameter_in: '1.75',
          length_ft: '50',
          use: 'attack',
          made: month(monthsAgo(40)),
          inService: monthsAgo(38),
        },
        history: [
          { activity: 'service test', on: monthsAgo(23), outcome: 'pass' },
          { activity: 'service test', on: monthsAgo(11), outcome: 'pass' },
        ],
      };
    case 'cylinder':
      return {
        attributes: { construction: 'carbon', servicePressure_psi: '4500', made: month(monthsAgo(177)) },
        history: [
          { activity: 'requalification', on: month(monthsAgo(118)), outcome: 'pass' },
          { activity: 'requalification', on: month(monthsAgo(59)), outcome: 'pass' },
        ],
      };
    case 'ladder':
      return {
        attributes: {
          type: 'extension',
          length_ft: '24',
          inService: monthsAgo(36),
          heatLabelExpires: month(dayText(addMonths(now, 14))),
        },
        history: [
          { activity: 'service test', on: monthsAgo(13), outcome: 'pass' },
          { activity: 'inspection', on: daysAgo(26), outcome: 'pass' },
        ],
      };
    case 'pack':
      return {
        attributes: { servicePressure_psi: '4500', inService: monthsAgo(24) },
        history: [
          { activity: 'flow test', on: monthsAgo(10), outcome: 'pass' },
          { activity: 'inspection', on: daysAgo(20), outcome: 'pass' },
          { activity: 'operational check', on: daysAgo(3), outcome: 'pass' },
        ],
      };
    default:
      return EMPTY;
  }
}
