/** Which tracked things fill which lines of a carry list. */
import { compare, decimalOf } from '../derive/decimal.ts';
import type { Condition, Value, Values } from '../facts.ts';
import type { CarryLine } from './types.ts';

/** A thing known to be on the rig. */
export interface Carried {
  item: string;
  number: string;
  family: string;
  attributes: Values;
  condition: Condition;
  /** Where on the rig: the names of the places below it, the outermost first; empty where that is not known. */
  place: string;
  /** A kit that does not serve as it is: opened, or without what is critical in it. */
  isUnready?: boolean;
}

export interface Filled<T extends Carried> {
  line: CarryLine;
  /** In the place of the line, or in one inside it. */
  here: T[];
  /** On the rig, in another place. */
  elsewhere: T[];
}

/** Whether a thing is of the kind that a line asks for. */
export function isOfLine(
  line: Pick<CarryLine, 'family' | 'like'>,
  thing: Pick<Carried, 'family' | 'attributes'>,
): boolean {
  return (
    line.family === thing.family &&
    Object.entries(line.like).every(([key, wanted]) => isSame(wanted, thing.attributes[key]))
  );
}

/** Whether `place` is the named place or lies in it; names are read as people write them. */
export function isIn(place: string, named: string): boolean {
  const [inner, outer] = [folded(place), folded(named)];
  return inner === outer || inner.startsWith(`${outer}, `);
}

/**
 * Every tracked thing on the rig given to at most one line: first in its own place, where lines that ask for more of
 * it come before those that would take any; then what is left over to lines that are still short, wherever it lies.
 * A line takes no more than its quantity from elsewhere, but all of its own place: too many there is for a person to see.
 * @returns the lines in their order, and the things that no line asks for
 */
export function fill<T extends Carried>(
  lines: readonly CarryLine[],
  things: readonly T[],
): { lines: Filled<T>[]; extra: T[] } {
  const filled = lines.map((line): Filled<T> => ({ line, here: [], elsewhere: [] }));
  /** The choosiest first, by family; places are read as people write them once, and not for every thing. */
  const choosy = new Map<string, { of: Filled<T>; place: string }[]>();
  for (const of of [...filled].sort(
    (a, b) => Object.keys(b.line.like).length - Object.keys(a.line.like).length,
  )) {
    if (of.line.family === null) continue;
    const known = choosy.get(of.line.family) ?? [];
    choosy.set(of.line.family, known);
    known.push({ of, place: folded(of.line.place) });
  }
  const foldedPlaces = new Map<string, string>();
  const placeOf = (thing: T): string => {
    let place = foldedPlaces.get(thing.place);
    if (place === undefined) {
      place = folded(thing.place);
      foldedPlaces.set(thing.place, place);
    }
    return place;
  };
  const left: T[] = [];
  for (const thing of things) {
    const place = placeOf(thing);
    let takes: Filled<T> | undefined;
    for (const { of, place: named } of choosy.get(thing.family) ?? []) {
      if (!(place === named || place.startsWith(`${named}, `)) || !isOfLine(of.line, thing)) continue;
      takes ??= of;
      if (of.here.length >= of.line.qty) continue;
      takes = of;
      break;
    }
    if (takes) takes.here.push(thing);
    else left.push(thing);
  }
  const extra: T[] = [];
  for (const thing of left) {
    const short = (choosy.get(thing.family) ?? []).find(
      ({ of }) => of.here.length + of.elsewhere.length < of.line.qty && isOfLine(of.line, thing),
    );
    if (short) short.of.elsewhere.push(thing);
    else extra.push(thing);
  }
  return { lines: filled, extra };
}

function isSame(wanted: Value, known: Value | undefined): boolean {
  if (known === undefined) return false;
  const [a, b] = [decimalOf(wanted), decimalOf(known)];
  if (a && b) return compare(a, b) === 0;
  return typeof wanted === 'string' && typeof known === 'string'
    ? folded(wanted) === folded(known)
    : wanted === known;
}

function folded(text: string): string {
  return text.toLowerCase().replace(/\s+/g, ' ').trim();
}
