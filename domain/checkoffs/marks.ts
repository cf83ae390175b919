/**
 * Going through a rig against its carry list. Exceptions, not ticks: that everything in a place is present is one
 * statement, and it claims no more than that; what must be operated is an entry of its own.
 */
import { isIn } from '../carry/match.ts';
import type { CarryLine } from '../carry/types.ts';
import { compare, decimalOf } from '../derive/decimal.ts';
import type { Photo } from '../photos.ts';
import { KIT_FAMILY } from '../rulebook/kit.ts';

export const EXCEPTIONS = ['missing', 'damaged', 'short', 'low', 'expired', 'wrong place', 'extra'] as const;
export type ExceptionKind = (typeof EXCEPTIONS)[number];

/** What becomes of what was found, once the check-off is signed. */
export const NEXT_STEPS = ['tag out', 'report missing', 'swap', 'move', 'defect', 'note'] as const;
export type NextStep = (typeof NEXT_STEPS)[number];

export interface Exception {
  /** The line it stands against; null for what is extra. */
  line: string | null;
  /** The tracked thing it is about; null where nothing tracked is meant. */
  item: string | null;
  kind: ExceptionKind;
  /** How many are lacking, where a count is short. */
  short: number | null;
  /** What was read, a decimal as text, where something is low. */
  reading: string | null;
  note: string | null;
  next: NextStep;
  /** The thing put in its place in a swap, and where a thing is moved to: ids. */
  with: string | null;
  to: string | null;
  /** An open defect that this is: it is confirmed, not reported again. */
  defect: string | null;
  /** What it looked like. */
  photos?: readonly Photo[] | undefined;
}

/** Something that was operated, read or counted, and how it came out. */
export interface Operated {
  line: string;
  item: string | null;
  works: boolean;
  reading: string | null;
}

/** What was found at one place of the carry list; the latest for a place stands. */
export interface PlaceMark {
  /** The place as the carry list names it. */
  place: string;
  /** The place of the rig that this is, by id; null where the rig has none of that name. */
  at: string | null;
  /** Everything that is not named below is there. */
  present: boolean;
  exceptions: readonly Exception[];
  operated: readonly Operated[];
  /** Things whose number was read here, by id. */
  seen: readonly string[];
  /** Why it was not gone through; null where it was. */
  leftOut: string | null;
}

/** What still keeps a check-off from being signed: where, and in words. */
export interface Unfinished {
  place: string;
  line: string | null;
  what: string;
}

/** The places of a carry list in the order in which they first appear in it. */
export function placesOf(lines: readonly CarryLine[]): string[] {
  const places = new Map<string, string>();
  for (const { place } of lines) if (!places.has(place.toLowerCase())) places.set(place.toLowerCase(), place);
  return [...places.values()];
}

/**
 * What is still to be done before a check-off of these lines can be signed: places that nobody went through, and
 * lines that must be operated, counted or read and were not. An exception on a line settles it: what is missing is
 * not operated. A place left out with a reason is a fact, not a gap.
 */
export function unfinished(lines: readonly CarryLine[], marks: readonly PlaceMark[]): Unfinished[] {
  return placesOf(lines).flatMap((place): Unfinished[] => {
    const mark = markOf(marks, place);
    if (mark?.leftOut) return [];
    const inPlace = lines.filter(l => l.place.toLowerCase() === place.toLowerCase());
    if (!mark || (!mark.present && mark.exceptions.length === 0))
      return [{ place, line: null, what: 'not gone through' }];
    const owed = inPlace.filter(l => needsEntry(l) && !isSettled(l, mark));
    if (!mark.present) {
      const silent = inPlace.filter(l => !needsEntry(l) && !isSettled(l, mark));
      if (silent.length > 0)
        return [
          { place, line: null, what: 'neither present nor an exception' },
          ...owed.map(l => entryOwed(l)),
        ];
    }
    return owed.map(l => entryOwed(l));
  });
}

/**
 * Whether a line asks for an entry of its own: that everything is present does not say that a saw was run, nor that
 * the number of a seal was read.
 */
export function needsEntry(line: Pick<CarryLine, 'verify' | 'reading' | 'qty' | 'family'>): boolean {
  return line.qty > 0 && (line.verify === 'operated' || isBySeal(line) || line.reading !== null);
}

/** Whether a line is made sure of by the seals of its kits: the number of each is read. What is no kit bears no number. */
export function isBySeal(line: Pick<CarryLine, 'verify' | 'family'>): boolean {
  return line.verify === 'seal intact' && line.family === KIT_FAMILY;
}

/** Of the kits of a line, the next whose seal nobody has told of in this mark; null where all are told. */
export function nextSealOwed<T extends { item: string }>(
  line: Pick<CarryLine, 'line'>,
  kits: readonly T[],
  mark: PlaceMark,
): T | null {
  const told = new Set(
    [...mark.operated, ...mark.exceptions].filter(m => m.line === line.line).map(m => m.item),
  );
  return kits.find(k => !told.has(k.item)) ?? null;
}

function isSettled(line: CarryLine, mark: PlaceMark): boolean {
  const operated = mark.operated.filter(o => o.line === line.line);
  if (isBySeal(line)) {
    // Every kit has a seal of its own; what is missing or damaged has no seal to read.
    const told = new Set([
      ...operated.filter(o => o.reading !== null || !o.works).map(o => o.item),
      ...mark.exceptions.filter(e => e.line === line.line).map(e => e.item),
    ]);
    const gone = mark.exceptions.filter(e => e.line === line.line).reduce((n, e) => n + (e.short ?? 0), 0);
    return told.size + gone >= line.qty || told.has(null);
  }
  const read = operated.some(o => line.reading === null || o.reading !== null || !o.works);
  return read || mark.exceptions.some(e => e.line === line.line);
}

function entryOwed(line: CarryLine): Unfinished {
  if (isBySeal(line)) return { place: line.place, line: line.line, what: `${line.what}: seal not read` };
  const what =
    line.reading === null
      ? `${line.what}: not operated`
      : `${line.what}: ${line.reading.title.toLowerCase()} not entered`;
  return { place: line.place, line: line.line, what };
}

/** The mark of a place, the latest of several. */
export function markOf<M extends { place: string }>(marks: readonly M[], place: string): M | undefined {
  return marks.findLast(m => m.place.toLowerCase() === place.toLowerCase());
}

/**
 * Whether a reading passes its line: null where the line has no limit or it is no number, so that it is kept and not
 * judged.
 */
export function readingPasses(line: Pick<CarryLine, 'reading'>, reading: string): boolean | null {
  const [read, least] = [decimalOf(reading), decimalOf(line.reading?.atLeast ?? undefined)];
  return read && least ? compare(read, least) >= 0 : null;
}

/** What one would do next with what was found, offered first. Whose an extra thing is stays open until somebody says. */
export function usualNext(kind: ExceptionKind, tracked: boolean): NextStep {
  switch (kind) {
    case 'missing':
      return tracked ? 'report missing' : 'defect';
    case 'damaged':
    case 'expired':
      return tracked ? 'tag out' : 'defect';
    case 'wrong place':
      return tracked ? 'move' : 'note';
    default:
      return 'defect';
  }
}

/** Exceptions of a draft that need a word before they can stand, in words; empty where they can. */
export function exceptionProblems(e: Exception, line: Pick<CarryLine, 'qty' | 'what'> | null): string[] {
  const problems: string[] = [];
  if (e.kind !== 'extra' && line === null) problems.push('It names no line of the carry list.');
  if (e.kind === 'short') {
    if (e.short === null || e.short < 1) problems.push('It is short of none: say how many are lacking.');
    else if (line && e.short > line.qty)
      problems.push(
        `It is short of ${e.short}, and the unit carries ${line.qty}: enter how many are lacking.`,
      );
  }
  if ((e.next === 'tag out' || e.next === 'report missing') && e.item === null)
    problems.push('Nothing tracked is named: choose the thing, or write a defect.');
  if (e.next === 'swap' && (e.item === null || e.with === null))
    problems.push('A swap needs both things: the one that goes and the one that comes.');
  if (e.next === 'move' && (e.item === null || e.to === null))
    problems.push('A move needs the thing and where it is now.');
  if (e.kind === 'damaged' && e.note === null) problems.push('Say what is damaged.');
  return problems;
}

/** The lines that a check-off goes through: those of its places, all of them or those alone that are operated or read. */
export function inScope<L extends Pick<CarryLine, 'place' | 'verify' | 'reading' | 'qty' | 'family'>>(
  lines: readonly L[],
  { places, scope }: { places: readonly string[] | null; scope: 'whole' | 'operated only' },
): L[] {
  return lines.filter(
    l =>
      (places === null || places.some(named => isIn(l.place, named))) && (scope === 'whole' || needsEntry(l)),
  );
}
