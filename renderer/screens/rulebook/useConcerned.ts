import { useAsk } from '../../api/ask.ts';
import type { Entry } from './entries.ts';
import type { Concerned } from './forms.ts';
import { concernedWords } from './standing.tsx';

/** The nearest dates that are looked at for what another warning would show. */
const NEAREST = 500;

/** What a change of a requirement would meet; undefined while it is not known. */
export function useConcerned(entry: Entry | undefined, isChanging: boolean): Concerned | undefined {
  const requirement = entry?.requirement.id ?? '';
  const when = isChanging && entry?.adopted === true;
  const counts = useAsk('due.counts', { requirement }, { when }).data;
  const near = useAsk(
    'due.list',
    { requirement, state: ['due soon', 'current'], sort: 'due', limit: NEAREST },
    { when },
  ).data;
  if (entry && !entry.adopted)
    return {
      says: 'It is not adopted: nothing is judged by it yet.',
      dueSoon: 0,
      daysLeft: [],
      isAll: false,
    };
  if (!counts || !near) return undefined;
  return {
    says: concernedWords(counts),
    dueSoon: counts.byState['due soon'] ?? 0,
    daysLeft: near.rows.flatMap(r => r.daysLeft ?? []),
    isAll: near.total <= near.rows.length,
  };
}
