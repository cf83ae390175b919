/** Recalls and stop-use notices: all of them with their counts, and one with every thing it concerns. */
import { z } from 'zod';
import { IN_USE, IS_OUT } from '../../domain/chains/settled.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type {
  NoticeCounts,
  NoticeLine,
  NoticePage,
  NoticeSerial,
  NoticeThing,
  SettledLine,
} from '../api-notices.ts';
import { RIG_FAMILY } from '../caches/facts.ts';
import { factsByThing } from '../caches/many.ts';
import {
  expectedOf,
  type HeldAgainst,
  heldAgainst,
  type NoticeTold,
  noticeOf,
  type SettledTold,
} from '../caches/notices.ts';
import { all } from '../store/statements.ts';
import { namer } from './notes.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

export const noticesList = question({
  name: 'notices.list',
  title: 'Recalls and stop-use notices with their counts; those alone that are open or have something open',
  schema: z.strictObject({ open: z.boolean().optional() }) as unknown as z.ZodType<{ open?: boolean }>,
  answer(asking, args) {
    const rows = noticesOf(asking)
      .map(n => n.line)
      .filter(line => !args.open || isOpen(line));
    return { total: rows.length, rows };
  },
  example: { open: true },
});

export const noticePage = question({
  name: 'notice.page',
  title: 'One notice: every thing it concerns or perhaps does, how each is settled, and what nobody can find',
  schema: z.strictObject({ notice: z.string() }) as unknown as z.ZodType<{ notice: string }>,
  answer(asking, args): NoticePage {
    const known = noticesOf(asking, args.notice)[0];
    if (!known)
      throw new CannotAnswer(
        'not found',
        `There is no notice ${args.notice}.`,
        'Choose one from the list.',
        'notice',
      );
    const { line, told, things, expected } = known;
    const byName = namer(asking);
    const lies = whereOf(asking, things);
    return {
      ...line,
      things: things.map((t): NoticeThing => {
        const { told: settled, standing, ...thing } = t;
        const at = lies.get(t.item);
        return {
          ...thing,
          family: told.notice.family,
          isRig: told.notice.family === RIG_FAMILY,
          what: at?.what ?? '',
          place: at?.place ?? null,
          unit: at?.unit ?? null,
          since: at?.since ?? null,
          open: standing.open,
          settled: standing.how === null ? null : settledLine(standing.how, settled, byName),
        };
      }),
      expected: expected.map(
        (e): NoticeSerial => ({
          serial: e.serial,
          note: e.note,
          on: e.on,
          byName: byName(e.fact),
          found: e.found ? { item: e.found.item, number: e.found.number } : null,
          open: e.open,
          settled: e.settled ? settledLine(e.settled.how, e.settled, byName) : null,
        }),
      ),
    };
  },
  example: { notice: '<id>' },
});

interface Known {
  line: NoticeLine;
  told: NoticeTold;
  things: HeldAgainst[];
  expected: ReturnType<typeof expectedOf>;
}

/** Every notice, or one: what is open first, the latest first. */
function noticesOf(asking: Asking, only?: string): Known[] {
  const byName = namer(asking);
  return factsByThing(asking.db, 'notice')
    .filter(({ id }) => only === undefined || id === only)
    .flatMap(({ id, facts }): Known[] => {
      const told = noticeOf(facts);
      if (!told) return [];
      const things = heldAgainst(asking.db, told).sort((a, b) => rank(a) - rank(b));
      const expected = expectedOf(told, things);
      const { closed } = told;
      const line: NoticeLine = {
        id,
        ...told.notice,
        familyTitle: familyOf(told.notice.family)?.title ?? told.notice.family,
        on: told.on,
        byName: byName(told.fact),
        closed: closed ? { on: closed.on, note: closed.note, byName: byName(closed.fact) } : null,
        ...countsOf(things, expected),
      };
      return [{ line, told, things, expected }];
    })
    .sort(
      ({ line: a }, { line: b }) =>
        Number(isOpen(b)) - Number(isOpen(a)) || (a.on < b.on ? 1 : a.on > b.on ? -1 : a.id < b.id ? -1 : 1),
    );
}

/** A closed notice is looked at again while something under it is open. */
const isOpen = (line: Pick<NoticeLine, 'closed' | 'open'>): boolean => line.closed === null || line.open > 0;

/** What may still be put to use before what is out, the certain before the doubtful, the settled last. */
function rank({ standing, concerns, condition }: HeldAgainst): number {
  if (!standing.open) return 4;
  if (concerns === 'perhaps') return IN_USE.has(condition) ? 1 : 3;
  return IN_USE.has(condition) ? 0 : 2;
}

function countsOf(things: readonly HeldAgainst[], expected: ReturnType<typeof expectedOf>): NoticeCounts {
  const count = (is: (t: HeldAgainst) => boolean) => things.filter(is).length;
  const serials = expected.filter(e => e.found === null);
  return {
    concerned: count(t => t.concerns === 'yes'),
    perhaps: count(t => t.concerns === 'perhaps'),
    inUse: count(t => t.concerns === 'yes' && t.standing.open && IN_USE.has(t.condition)),
    tagged: count(t => IS_OUT.has(t.condition)),
    settled: count(t => !t.standing.open) + serials.filter(e => !e.open).length,
    notFound:
      count(t => t.condition === 'missing' && t.standing.how !== 'not concerned') +
      serials.filter(e => e.settled === null || e.settled.how === 'cannot be found').length,
    open: count(t => t.standing.open) + serials.filter(e => e.open).length,
  };
}

function settledLine<H extends SettledLine['how']>(
  how: H,
  told: SettledTold | null,
  byName: (fact: string) => string | null,
): SettledLine & { how: H } {
  // What its end settled was told on the thing itself, and not here.
  return told?.how === how
    ? { how, note: told.note, on: told.on, byName: byName(told.fact) }
    : { how, note: null, on: null, byName: null };
}

/** Where the things lie, on whose rig, and what each is, in one look. */
function whereOf(asking: Asking, things: readonly HeldAgainst[]) {
  return new Map(
    all<{ item: string; what: string; since: string | null; place: string | null; unit: string | null }>(
      asking.db,
      `SELECT t.id AS item, i.what, i.condition_since AS since, p.path AS place, u.name AS unit
       FROM json_each(?) j JOIN things t ON t.id = j.value JOIN items i ON i.key = t.key
       LEFT JOIN places p ON p.key = coalesce(i.place_key, i.key) LEFT JOIN units u ON u.key = p.unit`,
      JSON.stringify(things.map(t => t.item)),
    ).map(({ item, ...at }) => [item, at]),
  );
}
