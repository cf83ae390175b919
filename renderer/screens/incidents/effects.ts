/** What settling does, in sentences: the same before it is signed and afterwards. */
import type { Effects } from '../../../domain/incident/settlement.ts';

const NAMED_AT_MOST = 12;

const listed = (words: readonly string[]): string => {
  const more = words.length - NAMED_AT_MOST;
  return (
    words.slice(0, NAMED_AT_MOST).join(', ') + (more > 0 ? ` and ${more.toLocaleString('en-US')} more` : '')
  );
};

/** @param nameOf rigs and places by id */
export function effectWords(does: Effects, nameOf: (id: string) => string): string[] {
  const moved = does.lies.filter(l => l.moved);
  const own = does.lies.length - moved.length;
  const again = does.lies.filter(l => l.again);
  const owing = does.used.filter(u => u.owes !== null);
  const free = does.used.length - owing.length;
  const say = (words: string, things: readonly string[]) =>
    things.length === 0 ? [] : [`${words}: ${listed(things)}.`];
  return [
    ...(own > 0 ? [`Read where they belong: ${own.toLocaleString('en-US')}.`] : []),
    ...say(
      'Lie from now on where they were read',
      moved.map(l => `${l.number} on ${nameOf(l.place)}`),
    ),
    ...say(
      'Found again, and tagged out until somebody entitled returns them',
      again.map(l => l.number),
    ),
    ...say(
      'Missing',
      does.missing.map(
        m =>
          `${m.number} of ${nameOf(m.rig)}${m.where ? `, searched for: ${m.where}` : ''}${m.reported ? ' (reported before)' : ''}`,
      ),
    ),
    ...say(
      'Found nowhere and left as they are',
      does.left.map(l => `${l.number} of ${nameOf(l.rig)}`),
    ),
    ...say(
      'Not ours',
      does.foreign.map(f => `${f.number} on ${nameOf(f.rig)}${f.whose ? `, ${f.whose}` : ''}`),
    ),
    ...say(
      'In doubt, and nothing is done on them',
      does.undecided.map(u => `${u.number} on ${nameOf(u.rig)}`),
    ),
    ...say(
      'Used, and owed before they count as ready',
      owing.map(u => `${u.number} ${u.owes}`),
    ),
    ...(free > 0 ? [`Used, and nothing adopted asks for a look: ${free.toLocaleString('en-US')}.`] : []),
  ];
}
