/** The meters of one thing: what was read, what it has done in all, and when a mark is likely. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { type MeterPoint, meterPoints, totalOn } from '../../domain/derive/meters.ts';
import { countedRecord, type Derived, derive, dueRow, holds, inForce } from '../../domain/derive/thing.ts';
import type { Book, RuleVersion } from '../../domain/rulebook/book.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type { Clock } from '../../domain/rulebook/types.ts';
import type { MeterMark, MeterPage, RuleQuestions } from '../api-rules.ts';
import { readBook } from '../caches/book.ts';
import { asItemFacts, factsOf } from '../caches/facts.ts';
import { all } from '../store/statements.ts';
import { day, dayAsked, textOrNull, thingAsked } from './fields.ts';
import { question } from './types.ts';

export const itemMeters = question({
  name: 'item.meters',
  title: 'The meters of a rig or a tool with their readings, and what counts them',
  schema: z.strictObject({ item: z.string(), on: day.optional() }) as unknown as z.ZodType<
    RuleQuestions['item.meters']['takes']
  >,
  answer(asking, args): MeterPage[] {
    const thing = thingAsked(asking, { item: args.item });
    const on = dayAsked(asking, args.on);
    const book = readBook(asking.db);
    const derived = derive(asItemFacts(factsOf(asking.db, thing.key)), book);
    if (!derived) return [];
    const readers = readBy(asking.db, thing.key);
    const meters = [
      ...new Set([...(familyOf(derived.family)?.meters ?? []), ...derived.meters.map(m => m.values.meter)]),
    ];
    const versions = (book.versions.get(derived.family) ?? []).filter(
      v => inForce(v, on) && v.requirement.appliesTo.every(c => holds(c, derived.attributes)),
    );
    return meters.map(meter => {
      const { points, backward } = meterPoints(derived.meters, meter);
      return {
        meter,
        points: derived.meters
          .filter(m => m.values.meter === meter)
          .map(m => ({
            fact: m.id,
            on: m.effective,
            reading: m.values.reading,
            total: points.find(p => p.fact === m.id)?.total ?? m.values.reading,
            replaced: m.values.meterReplaced === true,
            by: readers.get(m.id) ?? null,
          })),
        contradiction: backward
          ? `It read ${backward.before.values.reading} on ${showWhen(backward.before.effective)} and ${backward.after.values.reading} on ${showWhen(backward.after.effective)}. Void the one that is wrong.`
          : null,
        marks: versions.flatMap(v => markOf(v, meter, points, derived, book)),
      };
    });
  },
  example: { item: '<id>' },
});

/** Who told each reading, by its fact. */
function readBy(db: Parameters<typeof all>[0], thing: number): Map<string, string> {
  return new Map(
    all<{ fact: string; name: string }>(
      db,
      `SELECT f.id AS fact, m.name FROM facts f JOIN entries e ON e.device = f.device AND e.seq = f.seq
       JOIN things t ON t.id = e.by JOIN members m ON m.key = t.key
       WHERE f.thing = ? AND f.kind = 'meter'`,
      thing,
    ).map(r => [r.fact, r.name]),
  );
}

/** How far along a thing is by one requirement that counts the meter, alone or as one of several clocks. */
function markOf(
  version: RuleVersion,
  meter: string,
  points: readonly MeterPoint[],
  derived: Derived,
  book: Book,
): MeterMark[] {
  const { requirement } = version;
  const clock = meterClock(requirement.clock, meter);
  if (!clock) return [];
  const counted = countedRecord(requirement, derived.records);
  const base = counted ? (totalOn(points, counted.effective)?.total ?? null) : 0;
  const mark = base === null || points.length === 0 ? null : base + clock.every;
  const said: string[] = [];
  const alone = { ...version, requirement: { ...requirement, clock } };
  const row = dueRow(alone, derived, book, s => said.push(s));
  return [
    {
      requirement: requirement.id,
      title: requirement.title,
      every: clock.every,
      mark,
      left: mark === null ? null : mark - (points.at(-1)?.total ?? 0),
      from: textOrNull(row.dueOn),
      to: textOrNull(row.dueTo),
      says: said.join(' '),
    },
  ];
}

function meterClock(clock: Clock, meter: string): (Clock & { kind: 'meter' }) | null {
  const all = clock.kind === 'first of' ? clock.clocks : [clock];
  return all.find((c): c is Clock & { kind: 'meter' } => c.kind === 'meter' && c.meter === meter) ?? null;
}
