/** The lists of an open incident as they are entered here: shown at once, kept in the file a moment later, rig by rig. */
import type { IncidentPage } from '../../../db/api-incidents.ts';
import { type Kept, useKept } from '../../api/useKept.ts';

/** So long after the last number of a rig its list is kept: a scanner is not done after one. */
const KEEP_AFTER_ms = 1200;

export interface Read {
  number: string;
  at: string | null;
  used: boolean;
}

/** Lists by the id of their rig; of what is kept alone it is told what its numbers are. */
export type Reads = Kept<readonly Read[]>;

export function useReads(page: IncidentPage): Reads {
  return useKept<readonly Read[]>({
    after_ms: KEEP_AFTER_ms,
    told(rig) {
      const told = page.rigs.find(r => r.rig === rig);
      // What was settled is not read again: a new list begins with nothing.
      const reads = !told || told.settled ? [] : told.reads;
      return {
        value: reads.map(({ number, at, used }) => ({ number, at, used })),
        fact: told?.list?.fact ?? null,
      };
    },
    write: pieces => ({
      request: {
        deeds: pieces.map(({ name, value, saw }) => ({
          action: 'incident.found',
          body: { incident: page.id, rig: name, reads: value, saw },
        })),
      },
      facts: entries => entries.map(entry => `${entry}:0`),
    }),
    todo: 'Press w and choose your name; the PIN is asked when you settle.',
  });
}
