/** A draft's mark of one place, changed one word at a time. Every function returns a new mark. */
import type { Exception, Operated, PlaceMark } from './marks.ts';

/** A place that nobody has said anything of. */
export function blankMark(place: string, at: string | null): PlaceMark {
  return { place, at, present: false, exceptions: [], operated: [], seen: [], leftOut: null };
}

/** Everything that is not named otherwise is there; a reason for leaving the place out is gone with that. */
export const allPresent = (mark: PlaceMark): PlaceMark => ({ ...mark, present: true, leftOut: null });

/** One exception more; of one line and thing there is one, the latest. */
export function withException(mark: PlaceMark, exception: Exception): PlaceMark {
  const others = mark.exceptions.filter(e => e.line !== exception.line || e.item !== exception.item);
  return {
    ...mark,
    leftOut: null,
    exceptions: [...others, exception],
    operated: mark.operated.filter(o => !(o.works && isSame(o, exception))),
  };
}

/** A line, or one of its things, was operated or read. What was wrong with it is not so any more. */
export function withOperated(mark: PlaceMark, operated: Operated): PlaceMark {
  return {
    ...mark,
    leftOut: null,
    operated: [...mark.operated.filter(o => !isSame(o, operated)), operated],
    exceptions: operated.works ? mark.exceptions.filter(e => !isSame(e, operated)) : mark.exceptions,
  };
}

/** Nothing is said of the line any more. */
export const withoutLine = (mark: PlaceMark, line: string): PlaceMark => ({
  ...mark,
  exceptions: mark.exceptions.filter(e => e.line !== line),
  operated: mark.operated.filter(o => o.line !== line),
});

/** A thing whose number was read here. */
export const withSeen = (mark: PlaceMark, item: string): PlaceMark => ({
  ...mark,
  leftOut: null,
  seen: mark.seen.includes(item) ? mark.seen : [...mark.seen, item],
});

function isSame(
  a: { line: string | null; item: string | null },
  b: { line: string | null; item: string | null },
): boolean {
  return a.line === b.line && (a.item === b.item || a.item === null || b.item === null);
}
