/** Recall and stop-use notices from their facts, and the things they are held against. There are no rows for them. */
import type { When } from '../../domain/calendar/when.ts';
import {
  type Concerns,
  judge,
  type Notice,
  type Noticed,
  type NoticeKind,
} from '../../domain/chains/notice.ts';
import { isSameSerial } from '../../domain/chains/serial.ts';
import { type SettledHow, type Standing, standing } from '../../domain/chains/settled.ts';
import type { Derived } from '../../domain/derive/thing.ts';
import type { Condition, Values } from '../../domain/facts.ts';
import type { NoticeSeen } from '../actions/types.ts';
import { all, type Db, one } from '../store/statements.ts';
import { asTold, factsOf, identityOf, type PlainFact, RIG_FAMILY, textOf } from './facts.ts';

/** What was said of how one thing, or one serial that nobody could find, was settled. */
export interface SettledTold {
  fact: string;
  how: SettledHow;
  note: string | null;
  on: When;
}

export interface ExpectedTold {
  fact: string;
  serial: string;
  note: string | null;
  on: When;
}

/** All that a notice's facts say of it. */
export interface NoticeTold {
  notice: Notice;
  fact: string;
  on: When;
  /** What was said last of each thing, by its id. */
  settled: ReadonlyMap<string, SettledTold>;
  expected: readonly (ExpectedTold & { settled: SettledTold | null })[];
  closed: { fact: string; on: When; note: string } | null;
}

/** A notice, or null where no fact says what it is: another device may have voided what brought it. */
export function noticeOf(facts: readonly PlainFact[]): NoticeTold | null {
  const known = identityOf(facts);
  const issued = facts.find(f => f.kind === 'identity');
  if (!known || !issued) return null;
  const text = (key: string) => textOf(known[key]);
  const ofItems = new Map<string, SettledTold>();
  const ofSerials: (SettledTold & { serial: string })[] = [];
  for (const f of asTold(facts.filter(f => f.kind === 'settled'))) {
    const told: SettledTold = {
      fact: f.id,
      how: f.values.how as SettledHow,
      note: textOf(f.values.note),
      on: f.effective,
    };
    if (typeof f.values.item === 'string') ofItems.set(f.values.item, told);
    else ofSerials.push({ ...told, serial: String(f.values.serial) });
  }
  // Two devices may both have expected one serial: it is one serial.
  const expected: ExpectedTold[] = [];
  for (const f of asTold(facts.filter(f => f.kind === 'expected'))) {
    const serial = String(f.values.serial);
    if (!expected.some(e => isSameSerial(e.serial, serial)))
      expected.push({ fact: f.id, serial, note: textOf(f.values.note), on: f.effective });
  }
  const closed = asTold(facts.filter(f => f.kind === 'closed')).at(0);
  return {
    notice: {
      title: text('title') ?? '',
      kind: known.kind as NoticeKind,
      family: text('family') ?? '',
      maker: text('maker'),
      model: text('model'),
      serialFrom: text('serialFrom'),
      serialTo: text('serialTo'),
      madeFrom: text('madeFrom') as When | null,
      madeTo: text('madeTo') as When | null,
      issuedBy: text('issuedBy') ?? '',
      toDo: text('toDo') ?? '',
    },
    fact: issued.id,
    on: issued.effective,
    settled: ofItems,
    expected: expected.map(e => ({
      ...e,
      settled: ofSerials.findLast(s => isSameSerial(s.serial, e.serial)) ?? null,
    })),
    closed: closed ? { fact: closed.id, on: closed.effective, note: textOf(closed.values.note) ?? '' } : null,
  };
}

/** A thing held against a notice. */
export interface HeldAgainst {
  item: string;
  number: string;
  serial: string | null;
  condition: Condition;
  concerns: Concerns;
  look: string[];
  told: SettledTold | null;
  standing: Standing;
}

/** What of a thing a notice is held against; a rig's serial is its VIN. */
export function noticed(family: string, serial: string | null, attributes: Values): Noticed {
  const text = (key: string) => textOf(attributes[key]);
  return {
    family,
    serial: family === RIG_FAMILY ? text('vin') : serial,
    maker: text('maker'),
    model: text('model'),
    made: text('made'),
  };
}

interface Row {
  id: string;
  key: number;
  number: string;
  serial: string | null;
  condition: Condition;
  attributes: string;
}

/**
 * The things that a notice concerns or perhaps does, and those that were settled under it whatever is known of them
 * now: what somebody signed does not vanish because a serial was corrected.
 * @param fresh things that a running act has touched, as they are now; null where one is not there any more
 */
export function heldAgainst(
  db: Db,
  told: NoticeTold,
  fresh: ReadonlyMap<string, Derived | null> = new Map(),
): HeldAgainst[] {
  const { notice } = told;
  const isRig = notice.family === RIG_FAMILY;
  const conditions = isRig ? rigConditions(db) : null;
  const rows = all<Row>(
    db,
    `SELECT t.id, i.key, i.number, i.serial, i.condition, i.attributes FROM items i JOIN things t ON t.key = i.key
     WHERE i.family = ? ORDER BY i.number_sort, i.key`,
    notice.family,
  ).filter(row => !fresh.has(row.id));
  const known = [
    ...rows.map(row => ({ ...row, attributes: JSON.parse(row.attributes) as Values })),
    ...[...fresh].flatMap(([id, d]) => (d?.family === notice.family ? [{ ...d, id }] : [])),
  ];
  return known.flatMap(({ id, number, serial, condition: own, attributes }): HeldAgainst[] => {
    const thing = noticed(notice.family, serial, attributes);
    const judgment = judge(notice, thing);
    const settled = told.settled.get(id) ?? null;
    if (judgment.concerns === 'no' && settled === null) return [];
    const condition = conditions ? (conditions.get(id) ?? 'serviceable') : own;
    return [
      {
        item: id,
        number,
        serial: thing.serial,
        condition,
        ...judgment,
        told: settled,
        standing: standing(condition, settled?.how ?? null),
      },
    ];
  });
}

/** What each rig is in, in the words of things: a rig has its own deeds for being out of service. */
function rigConditions(db: Db): Map<string, Condition> {
  return new Map(
    all<{ id: string; condition: string }>(
      db,
      `SELECT t.id, f."values" ->> '$.condition' AS condition FROM facts f JOIN things t ON t.key = f.thing
       WHERE f.kind = 'rig condition' AND f.voided_at IS NULL ORDER BY f.effective, f.clock, f.device, f.n`,
    ).map(({ id, condition }) => [
      id,
      condition === 'out of service' ? 'tagged out' : condition === 'limited' ? 'limited use' : 'serviceable',
    ]),
  );
}

/** The serials that the maker names and the department does not have, each with the thing that has turned up as it. */
export function expectedOf(
  told: NoticeTold,
  things: readonly HeldAgainst[],
): (NoticeTold['expected'][number] & { found: HeldAgainst | null; open: boolean })[] {
  return told.expected.map(e => {
    const found = things.find(t => t.serial !== null && isSameSerial(t.serial, e.serial)) ?? null;
    // Once it is here it is a thing like the others, and is settled as one.
    return { ...e, found, open: found === null && e.settled === null };
  });
}

/** A notice as a check sees it: what is open, and what is known of each thing. */
export function noticeSeen(
  db: Db,
  id: string,
  fresh: ReadonlyMap<string, Derived | null>,
): NoticeSeen | null {
  const known = one<{ key: number }>(db, "SELECT key FROM things WHERE id = ? AND kind = 'notice'", id);
  const told = known ? noticeOf(factsOf(db, known.key)) : null;
  if (!told) return null;
  const things = heldAgainst(db, told, fresh);
  return { ...told.notice, closed: told.closed !== null, things, expected: expectedOf(told, things) };
}
