/** The lists of an open incident as they are entered here: shown at once, kept in the file a moment later, rig by rig. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { Problem } from '../../../db/api.ts';
import type { IncidentPage } from '../../../db/api-incidents.ts';
import { useAct } from '../../api/act.ts';
import { problemsOf } from '../../api/problem.ts';
import { useActing } from '../../parts/acting/acting.tsx';

/** So long after the last number of a rig its list is kept: a scanner is not done after one. */
const KEEP_AFTER_ms = 1200;

export interface Read {
  number: string;
  at: string | null;
  used: boolean;
}

export interface Reads {
  /** The list of a rig: entered here, or kept already and not settled. */
  of(rig: string): readonly Read[];
  change(rig: string, change: (reads: readonly Read[]) => readonly Read[]): void;
  /** Keep what is not kept yet. @returns whether everything is */
  keep(): Promise<boolean>;
  /** Whether what stands here of a rig is in the file: only then is it told what its numbers are. */
  isKept(rig: string): boolean;
  problem: Problem | null;
}

export function useReads(page: IncidentPage): Reads {
  const act = useAct();
  const { member } = useActing();
  const [own, setOwn] = useState<ReadonlyMap<string, readonly Read[]>>(new Map());
  const [problem, setProblem] = useState<Problem | null>(null);
  const latest = useRef(own);
  const unkept = useRef(new Set<string>());
  /** What was written from here over what: until the page tells of it, that is what was seen. */
  const written = useRef(new Map<string, { over: string | null; as: string }>());
  const running = useRef<Promise<boolean> | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const rigs = useRef(page.rigs);
  rigs.current = page.rigs;
  const by = useRef(member);
  by.current = member;

  const known = useCallback((rig: string) => rigs.current.find(r => r.rig === rig), []);
  const of = useCallback(
    (rig: string): readonly Read[] => {
      const here = latest.current.get(rig);
      if (here) return here;
      const told = known(rig);
      // What was settled is not read again: a new list begins with nothing.
      return !told || told.settled ? [] : told.reads.map(({ number, at, used }) => ({ number, at, used }));
    },
    [known],
  );

  const send = useCallback(async (): Promise<boolean> => {
    while (unkept.current.size > 0) {
      const acting = by.current;
      if (!acting) {
        setProblem(NOBODY);
        return false;
      }
      const ids = [...unkept.current];
      unkept.current.clear();
      const told = (rig: string) => known(rig)?.list?.fact ?? null;
      const seen = ids.map(rig => {
        const mine = written.current.get(rig);
        return mine && mine.over === told(rig) ? mine.as : told(rig);
      });
      const answer = await act({
        by: acting.id,
        deeds: ids.map((rig, i) => ({
          action: 'incident.found',
          body: { incident: page.id, rig, reads: of(rig), saw: seen[i] ?? null },
        })),
      });
      if (!answer.ok) {
        for (const rig of ids) unkept.current.add(rig);
        setProblem(problemsOf(answer)[0] ?? answer.error);
        return false;
      }
      ids.forEach((rig, i) => {
        written.current.set(rig, { over: seen[i] ?? null, as: `${answer.value.entries[i]}:0` });
        // The page has been asked again and tells it now.
        if (!unkept.current.has(rig)) {
          const left = new Map(latest.current);
          left.delete(rig);
          latest.current = left;
        }
      });
      setProblem(null);
    }
    return true;
  }, [act, of, known, page.id]);

  const keep = useCallback(async (): Promise<boolean> => {
    clearTimeout(timer.current);
    // One at a time: the second must have seen what the first has written.
    while (running.current) await running.current;
    running.current = send();
    const done = await running.current;
    running.current = null;
    setOwn(latest.current);
    return done;
  }, [send]);

  const change = useCallback(
    (rig: string, to: (reads: readonly Read[]) => readonly Read[]) => {
      latest.current = new Map(latest.current).set(rig, to(of(rig)));
      unkept.current.add(rig);
      setOwn(latest.current);
      clearTimeout(timer.current);
      timer.current = setTimeout(() => void keep(), KEEP_AFTER_ms);
    },
    [of, keep],
  );

  // Whoever leaves the screen leaves nothing behind.
  useEffect(
    () => () => {
      clearTimeout(timer.current);
      if (unkept.current.size > 0) void send();
    },
    [send],
  );
  return { of, change, keep, isKept: rig => !latest.current.has(rig), problem };
}

const NOBODY: Problem = {
  code: 'nobody acts',
  message: 'Nobody acts yet, so nothing is kept.',
  todo: 'Press w and choose your name; the PIN is asked when you settle.',
  field: null,
};
