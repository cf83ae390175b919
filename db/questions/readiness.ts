/** Readiness: what is known against each unit, and how fresh it is. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { showDay } from '../../domain/calendar/show.ts';
import { lastDay, parseWhen } from '../../domain/calendar/when.ts';
import {
  byWeight,
  conditionEffect,
  dueEffect,
  type RigCondition,
  type UnitKnown,
  VERDICTS,
  type Verdict,
  verdictOf,
} from '../../domain/coverage/readiness.ts';
import { type Basis, type DueState, stateOn } from '../../domain/derive/due.ts';
import type { Condition } from '../../domain/facts.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import type { Readiness, Reason, UnitReadiness } from '../api-desk.ts';
import { readBook } from '../caches/book.ts';
import { all } from '../store/statements.ts';
import { titleOf } from './due.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { notesOf } from './notes.ts';
import { rigConditions } from './rigs.ts';
import { type Asking, question } from './types.ts';

/** Things on a rig that nobody has seen, counted or tested for longer than this are told. Common practice, no source. */
const STALE_DAYS = 30;

interface Row {
  item: string;
  key: number;
  number: string;
  what: string;
  condition: Condition;
  conditionSince: string | null;
  place: string | null;
  rig: number | null;
  station: string | null;
}

interface Due {
  item: number;
  family: string;
  requirement: string;
  basis: Basis;
  lastOn: Day | null;
  dueOn: Day | null;
  warnOn: Day | null;
  late: WhenLate;
}

export const readinessNow = question({
  name: 'readiness.now',
  title: 'What is known against each unit on a day, and how fresh it is; it advises, the officer decides',
  schema: z.strictObject({ on: day.optional(), unit: z.string().optional() }) as unknown as z.ZodType<{
    on?: string;
    unit?: string;
  }>,
  answer(asking, args): Readiness {
    const on = dayAsked(asking, args.on);
    const things = thingsByPlace(asking, on);
    const units = unitsOf(asking).filter(
      u => args.unit === undefined || u.name.toLowerCase() === args.unit.toLowerCase() || u.id === args.unit,
    );
    const conditions = rigConditions(asking);
    const told = units.map(u =>
      readinessOf(asking, u, things.onRig.get(u.rig?.key ?? -1) ?? [], conditions, on),
    );
    told.sort((a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict));
    const counts = Object.fromEntries(VERDICTS.map(v => [v, told.filter(u => u.verdict === v).length]));
    return {
      on: textOrNull(on) as string,
      units: told,
      counts: counts as Record<Verdict, number>,
      elsewhere: things.elsewhere,
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

type Known = Row & { due: (Due & { state: DueState })[]; lastSeen: Day | null };

/** Every living thing with its due rows of the day, by the rig it is on; what is elsewhere is only counted. */
function thingsByPlace(
  asking: Asking,
  on: Day,
): { onRig: Map<number, Known[]>; elsewhere: Readiness['elsewhere'] } {
  const rows = all<Row>(
    asking.db,
    `SELECT t.id AS item, i.key, i.number, i.what, i.condition, i.condition_since AS conditionSince,
       p.path AS place, p.rig, s.name AS station
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     LEFT JOIN places s ON s.key = p.station
     WHERE i.condition NOT IN ('retired', 'disposed')`,
  );
  const due = new Map<number, Due[]>();
  for (const row of all<Due>(
    asking.db,
    `SELECT item, family, requirement, basis, last_on AS lastOn, due_on AS dueOn, warn_on AS warnOn, late
     FROM due WHERE (from_day IS NULL OR from_day <= :on) AND (to_day IS NULL OR to_day > :on)`,
    { on },
  )) {
    const known = due.get(row.item);
    if (known) known.push(row);
    else due.set(row.item, [row]);
  }
  const seen = lastSeenOf(asking);
  const units = new Set(
    all<{ key: number }>(asking.db, "SELECT key FROM places WHERE kind = 'rig' AND unit IS NOT NULL").map(
      r => r.key,
    ),
  );
  const onRig = new Map<number, Known[]>();
  const elsewhere = new Map<string, { place: string; blocks: number; limits: number }>();
  for (const row of rows) {
    const rules = (due.get(row.key) ?? []).map(d => ({
      ...d,
      state: stateOn({ ...d, from: null, to: null }, on),
    }));
    const tests = rules.flatMap(d => (d.lastOn === null ? [] : [d.lastOn]));
    const sight = seen.get(row.key) ?? null;
    const lastSeen = [...tests, ...(sight === null ? [] : [sight])].reduce<Day | null>(
      (latest, d) => (d <= on && (latest === null || d > latest) ? d : latest),
      null,
    );
    if (row.rig !== null && units.has(row.rig)) {
      const known = onRig.get(row.rig);
      const thing = { ...row, due: rules, lastSeen };
      if (known) known.push(thing);
      else onRig.set(row.rig, [thing]);
      continue;
    }
    const effects = [...rules.map(dueEffect), conditionEffect(row.condition)];
    const name = row.place?.split(',')[0] ?? row.station ?? 'No place known';
    const place = elsewhere.get(name) ?? { place: name, blocks: 0, limits: 0 };
    if (effects.includes('blocks')) place.blocks++;
    else if (effects.includes('limits')) place.limits++;
    elsewhere.set(name, place);
  }
  return {
    onRig,
    elsewhere: [...elsewhere.values()]
      .filter(p => p.blocks + p.limits > 0)
      .sort((a, b) => b.blocks - a.blocks || b.limits - a.limits),
  };
}

/** The last day each thing's place was known by more than a sheet or hearsay. */
function lastSeenOf(asking: Asking): Map<number, Day> {
  const seen = new Map<number, Day>();
  for (const { thing, effective } of all<{ thing: number; effective: string }>(
    asking.db,
    `SELECT thing, max(effective) AS effective FROM facts
     WHERE kind = 'place' AND voided_at IS NULL AND ("values" ->> '$.how') NOT IN ('sheet', 'told') GROUP BY thing`,
  )) {
    const when = parseWhen(effective);
    if (when) seen.set(thing, lastDay(when));
  }
  return seen;
}

function readinessOf(
  asking: Asking,
  unit: UnitRow,
  things: readonly Known[],
  conditions: ReadonlyMap<number, { condition: RigCondition; reason: string | null; since: string }>,
  on: Day,
): UnitReadiness {
  const rigState = unit.rig ? conditions.get(unit.rig.key) : undefined;
  const lastSeen = things.reduce<Day | null>(
    (latest, t) => (t.lastSeen !== null && (latest === null || t.lastSeen > latest) ? t.lastSeen : latest),
    null,
  );
  const known: UnitKnown = {
    hasRig: unit.rig !== null,
    rigCondition: rigState?.condition ?? 'in service',
    things: things.length,
    lastSeen,
    due: things.flatMap(t =>
      t.due.map(d => ({ item: t.item, state: d.state, late: d.late, dueOn: d.dueOn })),
    ),
    conditions: things.map(t => ({ item: t.item, condition: t.condition })),
  };
  const reasons = [...rigReasons(unit, rigState), ...things.flatMap(t => reasonsOf(asking, t))];
  reasons.sort((a, b) => byWeight(weighed(a), weighed(b)));
  const verdict = verdictOf(known);
  const dueWithin = (days: number) =>
    known.due.filter(
      d => d.dueOn !== null && d.dueOn >= on && d.dueOn <= on + days && d.state !== 'not applicable',
    ).length;
  return {
    unit: unit.id,
    name: unit.name,
    station: unit.station,
    rig: unit.rig ? { id: unit.rig.id, name: unit.rig.name, own: unit.rig.own } : null,
    verdict,
    says: says(verdict, reasons, known),
    reasons,
    things: things.length,
    lastSeen: textOrNull(lastSeen),
    notSeenFor: {
      days: STALE_DAYS,
      things: things.filter(t => t.lastSeen === null || t.lastSeen < on - STALE_DAYS).length,
    },
    within: { d7: dueWithin(7), d30: dueWithin(30), d90: dueWithin(90) },
  };
}

function rigReasons(
  unit: UnitRow,
  state: { condition: RigCondition; reason: string | null; since: string } | undefined,
): Reason[] {
  if (!unit.rig || !state || state.condition === 'in service') return [];
  return [
    {
      effect: state.condition === 'out of service' ? 'blocks' : 'limits',
      what: `${unit.rig.name} is ${state.condition}${state.reason ? `: ${state.reason}` : ''}`,
      item: null,
      number: null,
      requirement: null,
      state: null,
      condition: null,
      dueOn: null,
      since: state.since,
      place: unit.rig.name,
    },
  ];
}

function reasonsOf(asking: Asking, thing: Known): Reason[] {
  const base = { item: thing.item, number: thing.number, place: thing.place };
  const reasons: Reason[] = [];
  const effect = conditionEffect(thing.condition);
  // An owed retest is told once, by the requirement that owes it.
  const owesRow = thing.due.some(d => d.state === 'retest owed');
  if (effect && !(thing.condition === 'retest owed' && owesRow))
    reasons.push({
      ...base,
      effect,
      what: `${capital(thing.condition)}: ${thing.what}`,
      requirement: null,
      state: null,
      condition: thing.condition,
      dueOn: null,
      since: thing.conditionSince,
    });
  for (const row of thing.due) {
    const against = dueEffect(row);
    if (!against) continue;
    reasons.push({
      ...base,
      effect: against,
      what: `${titleOf(readBook(asking.db), row.family, row.requirement)} ${row.state}${
        row.dueOn === null ? '' : ` since ${showDay(row.dueOn)}`
      }: ${thing.what}`,
      requirement: row.requirement,
      state: row.state,
      condition: null,
      dueOn: textOrNull(row.dueOn),
      since: null,
    });
  }
  return reasons;
}

function weighed(reason: Reason) {
  const when = reason.dueOn ? parseWhen(reason.dueOn) : null;
  return {
    effect: reason.effect,
    state: reason.state,
    dueOn: when ? lastDay(when) : null,
    number: reason.number ?? '',
  };
}

function says(verdict: Verdict, reasons: readonly Reason[], known: UnitKnown): string {
  if (!known.hasRig) return 'No rig is known to be ridden.';
  if (known.things === 0) return 'Nothing is known to be on its rig.';
  const count = (effect: WhenLate) => reasons.filter(r => r.effect === effect).length;
  const [blocks, limits, notes] = [count('blocks'), count('limits'), count('notes')];
  const parts = [
    blocks > 0 ? `${blocks} ${blocks === 1 ? 'thing blocks' : 'things block'}` : '',
    limits > 0 ? `${limits} limit` : '',
    notes > 0 ? `${notes} to note` : '',
  ].filter(p => p !== '');
  if (parts.length > 0) return `${parts.join(', ')}.`;
  return verdict === 'ready' ? 'Nothing is known against it.' : 'Nothing on it was ever seen or tested.';
}

function outOfService(asking: Asking): Readiness['outOfService'] {
  return all<Readiness['outOfService'][number] & { key: number }>(
    asking.db,
    `SELECT t.id AS item, i.key, i.number, i.what, i.condition, i.condition_since AS since, p.path AS place
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     WHERE i.condition IN ('tagged out', 'at repair', 'held for investigation', 'missing')
     ORDER BY i.condition_since, i.number_sort`,
  ).map(({ key, ...line }) => ({ ...line, reason: reasonOf(asking, key) }));
}

/** Why a thing is out, as the deed that took it out says. */
function reasonOf(asking: Asking, key: number): string | null {
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
