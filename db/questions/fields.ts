/** What several questions take, and how days and things are named at the door. */
import { z } from 'zod';
import { type Day, dayText, parseDay } from '../../domain/calendar/day.ts';
import { all, one } from '../store/statements.ts';
import { type Asking, CannotAnswer } from './types.ts';

export const day = z.string().refine(t => parseDay(t) !== null, {
  error: 'is not a day. Write it as 2026-11-25, with a day that exists.',
});
export const page = {
  limit: z.number().int().min(1).max(100_000).optional(),
  offset: z.number().int().min(0).optional(),
};

/** The day asked about; today where none is given. */
export function dayAsked(asking: Asking, on: string | undefined): Day {
  return on === undefined ? asking.today : (parseDay(on) ?? asking.today);
}

export function textOrNull(day: Day | number | null): string | null {
  return day === null ? null : dayText(day as Day);
}

/**
 * The one thing that is named by id, or by number and perhaps family.
 * @throws CannotAnswer where none fits, or several do: then it says which
 */
export function thingAsked(
  asking: Asking,
  named: { item?: string | undefined; number?: string | undefined; family?: string | undefined },
): { key: number; id: string } {
  const { db } = asking;
  if (named.item !== undefined) {
    const row = one<{ key: number; id: string }>(
      db,
      'SELECT t.key, t.id FROM things t JOIN items i ON i.key = t.key WHERE t.id = ?',
      named.item,
    );
    if (row) return row;
    throw new CannotAnswer(
      'not found',
      `No thing has the id ${named.item}.`,
      'Find it by its number first.',
      'item',
    );
  }
  if (named.number === undefined)
    throw new CannotAnswer(
      'missing',
      'Neither a number nor an id is given.',
      'Give the number of the thing.',
      'number',
    );
  const fits = withNumber(asking, named.number, named.family);
  const living = fits.filter(f => f.condition !== 'retired' && f.condition !== 'disposed');
  const [only, ...others] = living.length > 0 ? living : fits;
  if (!only)
    throw new CannotAnswer(
      'not found',
      `No thing has the number ${named.number}.`,
      'Check the number; search finds parts of it.',
      'number',
    );
  if (others.length > 0)
    throw new CannotAnswer(
      'which one',
      `Several things have the number ${named.number}: ${[only, ...others].map(f => `${f.what} (${f.family}, id ${f.id})`).join('; ')}.`,
      'Name its family, or its id as item.',
      'number',
    );
  return only;
}

export interface Fitting {
  key: number;
  id: string;
  family: string;
  what: string;
  condition: string;
}

/** Every thing with a number, as given or in other letter case, living ones first. */
export function withNumber(asking: Asking, number: string, family?: string): Fitting[] {
  const select = `SELECT i.key, t.id, i.family, i.what, i.condition FROM items i JOIN things t ON t.key = i.key`;
  const exact = all<Fitting>(asking.db, `${select} WHERE i.number = ?`, number.trim());
  const found =
    exact.length > 0
      ? exact
      : all<Fitting>(asking.db, `${select} WHERE lower(i.number) = ?`, number.trim().toLowerCase());
  return found
    .filter(f => family === undefined || f.family === family)
    .sort((a, b) => Number(isGone(a)) - Number(isGone(b)));
}

function isGone(fitting: Fitting): boolean {
  return fitting.condition === 'retired' || fitting.condition === 'disposed';
}
