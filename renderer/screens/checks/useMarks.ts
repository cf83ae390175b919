/** The marks of a draft as they are entered here: shown at once, kept in the file a moment later, place by place. */
import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useRef } from 'react';
import type { AttachmentSent, Problem } from '../../../db/api.ts';
import type { CheckoffPage } from '../../../db/api-checks.ts';
import { blankMark } from '../../../domain/checkoffs/edit.ts';
import type { PlaceMark } from '../../../domain/checkoffs/marks.ts';
import { photosIn } from '../../../domain/photos.ts';
import { question } from '../../api/ask.ts';
import { type Piece, useKept } from '../../api/useKept.ts';
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
  const client = useQueryClient();
  /** Photos chosen here, by their hash, until a mark that names them is in the file. */
  const brought = useRef(new Map<string, AttachmentSent>());
  const photosOf = (pieces: readonly Piece<PlaceMark>[]) =>
    [...new Set(photosIn(pieces.map(p => p.value)).map(p => p.sha256))].filter(p => brought.current.has(p));
  const { of, change, keep, isWaiting, problem } = useKept<PlaceMark>({
    after_ms: KEEP_AFTER_ms,
    told(place) {
      const known = page.places.find(p => p.name === place);
      if (!known?.mark) return { value: blankMark(place, known?.at ?? null), fact: null };
      const { fact, byName: _by, ...mark } = known.mark;
      return { value: mark, fact };
    },
    write(pieces) {
      const attachments = photosOf(pieces).flatMap(p => brought.current.get(p) ?? []);
      return {
        request: {
          deeds: [
            {
              action: 'checkoff.mark',
              body: {
                checkoff: page.id,
                marks: pieces.map(p => p.value),
                saw: Object.fromEntries(pieces.map(p => [p.name, p.saw])),
              },
            },
          ],
          ...(attachments.length > 0 ? { attachments } : {}),
        },
        facts: ([entry = '']) => pieces.map((_, i) => `${entry}:${i.toString(36)}`),
      };
    },
    onWritten(pieces) {
      for (const photo of photosOf(pieces)) brought.current.delete(photo);
    },
    todo: 'Press w and choose your name; the PIN is asked when you sign.',
  });

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
  return {
    of,
    change,
    bring,
    keep,
    problem,
    state: problem ? 'refused' : isWaiting ? 'waiting' : 'kept',
  };
}
