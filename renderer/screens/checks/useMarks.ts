/** The marks of a draft as they are entered here: shown at once, kept in the file a moment later, place by place. */
import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { AttachmentSent, Problem } from '../../../db/api.ts';
import type { CheckoffPage } from '../../../db/api-checks.ts';
import { blankMark } from '../../../domain/checkoffs/edit.ts';
import type { PlaceMark } from '../../../domain/checkoffs/marks.ts';
import { photosIn } from '../../../domain/photos.ts';
import { useAct } from '../../api/act.ts';
import { question } from '../../api/ask.ts';
import { problemsOf } from '../../api/problem.ts';
import { useActing } from '../../parts/acting/acting.tsx';
import type { ChosenPhoto } from '../../parts/photos/chosen.ts';

/** So long after the last key of a place its mark is kept. */
const KEEP_AFTER_ms = 350;

export interface Marks {
  /** What stands for a place, entered here or kept already. */
  of(place: string): PlaceMark;
  change(place: string, change: (mark: PlaceMark) => PlaceMark): void;
  /** Photos that a mark is about to name: they go into the file with it. */
  bring(chosen: readonly ChosenPhoto[]): void;
  /** Keep what is not kept yet. @returns whether everything is */
  keep(): Promise<boolean>;
  state: 'kept' | 'waiting' | 'refused';
  problem: Problem | null;
}

export function useMarks(page: CheckoffPage): Marks {
  const act = useAct();
  const client = useQueryClient();
  const { member } = useActing();
  const [own, setOwn] = useState<ReadonlyMap<string, PlaceMark>>(new Map());
  const [problem, setProblem] = useState<Problem | null>(null);
  const latest = useRef(own);
  /** Places whose mark here is not in the file yet. */
  const unkept = useRef(new Set<string>());
  /** What was written from here over what: until the page tells of it, that is what was seen. */
  const written = useRef(new Map<string, { over: string | null; as: string }>());
  /** Photos chosen here, by their hash, until a mark that names them is in the file. */
  const brought = useRef(new Map<string, AttachmentSent>());
  const running = useRef<Promise<boolean> | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const places = useRef(page.places);
  places.current = page.places;
  const by = useRef(member);
  by.current = member;

  const known = useCallback((place: string) => places.current.find(p => p.name === place), []);
  const of = useCallback(
    (place: string): PlaceMark => {
      const here = latest.current.get(place);
      if (here) return here;
      const told = known(place);
      if (!told?.mark) return blankMark(place, told?.at ?? null);
      const { fact: _fact, byName: _by, ...mark } = told.mark;
      return mark;
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
      const names = [...unkept.current];
      unkept.current.clear();
      const marks = names.map(of);
      const told = (name: string) => known(name)?.mark?.fact ?? null;
      const seen = Object.fromEntries(
        names.map(name => {
          const mine = written.current.get(name);
          return [name, mine && mine.over === told(name) ? mine.as : told(name)];
        }),
      );
      const photos = [...new Set(photosIn(marks).map(p => p.sha256))].filter(p => brought.current.has(p));
      const attachments = photos.flatMap(p => brought.current.get(p) ?? []);
      const answer = await act({
        by: acting.id,
        deeds: [{ action: 'checkoff.mark', body: { checkoff: page.id, marks, saw: seen } }],
        ...(attachments.length > 0 ? { attachments } : {}),
      });
      if (!answer.ok) {
        for (const name of names) unkept.current.add(name);
        setProblem(problemsOf(answer)[0] ?? answer.error);
        return false;
      }
      for (const photo of photos) brought.current.delete(photo);
      const [entry = ''] = answer.value.entries;
      names.forEach((name, i) => {
        written.current.set(name, { over: seen[name] ?? null, as: `${entry}:${i.toString(36)}` });
        // The page has been asked again and tells it now, with what others have marked.
        if (!unkept.current.has(name)) latest.current = without(latest.current, name);
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
    (place: string, to: (mark: PlaceMark) => PlaceMark) => {
      latest.current = new Map(latest.current).set(place, to(of(place)));
      unkept.current.add(place);
      setOwn(latest.current);
      clearTimeout(timer.current);
      timer.current = setTimeout(() => void keep(), KEEP_AFTER_ms);
    },
    [of, keep],
  );

  const bring = useCallback(
    (chosen: readonly ChosenPhoto[]) => {
      for (const { photo, attachment } of chosen) {
        brought.current.set(photo.sha256, attachment);
        // It is shown at once, before the file has it.
        client.setQueryData(question('photo.get', { sha256: photo.sha256 }).queryKey, {
          mime: photo.mime,
          size_bytes: photo.size_bytes,
          bytes: attachment.bytes,
        });
      }
    },
    [client],
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
    bring,
    keep,
    problem,
    state: problem ? 'refused' : unkept.current.size > 0 || running.current ? 'waiting' : 'kept',
  };
}

function without(marks: ReadonlyMap<string, PlaceMark>, name: string): ReadonlyMap<string, PlaceMark> {
  const left = new Map(marks);
  left.delete(name);
  return left;
}

const NOBODY: Problem = {
  code: 'nobody acts',
  message: 'Nobody acts yet, so nothing is kept.',
  todo: 'Press w and choose your name; the PIN is asked when you sign.',
  field: null,
};
