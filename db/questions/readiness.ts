/** Readiness: what is known against each unit, and how fresh it is. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { showDay } from '../../domain/calendar/show.ts';
import { capital } from '../../domain/capital.ts';
import {
  byWeight,
  type RigCondition,
  rigEffect,
  VERDICTS,
  type Verdict,
  verdictOf,
} from '../../domain/coverage/readiness.ts';
import type { Book } from '../../domain/rulebook/book.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import type { Readiness, Reason, UnitReadiness } from '../api-desk.ts';
import { readBook } from '../caches/book.ts';
import { all as allRows, one } from '../store/statements.ts';
import { titleOf } from './due.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { kitsNow, unreadyKits } from './kits-known.ts';
import { notesOf } from './notes.ts';
import { type AirTold, airOfRigs, airReason } from './readiness-air.ts';
import { elsewhere, type Finding, NOTHING, type RigKnown, rigsKnown, STALE_DAYS } from './readiness-known.ts';
import { linesOfUnits, NO_LINES, OF_NO_THING, shortageReason, type UnitLines } from './readiness-lines.ts';
import { rigConditions } from './rigs.ts';
import { fixesOf, type InTheWay } from './shortest-fix.ts';
import { offerSpares } from './spares.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

/** So many reasons of each unit are told where all units are asked about; asked about alone, a unit tells all. */
const REASONS_EACH = 3;

export const readinessNow = question({
  name: 'readiness.now',
  title: 'What is known against each unit on a day, and how fresh it is; it advises, the officer decides',
  schema: z.strictObject({ on: day.optional(), unit: z.string().optional() }) as unknown as z.ZodType<{
    on?: string;
    unit?: string;
  }>,
  answer(asking, args): Readiness {
    const on = dayAsked(asking, args.on);
    const wanted = args.unit?.toLowerCase();
    if (wanted === undefined) return tellReadiness(asking, on, null);
    return tellReadiness(asking, on, u => u.name.toLowerCase() === wanted || u.id === args.unit);
  },
  example: { on: '2026-11-25' },
});

/**
 * Readiness of every unit with its heaviest reasons, or of those asked about with every reason and its fix.
 * @param asked which units; null for all
 * @throws CannotAnswer for a day that is past
 */
export function tellReadiness(
  asking: Asking,
  on: Day,
  asked: ((unit: Pick<UnitReadiness, 'name' | 'station'> & { id: string }) => boolean) | null,
): Readiness {
  if (on < asking.today)
    throw new CannotAnswer(
      'past day',
      'Readiness tells of today, or of a day to come.',
      'Leave the day out; what was so on a past day is told by the history of each thing.',
      'on',
    );
  const all = unitsOf(asking);
  const units = all.filter(u => asked === null || asked(u));
  const known = rigsKnown(asking, on);
  const conditions = rigConditions(asking);
  const book = readBook(asking.db);
  const most = asked === null ? REASONS_EACH : Number.POSITIVE_INFINITY;
  // A fix is computed over the whole department, whoever asks for it.
  const kits = kitsNow(asking, on);
  const lines = linesOfUnits(asking, all, kits, on);
  const air = airOfRigs(asking, known, book, on);
  const told = units.map(unit =>
    readinessOf(asking, {
      unit,
      known,
      conditions,
      book,
      most,
      lines: lines.get(unit.id) ?? NO_LINES,
      air: air.get(unit.rig?.key ?? -1) ?? [],
    }),
  );
  if (asked !== null) {
    const outKits = new Set(unreadyKits(kits).keys());
    const unready = told.filter(u => u.verdict === 'not ready');
    if (unready.length > 0) {
      const fixes = fixesOf(
        asking,
        all.map(unit => inTheWay(unit, known, conditions, lines)),
        outKits,
        on,
      );
      for (const u of unready) u.shortestFix = fixes.get(u.unit) ?? null;
    }
    for (const u of told) offerSpares(asking, u.reasons, u.station, outKits, on);
  }
  told.sort((a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict));
  const counts = Object.fromEntries(VERDICTS.map(v => [v, told.filter(u => u.verdict === v).length]));
  return {
    on: textOrNull(on) as string,
    units: told,
    counts: counts as Record<Verdict, number>,
    elsewhere: elsewhere(asking, on),
    notes: notesOf(asking, true),
    outOfService: outOfService(asking),
  };
}

interface UnitRow {
  key: number;
  id: string;
  name: string;
  station: string | null;
  rig: { key: number; id: string; name: string; own: boolean } | null;
}

/** Every unit with the rig its crew rides now. Its own rig is the one that began with it. */
function unitsOf(asking: Asking): UnitRow[] {
  return allRows<{
    key: number;
    id: string;
    name: string;
    station: string | null;
    rigKey: number | null;
    rigId: string | null;
    rigName: string | null;
    own: number | null;
  }>(
    asking.db,
    `SELECT u.key, t.id, u.name, s.name AS station, p.key AS rigKey, rt.id AS rigId, p.name AS rigName, p.own
     FROM units u JOIN things t ON t.key = u.key
     LEFT JOIN places p ON p.unit = u.key AND p.kind = 'rig'
     LEFT JOIN things rt ON rt.key = p.key
     LEFT JOIN things st ON st.id = u.station LEFT JOIN places s ON s.key = st.key
     ORDER BY u.name`,
  ).map(({ rigKey, rigId, rigName, own, ...unit }) => ({
    ...unit,
    rig:
      rigKey === null || rigId === null || rigName === null
        ? null
        : { key: rigKey, id: rigId, name: rigName, own: own === 1 },
  }));
}

interface Judging {
  unit: UnitRow;
  known: ReadonlyMap<number, RigKnown>;
  conditions: ReturnType<typeof rigConditions>;
  book: Book;
  /** What it lacks of its carry list. */
  lines: UnitLines;
  /** What its cylinders tell of its seats. */
  air: readonly AirTold[];
  /** How many reasons are told. */
  most: number;
}

function readinessOf(
  asking: Asking,
  { unit, known, conditions, book, most, lines: { shortages, kits }, air }: Judging,
): UnitReadiness {
  const rigState = unit.rig ? conditions.get(unit.rig.key) : undefined;
  const onRig = known.get(unit.rig?.key ?? -1) ?? NOTHING;
  const ofRig = rigReasons(unit, rigState);
  // What is of the rig as a whole and of no one thing on it.
  const ofNoThing = [...ofRig, ...shortages, ...kits, ...air];
  const byEffect = { blocks: 0, limits: 0, notes: 0 };
  for (const { effect } of ofNoThing) byEffect[effect]++;
  for (const { effect } of onRig.findings) byEffect[effect]++;
  const verdict = verdictOf({
    hasRig: unit.rig !== null,
    things: onRig.things,
    lastSeen: onRig.lastSeen,
    effects: EFFECTS.filter(effect => byEffect[effect] > 0),
  });
  const told = Math.max(0, most - ofRig.length);
  // What is lacking comes before what is late of the same weight.
  const weighed = [
    ...shortages.map(s => ({ effect: s.effect, tell: () => shortageReason(s, unit.rig?.name ?? null) })),
    ...kits.map(k => ({ effect: k.effect, tell: () => k })),
    ...air.map(a => ({ effect: a.effect, tell: () => airReason(a, unit.rig?.name ?? '') })),
    ...heaviestOf(onRig.findings, told).map(f => ({
      effect: f.effect,
      tell: () => reasonOf(asking, book, f),
    })),
  ].sort((a, b) => EFFECTS.indexOf(a.effect) - EFFECTS.indexOf(b.effect));
  const heaviest = weighed.slice(0, told);
  return {
    unit: unit.id,
    name: unit.name,
    station: unit.station,
    rig: unit.rig ? { id: unit.rig.id, name: unit.rig.name, own: unit.rig.own } : null,
    verdict,
    says: says(
      verdict,
      thingsByEffect(
        ofNoThing.map(f => f.effect),
        onRig.findings,
      ),
      unit.rig !== null,
      onRig.things,
    ),
    byEffect,
    reasons: [...ofRig, ...heaviest.map(w => w.tell())].sort(
      (a, b) => EFFECTS.indexOf(a.effect) - EFFECTS.indexOf(b.effect),
    ),
    things: onRig.things,
    lastSeen: textOrNull(onRig.lastSeen),
    notSeenFor: { days: STALE_DAYS, things: onRig.notSeen },
    within: { d7: onRig.d7, d30: onRig.d30, d90: onRig.d90 },
    shortestFix: null,
  };
}

/** The heaviest so many of a rig's findings, in order: of hundreds a few are told, and the rest need no order. */
function heaviestOf(findings: readonly Finding[], most: number): Finding[] {
  if (most >= findings.length) return [...findings].sort(byWeight);
  const heaviest: Finding[] = [];
  for (const finding of findings) {
    const last = heaviest.at(-1);
    if (heaviest.length === most && (last === undefined || byWeight(finding, last) >= 0)) continue;
    const at = heaviest.findIndex(h => byWeight(finding, h) < 0);
    heaviest.splice(at < 0 ? heaviest.length : at, 0, finding);
    if (heaviest.length > most) heaviest.pop();
  }
  return heaviest;
}

function inTheWay(
  unit: UnitRow,
  known: ReadonlyMap<number, RigKnown>,
  conditions: ReturnType<typeof rigConditions>,
  lines: ReadonlyMap<string, UnitLines>,
): InTheWay {
  return {
    unit: unit.id,
    name: unit.name,
    station: unit.station,
    isRigOut: conditions.get(unit.rig?.key ?? -1)?.condition === 'out of service',
    lines: lines.get(unit.id) ?? NO_LINES,
    findings: known.get(unit.rig?.key ?? -1)?.findings ?? [],
  };
}

const EFFECTS: readonly WhenLate[] = ['blocks', 'limits', 'notes'];

function rigReasons(
  unit: UnitRow,
  state: { condition: RigCondition; reason: string | null; since: string } | undefined,
): Reason[] {
  const effect = state ? rigEffect(state.condition) : null;
  if (!unit.rig || !state || !effect) return [];
  return [
    {
      ...OF_NO_THING,
      effect,
      what: `${unit.rig.name} is ${state.condition}${state.reason ? `: ${state.reason}` : ''}`,
      since: state.since,
      place: unit.rig.name,
    },
  ];
}

/** A finding in words, with its thing as it is now. */
function reasonOf(asking: Asking, book: Book, finding: Finding): Reason {
  const thing = one<{
    id: string;
    number: string;
    family: string;
    what: string;
    since: string | null;
    place: string | null;
  }>(
    asking.db,
    `SELECT t.id, i.number, i.family, i.what, i.condition_since AS since, p.path AS place FROM items i
     JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key WHERE i.key = ?`,
    finding.item,
  );
  const { effect, state, requirement, dueOn, condition, own } = finding;
  const told =
    requirement === null
      ? capital(condition ?? '')
      : `${titleOf(book, thing?.family ?? '', requirement)} ${state}${
          dueOn === null ? '' : ` since ${showDay(dueOn)}`
        }${own === 'looser' ? ', by a LOOSER RULE' : ''}`;
  return {
    effect,
    what: `${told}: ${thing?.what ?? ''}`,
    item: thing?.id ?? null,
    line: null,
    number: thing?.number ?? null,
    requirement,
    state,
    condition,
    dueOn: textOrNull(dueOn),
    own: own ?? null,
    since: condition === null && state !== 'retest owed' ? null : (thing?.since ?? null),
    place: thing?.place ?? null,
    fix: null,
  };
}

/** How many things block, limit and are to note: each once, by the gravest that is known against it. The rig, each line that is short and its air are one. */
function thingsByEffect(ofRig: readonly WhenLate[], findings: readonly Finding[]): UnitReadiness['byEffect'] {
  const gravest = new Map<number, WhenLate>();
  for (const { item, effect } of findings) {
    const known = gravest.get(item);
    if (known === undefined || EFFECTS.indexOf(effect) < EFFECTS.indexOf(known)) gravest.set(item, effect);
  }
  const counts = { blocks: 0, limits: 0, notes: 0 };
  for (const effect of ofRig) counts[effect]++;
  for (const effect of gravest.values()) counts[effect]++;
  return counts;
}

function says(
  verdict: Verdict,
  { blocks, limits, notes }: UnitReadiness['byEffect'],
  hasRig: boolean,
  things: number,
): string {
  if (!hasRig) return 'No rig is known to be ridden.';
  const said = [
    { count: blocks, one: 'blocks', many: 'block' },
    { count: limits, one: 'limits', many: 'limit' },
    { count: notes, one: 'to note', many: 'to note' },
  ].filter(p => p.count > 0);
  const parts = said.map(({ count, one, many }, i) => {
    const noun = i > 0 ? '' : count === 1 ? 'thing ' : 'things ';
    return `${count} ${noun}${count === 1 ? one : many}`;
  });
  if (parts.length > 0) return `${parts.join(', ')}.`;
  if (things === 0) return 'Nothing is known to be on its rig.';
  return verdict === 'ready' ? 'Nothing is known against it.' : 'Nothing on it was ever seen or tested.';
}

function outOfService(asking: Asking): Readiness['outOfService'] {
  return allRows<Readiness['outOfService'][number] & { key: number }>(
    asking.db,
    `SELECT t.id AS item, i.key, i.number, i.what, i.condition, i.condition_since AS since, p.path AS place
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     WHERE i.condition IN ('tagged out', 'at repair', 'held for investigation', 'missing')
     ORDER BY i.condition_since, i.number_sort`,
  ).map(({ key, ...line }) => ({ ...line, reason: whyOut(asking, key) }));
}

/** Why a thing is out, as the deed that took it out says. */
function whyOut(asking: Asking, key: number): string | null {
  const [row] = allRows<{ reason: string | null }>(
    asking.db,
    `SELECT "values" ->> '$.reason' AS reason FROM facts
     WHERE thing = ? AND kind = 'condition' AND voided_at IS NULL ORDER BY effective DESC, clock DESC LIMIT 1`,
    key,
  );
  return row?.reason ?? null;
}
