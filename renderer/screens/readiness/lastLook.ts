/** When a member last looked, kept on this computer; and what was done since, put together where it is one and the same. */
import type { ChangeLine } from '../../../db/api-desk.ts';
import { remembered } from '../../parts/remembered.ts';

const DAY_MS = 86_400_000;

/** Where nobody acts yet, whoever sits at this computer shares one look. */
const nameOf = (department: string, member: string | null) =>
  `last look ${department} ${member ?? 'anybody'}`;

/** The instant of the last look, or null where there was none on this computer. */
export function lastLook(department: string, member: string | null): string | null {
  const kept = remembered(nameOf(department, member));
  return kept !== null && !Number.isNaN(Date.parse(kept)) ? kept : null;
}

/**
 * Move the last look to what was seen: the newest deed that was shown, or the clock where there was none. Not the clock
 * alone: a deed is told by the clock of the computer that wrote it, which may run ahead of this one.
 */
export function markLooked(
  department: string,
  member: string | null,
  newest: string | undefined,
  now: number,
): string {
  const at = newest ?? new Date(now).toISOString();
  remembered(nameOf(department, member), at);
  return at;
}

/** What a first look shows: since the day before today began. */
export function firstLook(today: string): string {
  return new Date(Date.parse(`${today}T00:00:00Z`) - DAY_MS).toISOString();
}

/** The same done to several things by the same member on the same day, one after another: one line. */
export interface ChangeGroup {
  key: string;
  lines: ChangeLine[];
}

/** @param dayOf the day of an instant on the department's clock */
export function groupChanges(lines: readonly ChangeLine[], dayOf: (iso: string) => string): ChangeGroup[] {
  const groups: ChangeGroup[] = [];
  const same = (a: ChangeLine, b: ChangeLine) =>
    a.item !== null &&
    b.item !== null &&
    a.what === b.what &&
    a.byName === b.byName &&
    dayOf(a.recordedAt) === dayOf(b.recordedAt);
  for (const line of lines) {
    const last = groups.at(-1);
    const [first] = last?.lines ?? [];
    if (last && first && same(first, line)) last.lines.push(line);
    else groups.push({ key: line.entry, lines: [line] });
  }
  return groups;
}

/** A pass asks nothing of anybody: it is listed quietly. */
export const isQuiet = (line: ChangeLine): boolean => /, passed$/.test(line.what);
