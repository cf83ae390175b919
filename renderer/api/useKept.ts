/**
 * What is entered piece by piece: shown at once, kept in the file a moment later, and never over what somebody else has
 * written since it was looked at.
 */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { ActRequest, Problem } from '../../db/api.ts';
import { useActing } from '../parts/acting/acting.tsx';
import { useAct } from './act.ts';
import { problemsOf } from './problem.ts';

/** A piece that is about to be written: its name, what it is now, and the fact that was seen under it. */
export interface Piece<V> {
  name: string;
  value: V;
  saw: string | null;
}

interface Keeping<V> {
  /** So long after the last change of a piece it is kept. */
  after_ms: number;
  /** What the page tells of a piece, and by which fact. */
  told(name: string): { value: V; fact: string | null };
  /** How pieces are written, and by which fact each is told once they are. */
  write(pieces: readonly Piece<V>[]): {
    request: Pick<ActRequest, 'deeds' | 'attachments'>;
    facts(entries: readonly string[]): readonly string[];
  };
  /** Told once pieces are written. */
  onWritten?(pieces: readonly Piece<V>[]): void;
  /** What to do where nobody acts yet. */
  todo: string;
}

export interface Kept<V> {
  /** A piece as it was entered here, or as the page tells it. */
  of(name: string): V;
  change(name: string, change: (value: V) => V): void;
  /** Keep what is not kept yet. @returns whether everything is */
  keep(): Promise<boolean>;
  /** Whether what stands here of a piece is in the file. */
  isKept(name: string): boolean;
  /** Whether anything is still on its way. */
  isWaiting: boolean;
  problem: Problem | null;
}

export function useKept<V>(keeping: Keeping<V>): Kept<V> {
  const act = useAct();
  const { member } = useActing();
  const [own, setOwn] = useState<ReadonlyMap<string, V>>(new Map());
  const [problem, setProblem] = useState<Problem | null>(null);
  const latest = useRef(own);
  /** Pieces that are not in the file yet as they are here. */
  const unkept = useRef(new Set<string>());
  /** What was written from here over what: until the page tells of it, that is what was seen. */
  const written = useRef(new Map<string, { over: string | null; as: string }>());
  const running = useRef<Promise<boolean> | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const now = useRef({ keeping, member });
  now.current = { keeping, member };

  const of = useCallback(
    (name: string): V => latest.current.get(name) ?? now.current.keeping.told(name).value,
    [],
  );

  const send = useCallback(async (): Promise<boolean> => {
    while (unkept.current.size > 0) {
      const { keeping: how, member: acting } = now.current;
      if (!acting) {
        setProblem({
          code: 'nobody acts',
          message: 'Nobody acts yet, so nothing is kept.',
          todo: how.todo,
          field: null,
        });
        return false;
      }
      const names = [...unkept.current];
      unkept.current.clear();
      const pieces = names.map((name): Piece<V> => {
        const { fact } = how.told(name);
        const mine = written.current.get(name);
        return { name, value: of(name), saw: mine && mine.over === fact ? mine.as : fact };
      });
      const { request, facts } = how.write(pieces);
      const answer = await act({ by: acting.id, ...request });
      if (!answer.ok) {
        for (const name of names) unkept.current.add(name);
        setProblem(problemsOf(answer)[0] ?? answer.error);
        return false;
      }
      how.onWritten?.(pieces);
      const as = facts(answer.value.entries);
      pieces.forEach(({ name, saw }, i) => {
        written.current.set(name, { over: saw, as: as[i] ?? '' });
        // The page has been asked again and tells it now, with what others have written.
        if (!unkept.current.has(name))
          latest.current = new Map([...latest.current].filter(([other]) => other !== name));
      });
      setProblem(null);
    }
    return true;
  }, [act, of]);

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
    (name: string, to: (value: V) => V) => {
      latest.current = new Map(latest.current).set(name, to(of(name)));
      unkept.current.add(name);
      setOwn(latest.current);
      clearTimeout(timer.current);
      timer.current = setTimeout(() => void keep(), now.current.keeping.after_ms);
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
  return {
    of,
    change,
    keep,
    isKept: name => !latest.current.has(name),
    isWaiting: unkept.current.size > 0 || running.current !== null,
    problem,
  };
}
