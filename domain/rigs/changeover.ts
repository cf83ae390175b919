/**
 * The whole-rig swap: a crew leaves one rig for another, its own for a reserve or back. The unit and its carry list go
 * with the crew, the compartments belong to the rig, gear moves or stays thing by thing. Common practice, no source:
 * both rigs are gone through at both transfers, since the crew that moves it out is often not the one that moves it back.
 */
import { serves } from '../carry/lacking.ts';
import { type Carried, fill, isIn, isOfLine } from '../carry/match.ts';
import type { CarryLine } from '../carry/types.ts';

/**
 * How a thing came to the rig that is left: it is the rig's own, the crew brought it along from the rig before, or it
 * was put there since the crew rides it.
 */
export type Origin = 'own' | 'brought' | 'since';

export interface OnRig extends Carried {
  origin: Origin;
}

/** How many of a counted line are believed on either rig. */
export interface Counted {
  left: number;
  taken: number;
}

export interface Rigs<T extends OnRig> {
  /** The unit's carry list on the day. */
  lines: readonly CarryLine[];
  /** Living things on the rig that is left, and on the one that is taken. */
  left: readonly T[];
  taken: readonly T[];
  /** The list of the rig that is taken, where it has one of its own. */
  ownList: readonly CarryLine[];
  /** Whether the rig that is left is the unit's own: then all that is on it is the crew's to take. */
  leavesOwn: boolean;
  counted: ReadonlyMap<string, Counted>;
}

/**
 * What becomes of a thing of either rig: it moves; it is there already and fills a line; it stays on the rig that is
 * left; it is on the rig that is taken beside what the list asks.
 */
export type Becomes = 'moves' | 'there' | 'stays' | 'besides';

export interface Changed<T extends OnRig> {
  thing: T;
  becomes: Becomes;
  /** The line it fills on the rig that is taken, or null. */
  line: string | null;
  /** Of what moves: the name of the place below the rig that is taken; empty where only the rig is known. */
  to: string;
  /** Why it stays, or is beside the list; empty where the line says it. */
  why: string;
}

/** A line as it stands once everything has moved: of tracked things and of counts alike, how many of each. */
export interface ChangedLine {
  line: CarryLine;
  there: number;
  moves: number;
  /** Of a counted line, how many stay behind. */
  stays: number;
  lacking: number;
}

export interface Changeover<T extends OnRig> {
  things: Changed<T>[];
  lines: ChangedLine[];
}

/** Whether it serves on a rig: a kit does only while its seal is whole. */
const isGood = (t: Carried): boolean => serves(t.condition) && t.isUnready !== true;
const wrongWith = (t: Carried): string => (serves(t.condition) ? 'to be counted and sealed' : t.condition);

/**
 * The difference of two rigs by the carry list of the crew that changes: every thing of either rig is in exactly one
 * class. What the taken rig's own gear fills does not move; what was brought along goes on with the crew whether a
 * line asks for it or not; what is the left rig's own stays there, unless that rig is the unit's own. What does not
 * serve stays where it is.
 */
export function changeover<T extends OnRig>(rigs: Rigs<T>): Changeover<T> {
  const { lines, left, taken, ownList, leavesOwn } = rigs;
  const tracked = lines.filter(l => l.family !== null);
  const need = new Map(tracked.map(l => [l.line, l.qty]));
  const there = give(tracked, taken.filter(isGood), need);
  const mayGo = left
    .filter(t => serves(t.condition) && (leavesOwn || t.origin !== 'own'))
    // An opened kit goes along where there is no better one: it is counted and sealed on the way.
    .sort((a, b) => Number(isGood(b)) - Number(isGood(a)));
  const along = leavesOwn ? [] : mayGo.filter(t => t.origin === 'brought');
  const broughtFill = give(tracked, along, need);
  const asked = give(
    tracked,
    mayGo.filter(t => !along.includes(t)),
    need,
  );
  const going = new Map<T, CarryLine | null>([
    ...along.map(t => [t, broughtFill.get(t) ?? null] as const),
    ...asked,
  ]);
  const own = new Set(give(ownList, taken, new Map(ownList.map(l => [l.line, l.qty]))).keys());
  const isAsked = (t: T) => tracked.some(l => isOfLine(l, t));
  const ofLeft = (t: T): Changed<T> => {
    const line = going.get(t);
    if (line !== undefined)
      return {
        thing: t,
        becomes: 'moves',
        line: line?.line ?? null,
        // What lay in its own place goes to the place of that name; what lay elsewhere, to where the list has it.
        to: line === null || isIn(t.place, line.place) ? t.place : line.place,
        why: line === null ? 'came along with the crew' : '',
      };
    return { thing: t, becomes: 'stays', line: null, to: '', why: whyStays(t) };
  };
  const whyStays = (t: T): string => {
    if (!serves(t.condition)) return t.condition;
    if (!leavesOwn && t.origin === 'own') return 'belongs to this rig';
    return isAsked(t) ? 'its line is filled' : 'no line asks for it';
  };
  const ofTaken = (t: T): Changed<T> => {
    const line = there.get(t);
    if (line) return { thing: t, becomes: 'there', line: line.line, to: '', why: '' };
    const why = !isGood(t)
      ? wrongWith(t)
      : isAsked(t)
        ? 'more than its line asks'
        : own.has(t)
          ? 'on the rig’s own list'
          : 'no line asks for it';
    return { thing: t, becomes: 'besides', line: null, to: '', why };
  };
  const things = [...left.map(ofLeft), ...taken.map(ofTaken)];
  const count = (line: CarryLine, becomes: Becomes) =>
    things.filter(t => t.line === line.line && t.becomes === becomes).length;
  return {
    things,
    lines: lines.map(line =>
      line.family === null
        ? countedLine(line, rigs.counted.get(line.line) ?? { left: line.qty, taken: 0 })
        : {
            line,
            there: count(line, 'there'),
            moves: count(line, 'moves'),
            stays: 0,
            lacking: need.get(line.line) ?? 0,
          },
    ),
  };
}

function countedLine(line: CarryLine, { left, taken }: Counted): ChangedLine {
  const there = Math.min(line.qty, taken);
  const moves = Math.min(left, line.qty - there);
  return { line, there, moves, stays: left - moves, lacking: line.qty - there - moves };
}

/**
 * Things given to lines that still need some, no line more than it needs, no thing twice: first as a carry list is
 * filled, then what is left over to whatever is short.
 * @param need how many each line still needs, by its name; lowered by what is given
 */
function give<T extends Carried>(
  lines: readonly CarryLine[],
  things: readonly T[],
  need: Map<string, number>,
): Map<T, CarryLine> {
  const given = new Map<T, CarryLine>();
  for (;;) {
    const short = lines.flatMap(line => {
      const qty = need.get(line.line) ?? 0;
      return qty > 0 ? [{ ...line, qty }] : [];
    });
    const before = given.size;
    const { lines: filled } = fill(
      short,
      things.filter(t => !given.has(t)),
    );
    for (const { line, here, elsewhere } of filled)
      for (const thing of [...here, ...elsewhere].slice(0, line.qty)) {
        given.set(thing, line);
        need.set(line.line, (need.get(line.line) ?? 0) - 1);
      }
    if (given.size === before) return given;
  }
}

/**
 * The place of the rig taken that bears the name, or the nearest around it that is there; null where only the rig is
 * left to name.
 * @param named places of the rig by their names below it, in lower case
 */
export function placeOn(named: ReadonlyMap<string, string>, name: string): string | null {
  const parts = name.toLowerCase().split(', ');
  for (let n = parts.length; n > 0; n--) {
    const place = named.get(parts.slice(0, n).join(', '));
    if (place !== undefined) return place;
  }
  return null;
}
