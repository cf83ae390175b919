/** Clock times as people write them and as a deed takes them. */

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
