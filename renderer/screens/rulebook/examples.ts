/** A sensible thing of each family to try the book on, with a history that reaches back from today. */
import { addDays, addMonths, dayText, parseDay } from '../../../domain/calendar/day.ts';
import type { Outcome } from '../../../domain/facts.ts';
import { gearExampleOf } from './examplesOfGear.ts';

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
    case 'facepiece':
      return {
        attributes: { wearer: 'R. Alder', kind: 'full', size: 'medium', inService: monthsAgo(20) },
        history: [
          { activity: 'fit test', on: monthsAgo(11), outcome: 'pass' },
          { activity: 'inspection', on: daysAgo(20), outcome: 'pass' },
        ],
      };
    case 'compressor':
      return {
        attributes: {
          kind: 'compressor and fill station',
          lubrication: 'oil',
          filterDue: dayText(addMonths(now, 2)),
          inService: monthsAgo(50),
        },
        history: [
          { activity: 'service', on: monthsAgo(7), outcome: 'pass' },
          { activity: 'air sample', on: monthsAgo(2), outcome: 'pass' },
          { activity: 'inspection', on: monthsAgo(2), outcome: 'pass' },
        ],
      };
    case 'extinguisher':
      return {
        attributes: { type: 'dry chemical stored pressure', rating: '80-B:C', made: month(monthsAgo(70)) },
        history: [
          { activity: 'maintenance', on: monthsAgo(11), outcome: 'pass' },
          { activity: 'inspection', on: daysAgo(25), outcome: 'pass' },
        ],
      };
    case 'apparatus':
      return {
        attributes: {
          kind: 'engine',
          pump_gpm: '1500',
          tank_gal: '750',
          aerial: 'none',
          steerTiresMade: month(monthsAgo(80)),
          otherTiresMade: month(monthsAgo(52)),
          made: month(monthsAgo(112)),
          inService: monthsAgo(110),
        },
        history: [
          { activity: 'pump test', on: monthsAgo(11), outcome: 'pass' },
          { activity: 'inspection', on: monthsAgo(4), outcome: 'pass' },
          { activity: 'preventive service', on: monthsAgo(2), outcome: 'pass' },
          { activity: 'operational check', on: daysAgo(2), outcome: 'pass' },
        ],
      };
    case 'nozzle':
      return {
        attributes: { kind: 'combination', use: 'handline', coupling_in: '1.5', inService: monthsAgo(30) },
        history: [{ activity: 'service test', on: monthsAgo(11), outcome: 'pass' }],
      };
    case 'appliance':
      return {
        attributes: { kind: 'intake valve', size_in: '5', relief: 'fitted', inService: monthsAgo(30) },
        history: [{ activity: 'service test', on: monthsAgo(11), outcome: 'pass' }],
      };
    case 'foam':
      return {
        attributes: {
          type: 'AR-AFFF',
          container: 'tote',
          inService: monthsAgo(20),
          expires: month(dayText(addMonths(now, 30))),
        },
        history: [{ activity: 'quality test', on: monthsAgo(11), outcome: 'pass' }],
      };
    default:
      return gearExampleOf(family, now) ?? EMPTY;
  }
}
