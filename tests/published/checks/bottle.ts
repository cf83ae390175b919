/** What the checks of cylinders share. */
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import { departmentWith, rowOf } from '../department.ts';
import { inputsOf, type Vector } from '../vectors.ts';

export const REQUALIFICATION = 'cylinder.requalification';
/** A history of one requalification. */
export const requalified = (on: string) => [{ activity: 'requalification', on }];
/** A month some years on. */
export const plusYears = (month: string, years: number) =>
  Temporal.PlainYearMonth.from(month).add({ years }).toString();
/** The last day of a month. */
export const endOf = (month: string) => {
  const { daysInMonth } = Temporal.PlainYearMonth.from(month);
  return `${month}-${daysInMonth}`;
};

/** A cylinder that is requalified so often by the table. */
export function cylinderEvery(years: number): Values {
  const found: Record<number, Values> = { 3: { spec: '3HT' }, 5: { spec: '3AA' } };
  const attributes = found[years];
  if (!attributes) throw new Error(`No cylinder of the checks goes ${years} years.`);
  return attributes;
}

/** The last day on time by the shipped book; undefined where it is not requalified. */
export async function requalifyBy(attributes: Values, tested: string | null, on = '2049-12-31') {
  const department = await departmentWith();
  const history = tested === null ? [] : requalified(tested);
  return rowOf(await department.trial('cylinder', attributes, history, on), REQUALIFICATION)?.dueOn;
}

/** Where its life stands on a day, and when it ends. */
export async function lifeState(attributes: Values, on: string) {
  const department = await departmentWith();
  const trial = await department.trial('cylinder', attributes, [], on);
  return { state: rowOf(trial, 'cylinder.end-of-life')?.state, lifeEndsOn: trial.lifeEndsOn };
}

/** Our word for the construction a vector names. */
export function constructionOf(v: Vector): string {
  const { kind } = inputsOf(v, { kind: z.string() });
  const ours: Record<string, string> = {
    'hoop-wrapped': 'hoop',
    'full-wrap glass': 'fiberglass',
    'full-wrap aramid': 'aramid',
    'full-wrap carbon': 'carbon',
  };
  return z.string().parse(ours[kind]);
}
