/** The filter of Coming due as the sentence that its screen reads; a test holds the two together. */
import type { DueState } from '../../domain/derive/due.ts';
import type { DueFilter } from '../api.ts';

/** What is to be done or settled: everything but what is current. */
const TO_DO: readonly DueState[] = [
  'life ended',
  'retest owed',
  'never done',
  'overdue',
  'not judged',
  'due soon',
];

/** The words a filter's ids stand for. */
export interface Names {
  family(id: string): string;
  /** A unit, or a rig under its own name. */
  unit(id: string): string;
  station(id: string): string;
  requirement(id: string): string;
}

/** `Show what is overdue for hose on any unit at Station 31, due within 30 days.` */
export function filterSentence(filter: DueFilter, names: Names): string {
  const { state, family, unit, station, requirement, within, month, text } = filter;
  const what = stateWords(state);
  const things = family === undefined ? 'everything' : names.family(family);
  const on = unit === undefined ? 'any unit' : unit === 'none' ? 'no unit' : names.unit(unit);
  const at = station === undefined ? 'any station' : names.station(station);
  const parts = [`Show ${what} for ${things} on ${on} at ${at}`];
  if (requirement !== undefined) parts.push(`by ${names.requirement(requirement)}`);
  parts.push(`due ${windowWords(within)}`);
  if (month !== undefined)
    parts.push(month === 'none' ? 'with no date' : `in the month ${monthWords(month)}`);
  if (text) parts.push(`with “${text}”`);
  return `${parts.join(', ')}.`;
}

function stateWords(state: DueFilter['state']): string {
  if (state === undefined) return 'every duty';
  const states = Array.isArray(state) ? state : [state];
  if (states.length === TO_DO.length && TO_DO.every(s => states.includes(s))) return 'what is to be done';
  const words = states.map(s => (s === 'life ended' ? 'past its life' : s));
  return `what is ${words.length > 1 ? `${words.slice(0, -1).join(', ')} or ${words.at(-1)}` : (words[0] ?? 'nothing')}`;
}

function windowWords(within: number | undefined): string {
  if (within === undefined) return 'at any time';
  if (within === 0) return 'already';
  return within === 365 ? 'within a year' : `within ${within} days`;
}

/** `June 2026`. */
export function monthWords(month: string): string {
  const named = new Intl.DateTimeFormat('en-US', { month: 'long', year: 'numeric', timeZone: 'UTC' });
  return named.format(new Date(`${month}-01T00:00:00Z`));
}
