/** What is known on the rigs that are ridden, and off them: counts and findings, read in as few rows as may be. */
import type { Day } from '../../domain/calendar/day.ts';
import { CONDITION_EFFECT, conditionEffect, dueEffect } from '../../domain/coverage/readiness.ts';
import { type Basis, type DueState, stateOn } from '../../domain/derive/due.ts';
import type { Condition } from '../../domain/facts.ts';
import type { OwnVersion, WhenLate } from '../../domain/rulebook/types.ts';
import type { Readiness } from '../api-desk.ts';
import { RIG_FAMILY } from '../caches/facts.ts';
import { all } from '../store/statements.ts';
import { IN_FORCE, STATE_SQL } from './due-filter.ts';
import type { Asking } from './types.ts';

/** Things on a rig that nobody has seen, counted or tested for longer than this are told. Common practice, no source. */
export const STALE_DAYS = 30;

/** Rigs that a unit's crew rides now. */
const RIDDEN = "SELECT key FROM places WHERE kind = 'rig' AND unit IS NOT NULL";
const LIVING = "i.condition NOT IN ('retired', 'disposed')";
const AGAINST_STATES = ['life ended', 'retest owed', 'never done', 'overdue', 'not judged'] as const;
const AGAINST = `(${AGAINST_STATES.map(state => STATE_SQL[state]).join(' OR ')})`;
const OUT = Object.keys(CONDITION_EFFECT)
  .map(condition => `'${condition}'`)
  .join(', ');

/** That a row's place is on no ridden rig. */
const notRidden = (row: 'd' | 'i') =>
  `(${row}.place_key IS NULL OR ${row}.place_key NOT IN (SELECT key FROM places WHERE rig IN (${RIDDEN})))`;

/** A due row, or a condition, that tells against the unit on whose rig its thing is. */
export interface Finding {
  rig: number;
  item: number;
  /** As numbers are put in order. */
  number: string;
  effect: WhenLate;
  state: DueState | null;
  requirement: string | null;
  dueOn: Day | null;
  /** How the rule behind it stands to the shipped one. */
  own: OwnVersion['change'] | null;
  condition: Condition | null;
}

export interface RigKnown {
  things: number;
  lastSeen: Day | null;
  notSeen: number;
  d7: number;
  d30: number;
  d90: number;
  findings: Finding[];
}

/** Of a rig that nothing is on, or of none. */
export const NOTHING: RigKnown = {
  things: 0,
  lastSeen: null,
  notSeen: 0,
  d7: 0,
  d30: 0,
  d90: 0,
  findings: [],
};

/** What is known on each rig that is ridden, by the rig's key. */
export function rigsKnown(asking: Asking, on: Day): Map<number, RigKnown> {
  const rigs = new Map<number, RigKnown>();
  const of = (rig: number): RigKnown => {
    const known = rigs.get(rig) ?? { ...NOTHING, findings: [] };
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
    // A place that was gone through has shown what was in it by then.
    `WITH gone AS (SELECT place_key, max(on_day) AS on_day FROM looked WHERE on_day <= :on GROUP BY place_key)
     SELECT p.rig, count(*) AS things, max(max(coalesce(i.seen_on, -1), coalesce(gone.on_day, -1))) AS lastSeen,
       sum(coalesce(i.seen_on, -1) < :on - ${STALE_DAYS} AND (gone.on_day IS NULL
         OR gone.on_day < :on - ${STALE_DAYS} OR gone.on_day < i.placed_on)) AS notSeen
     FROM items i JOIN places p ON p.key = i.place_key LEFT JOIN gone ON gone.place_key = i.place_key
     WHERE p.rig IN (${RIDDEN}) AND p.kit IS NULL AND ${LIVING} GROUP BY p.rig`,
    { on },
  ))
    Object.assign(of(rig), { ...counts, lastSeen: counts.lastSeen === -1 ? null : counts.lastSeen });
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
    dueTo: Day | null;
    warnOn: Day | null;
    lateOn: Day | null;
    own: OwnVersion['change'] | null;
    late: WhenLate;
  }>(
    asking.db,
    `SELECT p.rig, d.item, d.number_sort AS number, d.requirement, d.basis, d.due_on AS dueOn,
       d.due_to AS dueTo, d.warn_on AS warnOn, d.late_on AS lateOn, d.own, d.late
     FROM due d JOIN places p ON p.key = d.place_key
     WHERE ${AGAINST} AND ${IN_FORCE} AND p.rig IN (${RIDDEN})`,
    { on },
  )) {
    const state = stateOn(row, on);
    const effect = dueEffect({ state, late: row.late });
    if (!effect) continue;
    if (state === 'retest owed') owesRetest.add(row.item);
    const { rig, item, number, requirement, dueOn, own } = row;
    findings.push({ rig, item, number, effect, state, requirement, dueOn, own, condition: null });
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
      findings.push({
        rig,
        item,
        number,
        effect,
        state: null,
        requirement: null,
        dueOn: null,
        own: null,
        condition,
      });
  }
  return findings;
}

/** Things that are on no ridden rig and would block or limit if they were, counted by where they are. */
export function elsewhere(asking: Asking, on: Day): Readiness['elsewhere'] {
  const effects = (['blocks', 'limits'] as const).map(effect => {
    const conditions = Object.entries(CONDITION_EFFECT).filter(([, e]) => e === effect);
    return `max(effect = '${effect}' OR condition IN (${conditions.map(([c]) => `'${c}'`).join(', ')}))`;
  });
  const rows = all<{ place: string | null; blocks: number; limits: number }>(
    asking.db,
    `SELECT p.path AS place, sum(blocks) AS blocks, sum(limits AND NOT blocks) AS limits FROM (
       SELECT place_key, ${effects[0]} AS blocks, ${effects[1]} AS limits FROM (
         SELECT d.item, d.place_key, CASE WHEN d.basis = 'retest' THEN 'blocks'
             WHEN ${STATE_SQL['not judged']} AND d.late <> 'notes' THEN 'limits' ELSE d.late END AS effect,
           '' AS condition
         FROM due d WHERE ${notRidden('d')} AND ${AGAINST} AND ${IN_FORCE}
         UNION ALL SELECT i.key, i.place_key, '', i.condition FROM items i
         WHERE ${notRidden('i')} AND i.family <> '${RIG_FAMILY}' AND i.condition IN (${OUT}))
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
