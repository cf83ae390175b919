/** One plain notice of what is owed: at the start, and once on each day after that. */
import type { DueCounts } from '../../db/api.ts';
import type { Desk } from '../desk.ts';

export const WITHIN_DAYS = 7;
const LOOK_MS = 15 * 60_000;

export interface Notice {
  title: string;
  body: string;
}

/**
 * What is owed now or falls due within the week.
 * @param counts of the duties due within `WITHIN_DAYS` or already past
 * @returns null where there is none
 */
export function noticeOf({ on, byState }: DueCounts): Notice | null {
  const { overdue = 0, 'due soon': soon = 0, current = 0 } = byState;
  const said: [count: number, words: string][] = [
    [overdue, 'overdue'],
    // A duty with a short lead of its own is not “due soon” on every screen a week ahead, but it falls due all the same.
    [soon + current, `due within ${WITHIN_DAYS} days`],
    [byState['retest owed'] ?? 0, 'to be tested again'],
    [byState['life ended'] ?? 0, 'past the end of life'],
    [byState['never done'] ?? 0, 'never done'],
  ];
  const words = said
    .filter(([count]) => count > 0)
    .map(([count, what]) => `${count.toLocaleString('en-US')} ${what}`);
  return words.length === 0 ? null : { title: `Coming due on ${on}`, body: `${words.join(', ')}.` };
}

export interface Telling {
  desk: Desk;
  show(notice: Notice): void;
  /** The computer's own day, `YYYY-MM-DD`: when it turns, the notice is given again. */
  day(): string;
}

/**
 * Tells now, and when the day has turned. The clock is looked at often rather than waited for, because a computer
 * that slept through midnight would wait too long.
 * @returns stops it
 */
export function tellDaily({ desk, show, day }: Telling): () => void {
  let told: string | null = null;
  const look = async () => {
    const today = day();
    if (today === told) return;
    told = today;
    const answer = await desk.ask('due.counts', { within: WITHIN_DAYS });
    // Nothing open, or nothing readable, is for the screens to say.
    const notice = answer.ok ? noticeOf(answer.value) : null;
    if (notice) show(notice);
  };
  void look();
  const timer = setInterval(() => void look(), LOOK_MS);
  timer.unref?.();
  return () => clearInterval(timer);
}
