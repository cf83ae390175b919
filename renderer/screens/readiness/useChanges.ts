import { useState } from 'react';
import type { DepartmentSummary } from '../../../db/api.ts';
import type { ChangeLine } from '../../../db/api-desk.ts';
import { useAsk } from '../../api/ask.ts';
import { useActing } from '../../parts/acting/acting.tsx';
import { firstLook, lastLook, markLooked } from './lastLook.ts';

/** As many deeds as are listed; more are only counted. */
const LISTED = 1000;

export interface Changes {
  /** The instant of the last look of whoever acts, on this computer; null: this is the first. */
  since: string | null;
  who: string | null;
  total: number | undefined;
  lines: readonly ChangeLine[] | undefined;
  mark(): void;
}

/** What was done since whoever acts looked last. */
export function useChanges(summary: DepartmentSummary | null | undefined): Changes {
  const { member, members } = useActing();
  const [, setMarked] = useState<string | null>(null);
  const department = summary?.id ?? '';
  const isKnown = summary != null && members !== undefined;
  const since = isKnown ? lastLook(department, member?.id ?? null) : null;
  const asked = useAsk(
    'changes.since',
    { since: since ?? firstLook(summary?.today ?? '1970-01-01'), limit: LISTED },
    { when: isKnown },
  );
  return {
    since,
    who: member?.name ?? null,
    total: asked.data?.total,
    lines: asked.data?.lines,
    mark() {
      if (!asked.data) return;
      const newest = asked.data.lines.reduce<string | undefined>(
        (last, l) => (last === undefined || l.recordedAt > last ? l.recordedAt : last),
        undefined,
      );
      setMarked(markLooked(department, member?.id ?? null, newest, Date.now()));
    },
  };
}
