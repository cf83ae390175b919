/** Readiness: what is known against each unit, and how fresh it is. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { showDay } from '../../domain/calendar/show.ts';
import {
  byWeight,
  CONDITION_EFFECT,
  conditionEffect,
  dueEffect,
  type RigCondition,
  rigEffect,
  VERDICTS,
  type Verdict,
  verdictOf,
} from '../../domain/coverage/readiness.ts';
import { type Basis, type DueState, stateOn } from '../../domain/derive/due.ts';
import type { Condition } from '../../domain/facts.ts';
import type { Book } from '../../domain/rulebook/book.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import type { Readiness, Reason, UnitReadiness } from '../api-desk.ts';
import { readBook } from '../caches/book.ts';
import { all, one } from '../store/statements.ts';
import { titleOf } from './due.ts';
import { STATE_SQL } from './due-filter.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { notesOf } from './notes.ts';
import { rigConditions } from './rigs.ts';
import { offerSpares } from './spares.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

/** Things on a rig that nobody has seen, counted or tested for longer than this are told. Common practice, no source. */
const STALE_DAYS = 30;

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
    if (on < asking.today)
      throw new CannotAnswer(
        'past day',
        'Readiness tells of today, or of a day to come.',
        'Leave the day out; what was so on a past day is told by the history of each thing.',
        'on',
      );
    const units = unitsOf(asking).filter(
      u => args.unit === undefined || u.name.toLowerCase() === args.unit.toLowerCase() || u.id === args.unit,
    );
    const known = rigsKnown(asking, on);
    const conditions = rigConditions(asking);
    const book = readBook(asking.db);
    const most = args.unit === undefined ? REASONS_EACH : Number.POSITIVE_INFINITY;
    const told = units.map(unit => readinessOf(asking, { unit, known, conditions, book, most }));
    if (args.unit !== undefined) for (const u of told) offerSpares(asking, u.reasons, u.station, on);
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
  },
  example: { on: '2026-11-25' },
});

interface UnitRow {
  id: string;
  name: string;
  station: string | null;
  rig: { key: number; id: string; name: string; own: boolean } | null;
}

/** Every unit with the rig its crew rides now. Its own rig is the one that began with it. */
function unitsOf(asking: Asking): UnitRow[] {
  return all<{
    id: string;
    name: string;
    station: string | null;
    rigKey: number | null;
    rigId: string | null;
    rigName: string | null;
    own: number | null;
  }>(
    asking.db,
    `SELECT t.id, u.name, s.name AS station, p.key AS rigKey, rt.id AS rigId, p.name AS rigName, p.own
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

/** Rigs that a unit's crew rides now. */
const RIDDEN = "SELECT key FROM places WHERE kind = 'rig' AND unit IS NOT NULL";
const LIVING = "i.condition NOT IN ('retired', 'disposed')";
const IN_FORCE = '(d.from_day IS NULL OR d.from_day <= :on) AND (d.to_day IS NULL OR d.to_day > :on)';
const AGAINST_STATES = ['life ended', 'retest owed', 'never done', 'overdue', 'not judged'] as const;
const AGAINST = `(${AGAINST_STATES.map(state => STATE_SQL[state]).join(' OR ')})`;
const OUT = Object.keys(CONDITION_EFFECT)
  .map(condition => `'${condition}'`)
  .join(', ');

/** That a row's place is on no ridden rig. */
const notRidden = (row: 'd' | 'i') =>
  `(${row}.place_key IS NULL OR ${row}.place_key NOT IN (SELECT key FROM places WHERE rig IN (${RIDDEN})))`;

/** A due row, or a condition, that tells against the unit on whose rig its thing is. */
interface Finding {
  rig: number;
  item: number;
  /** As numbers are put in order. */
  number: string;
  effect: WhenLate;
  state: DueState | null;
  requirement: string | null;
  dueOn: Day | null;
  condition: Condition | null;
}

interface RigKnown {
  things: number;
  lastSeen: Day | null;
  notSeen: number;
  d7: number;
  d30: number;
  d90: number;
  findings: Finding[];
}

/** What is known on each rig that is ridden, by the rig's key. */
function rigsKnown(asking: Asking, on: Day): Map<number, RigKnown> {
  const rigs = new Map<number, RigKnown>();
  const of = (rig: number): RigKnown => {
    const known = rigs.get(rig) ?? {
      things: 0,
      lastSeen: null,
      notSeen: 0,
      d7: 0,
      d30: 0,
      d90: 0,
      findings: [],
    };
    rigs.set(rig, known);
    return known;
  };
  for (const { rig, ...counts } of all<{
    rig: number;
    things: number;
    lastSeen: Day | null;
    notSeen: number;
  }>(
    asking.db,
    `SELECT p.rig, count(*) AS things, max(i.seen_on) AS lastSeen,
       sum(i.seen_on IS NULL OR i.seen_on < :on - ${STALE_DAYS}) AS notSeen
     FROM items i JOIN places p ON p.key = i.place_key
     WHERE p.rig IN (${RIDDEN}) AND ${LIVING} GROUP BY p.rig`,
    { on },
  ))
    Object.assign(of(rig), counts);
  for (const { rig, ...within } of all<{ rig: number; d7: number; d30: number; d90: number }>(
    asking.db,
    `SELECT p.rig, sum(d.due_on <= :on + 7) AS d7, sum(d.due_on <= :on + 30) AS d30, count(*) AS d90
     FROM due d JOIN places p ON p.key = d.place_key
     WHERE d.due_on BETWEEN :on AND :on + 90 AND ${IN_FORCE} AND d.basis <> 'none' AND p.rig IN (${RIDDEN})
     GROUP BY p.rig`,
    { on },
  ))
    Object.assign(of(rig), within);
  for (const finding of findingsOnRigs(asking, on)) of(finding.rig).findings.push(finding);
  return rigs;
}

function findingsOnRigs(asking: Asking, on: Day): Finding[] {
  const findings: Finding[] = [];
  const owesRetest = new Set<number>();
  for (const row of all<{
    rig: number;
    item: number;
    number: string;
    requirement: string;
    basis: Basis;
    dueOn: Day | null;
    warnOn: Day | null;
    late: WhenLate;
  }>(
    asking.db,
    `SELECT p.rig, d.item, d.number_sort AS number, d.requirement, d.basis, d.due_on AS dueOn, d.warn_on AS warnOn, d.late
     FROM due d JOIN places p ON p.key = d.place_key
     WHERE ${AGAINST} AND ${IN_FORCE} AND p.rig IN (${RIDDEN})`,
    { on },
  )) {
    const state = stateOn(row, on);
    const effect = dueEffect({ state, late: row.late });
    if (!effect) continue;
    if (state === 'retest owed') owesRetest.add(row.item);
    const { rig, item, number, requirement, dueOn } = row;
    findings.push({ rig, item, number, effect, state, requirement, dueOn, condition: null });
  }
  for (const { rig, item, number, condition } of all<{
    rig: number;
    item: number;
    number: string;
    condition: Condition;
  }>(
    asking.db,
    `SELECT p.rig, i.key AS item, i.number_sort AS number, i.condition FROM items i JOIN places p ON p.key = i.place_key
     WHERE i.condition IN (${OUT}) AND p.rig IN (${RIDDEN})`,
  )) {
    const effect = conditionEffect(condition);
    // An owed retest is told once, by the requirement that owes it.
    if (effect && !(condition === 'retest owed' && owesRetest.has(item)))
      findings.push({ rig, item, number, effect, state: null, requirement: null, dueOn: null, condition });
  }
  return findings;
}

/** Things that are on no ridden rig and would block or limit if they were, counted by where they are. */
function elsewhere(asking: Asking, on: Day): Readiness['elsewhere'] {
  const effects = (['blocks', 'limits'] as const).map(effect => {
    const conditions = Object.entries(CONDITION_EFFECT).filter(([, e]) => e === effect);
    return `max(effect = '${effect}' OR condition IN (${conditions.map(([c]) => `'${c}'`).join(', ')}))`;
  });
  const rows = all<{ place: string | null; blocks: number; limits: number }>(
    asking.db,
    `SELECT p.path AS place, sum(blocks) AS blocks, sum(limits AND NOT blocks) AS limits FROM (
       SELECT place_key, ${effects[0]} AS blocks, ${effects[1]} AS limits FROM (
         SELECT d.item, d.place_key, CASE d.basis WHEN 'unjudged' THEN 'limits' WHEN 'retest' THEN 'blocks' ELSE d.late END AS effect,
           '' AS condition
         FROM due d WHERE ${notRidden('d')} AND ${AGAINST} AND ${IN_FORCE}
         UNION ALL SELECT i.key, i.place_key, '', i.condition FROM items i
         WHERE ${notRidden('i')} AND i.condition IN (${OUT}))
       GROUP BY item)
     LEFT JOIN places p ON p.key = place_key GROUP BY place_key`,
    { on },
  );
  const places = new Map<string, Readiness['elsewhere'][number]>();
  for (const row of rows) {
    const name = row.place?.split(',')[0] ?? 'No place known';
    const place = places.get(name) ?? { place: name, blocks: 0, limits: 0 };
    place.blocks += row.blocks;
    place.limits += row.limits;
    places.set(name, place);
  }
  return [...places.values()]
    .filter(p => p.blocks + p.limits > 0)
    .sort((a, b) => b.blocks - a.blocks || b.limits - a.limits);
}

interface Judging {
  unit: UnitRow;
  known: ReadonlyMap<number, RigKnown>;
  conditions: ReturnType<typeof rigConditions>;
  book: Book;
  /** How many reasons are told. */
  most: number;
}

const NOTHING: RigKnown = { things: 0, lastSeen: null, notSeen: 0, d7: 0, d30: 0, d90: 0, findings: [] };

function readinessOf(asking: Asking, { unit, known, conditions, book, most }: Judging): UnitReadiness {
  const rigState = unit.rig ? conditions.get(unit.rig.key) : undefined;
  const onRig = known.get(unit.rig?.key ?? -1) ?? NOTHING;
  const ofRig = rigReasons(unit, rigState);
  const verdict = verdictOf({
    hasRig: unit.rig !== null,
    things: onRig.things,
    lastSeen: onRig.lastSeen,
    effects: [...ofRig, ...onRig.findings].map(f => f.effect),
  });
  const count = (effect: WhenLate) => [...ofRig, ...onRig.findings].filter(f => f.effect === effect).length;
  const byEffect = { blocks: count('blocks'), limits: count('limits'), notes: count('notes') };
  const heaviest = [...onRig.findings].sort(byWeight).slice(0, Math.max(0, most - ofRig.length));
  return {
    unit: unit.id,
    name: unit.name,
    station: unit.station,
    rig: unit.rig ? { id: unit.rig.id, name: unit.rig.name, own: unit.rig.own } : null,
    verdict,
    says: says(
      verdict,
      thingsByEffect(
        ofRig.map(f => f.effect),
        onRig.findings,
      ),
      unit.rig !== null,
      onRig.things,
    ),
    byEffect,
    reasons: [...ofRig, ...heaviest.map(f => reasonOf(asking, book, f))].sort(
      (a, b) => EFFECTS.indexOf(a.effect) - EFFECTS.indexOf(b.effect),
    ),
    things: onRig.things,
    lastSeen: textOrNull(onRig.lastSeen),
    notSeenFor: { days: STALE_DAYS, things: onRig.notSeen },
    within: { d7: onRig.d7, d30: onRig.d30, d90: onRig.d90 },
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
      effect,
      what: `${unit.rig.name} is ${state.condition}${state.reason ? `: ${state.reason}` : ''}`,
      item: null,
      number: null,
      requirement: null,
      state: null,
      condition: null,
      dueOn: null,
      since: state.since,
      place: unit.rig.name,
      fix: null,
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
  const { effect, state, requirement, dueOn, condition } = finding;
  const told =
    requirement === null
      ? capital(condition ?? '')
      : `${titleOf(book, thing?.family ?? '', requirement)} ${state}${
          dueOn === null ? '' : ` since ${showDay(dueOn)}`
        }`;
  return {
    effect,
    what: `${told}: ${thing?.what ?? ''}`,
    item: thing?.id ?? null,
    number: thing?.number ?? null,
    requirement,
    state,
    condition,
    dueOn: textOrNull(dueOn),
    since: condition === null && state !== 'retest owed' ? null : (thing?.since ?? null),
    place: thing?.place ?? null,
    fix: null,
  };
}

/** How many things block, limit and are to note: each once, by the gravest that is known against it. The rig is one. */
function thingsByEffect(ofRig: readonly WhenLate[], findings: readonly Finding[]): UnitReadiness['byEffect'] {
  const gravest = new Map<number, WhenLate>();
  for (const { item, effect } of findings) {
    const known = gravest.get(item);
    if (known === undefined || EFFECTS.indexOf(effect) < EFFECTS.indexOf(known)) gravest.set(item, effect);
  }
  const all = [...ofRig, ...gravest.values()];
  const count = (of: WhenLate) => all.filter(effect => effect === of).length;
  return { blocks: count('blocks'), limits: count('limits'), notes: count('notes') };
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
  return all<Readiness['outOfService'][number] & { key: number }>(
    asking.db,
    `SELECT t.id AS item, i.key, i.number, i.what, i.condition, i.condition_since AS since, p.path AS place
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     WHERE i.condition IN ('tagged out', 'at repair', 'held for investigation', 'missing')
     ORDER BY i.condition_since, i.number_sort`,
  ).map(({ key, ...line }) => ({ ...line, reason: whyOut(asking, key) }));
}

/** Why a thing is out, as the deed that took it out says. */
function whyOut(asking: Asking, key: number): string | null {
  const [row] = all<{ reason: string | null }>(
    asking.db,
    `SELECT "values" ->> '$.reason' AS reason FROM facts
     WHERE thing = ? AND kind = 'condition' AND voided_at IS NULL ORDER BY effective DESC, clock DESC LIMIT 1`,
    key,
  );
  return row?.reason ?? null;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
