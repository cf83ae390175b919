/** Clock times as people write them and as a deed takes them. */
import type { Problem } from '../../../db/api.ts';

/** Local civil time of this seat as a deed takes it: `2026-11-25T07:10`, on the department's day. */
export function clockNow(today: string, now = new Date()): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${today}T${two(now.getHours())}:${two(now.getMinutes())}`;
}

/** A clock time as people write it: `7:10`, `0710`, `19.30`; what cannot be read goes as it is. */
export function clockOf(typed: string, today: string): string {
  const found = /^(\d{1,2})[:. ]?(\d{2})$/.exec(typed.trim());
  return found ? `${today}T${(found[1] ?? '').padStart(2, '0')}:${found[2]}` : `${today}T${typed.trim()}`;
}

/** What is wrong with a clock time as typed under a field; nothing where it can be read. */
export function clockProblems(filled: Readonly<Record<string, string>>, key: string): Problem[] {
  const typed = (filled[key] ?? '').trim();
  return /^([01]?\d|2[0-3])[:. ]?[0-5]\d$/.test(typed)
    ? []
    : [
        {
          code: 'bad value',
          message: typed === '' ? 'No clock time is given.' : `“${typed}” is no clock time.`,
          todo: 'Write it as on the sheet: 0910, or 9:10.',
          field: key,
        },
      ];
}
