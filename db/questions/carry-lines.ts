/** The lines of a carry list on a day; what was said of them is read again only when more was said. */
import type { Day } from '../../domain/calendar/day.ts';
import { firstDay } from '../../domain/calendar/when.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import { carryListOf } from '../caches/checkoffs.ts';
import { factsOf, type PlainFact } from '../caches/facts.ts';
import { type Db, one } from '../store/statements.ts';
import type { Asking } from './types.ts';

const read = new WeakMap<
  Db,
  Map<number, { token: string; facts: PlainFact[]; lists: Map<Day, CarryLine[]> }>
>();

/** The list of a unit or rig as it stood on a day. */
export function linesOn(asking: Asking, holder: number, on: Day): CarryLine[] {
  const { token } = one<{ token: string }>(
    asking.db,
    `SELECT max(key) || ' ' || count(*) || ' ' || count(voided_at) AS token FROM facts WHERE thing = ?`,
    holder,
  ) as { token: string };
  let known = read.get(asking.db);
  if (!known) {
    known = new Map();
    read.set(asking.db, known);
  }
  let lines = known.get(holder);
  if (lines?.token !== token) {
    const facts = factsOf(asking.db, holder).filter(f => f.kind === 'carry line');
    lines = { token, facts, lists: new Map() };
    known.set(holder, lines);
  }
  let list = lines.lists.get(on);
  if (!list) {
    list = carryListOf(lines.facts.filter(f => firstDay(f.effective) <= on));
    lines.lists.set(on, list);
  }
  return list;
}
