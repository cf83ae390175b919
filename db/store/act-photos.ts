/** The photos that an act brings: read before its transaction, named by its deeds, kept with them or not at all. */
import {
  PHOTO_LIMIT_bytes,
  PHOTOS_LIMIT,
  PHOTOS_LIMIT_bytes,
  type Photo,
  photosIn,
} from '../../domain/photos.ts';
import { type Refusal, refuse } from '../actions/types.ts';
import type { AttachmentSent } from '../api.ts';
import { type Attachment, attachmentOf, keepAttachment, photoKept } from '../ledger/attachments.ts';
import type { Db } from './statements.ts';

const MB = 1024 * 1024;

/**
 * The photos of an act, in the order in which they were sent, which is what `#0` and `#1` in its deeds mean.
 * @returns or what is wrong with one of them
 */
export function readPhotos(
  sent: readonly AttachmentSent[],
): { photos: Attachment[]; problem: null } | { photos: null; problem: Refusal } {
  const wrong = (code: string, message: string, todo: string) => ({
    photos: null,
    problem: refuse(code, message, todo, 'photos'),
  });
  if (sent.length > PHOTOS_LIMIT)
    return wrong(
      'too many photos',
      `These are ${sent.length} photos; an act brings ${PHOTOS_LIMIT} at most.`,
      'Add the others afterwards.',
    );
  const photos: Attachment[] = [];
  let all_bytes = 0;
  for (const { name, bytes: text } of sent) {
    const bytes = bytesOf(text);
    if (bytes === null) return wrong('bad photo', `${name} did not come whole.`, 'Choose it again.');
    if (bytes.length > PHOTO_LIMIT_bytes)
      return wrong(
        'photo too large',
        `${name} has ${megabytes(bytes.length)} MB; a photo has ${PHOTO_LIMIT_bytes / MB} MB at most.`,
        'Make it smaller first: 1600 pixels on the long side are enough to see a crack.',
      );
    all_bytes += bytes.length;
    const photo = attachmentOf(bytes);
    if (photo === null)
      return wrong(
        'not a photo',
        `${name} is no JPEG, PNG or WebP picture, whatever its name says.`,
        'Choose a picture of one of these kinds.',
      );
    photos.push(photo);
  }
  if (all_bytes > PHOTOS_LIMIT_bytes)
    return wrong(
      'photos too large',
      `The photos have ${megabytes(all_bytes)} MB together; an act brings ${PHOTOS_LIMIT_bytes / MB} MB at most.`,
      'Add some of them afterwards.',
    );
  return { photos, problem: null };
}

/** Base64 as it was made: what is cut off or has other letters in it is not guessed at. */
function bytesOf(text: string): Buffer | null {
  if (typeof text !== 'string' || text === '') return null;
  const bytes = Buffer.from(text, 'base64');
  return bytes.toString('base64') === text ? bytes : null;
}

/** Rounded up: what is over a limit is not shown as the limit. */
const megabytes = (bytes: number): number => Math.ceil((bytes * 10) / MB) / 10;

/**
 * The body with every photo of it named in full, wherever it lies: `#0` is the first the act brings, a SHA-256 alone
 * one that is here already.
 * @returns with what is wrong with names that nothing has
 */
export function withPhotosNamed(
  db: Db,
  body: Record<string, unknown>,
  photos: readonly Photo[],
): { body: Record<string, unknown>; refusals: Refusal[] } {
  const refusals: Refusal[] = [];
  const named = (name: unknown): unknown => {
    if (typeof name !== 'string') return name;
    const place = /^#(\d+)$/.exec(name)?.[1];
    const photo =
      place === undefined
        ? (photos.find(p => p.sha256 === name) ?? photoKept(db, name))
        : photos[Number(place)];
    if (photo) return nameOf(photo);
    refusals.push(
      refuse(
        'no such photo',
        place === undefined
          ? `No photo here is named ${brief(name)}.`
          : `The deed names photo ${name}; the act brings ${photos.length}.`,
        'Send its bytes with the deed that names it; #0 is the first that is sent.',
        'photos',
      ),
    );
    return name;
  };
  return { body: namedIn(body, named) as Record<string, unknown>, refusals };
}

function namedIn(value: unknown, named: (name: unknown) => unknown): unknown {
  if (value === null || typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map(v => namedIn(v, named));
  return Object.fromEntries(
    Object.entries(value).map(([key, v]) => [
      key,
      key === 'photos' && Array.isArray(v) ? v.map(named) : namedIn(v, named),
    ]),
  );
}

const brief = (name: string): string => (name.length > 12 ? `${name.slice(0, 8)}…` : name);

const nameOf = ({ sha256, mime, size_bytes }: Photo): Photo => ({ sha256, mime, size_bytes });

/** Refuse a deed that names a photo that is neither here nor comes with the act. */
export function photosNotHere(db: Db, body: unknown, photos: readonly Photo[]): Refusal[] {
  return photosIn(body).flatMap(named => {
    const here = photos.find(p => p.sha256 === named.sha256) ?? photoKept(db, named.sha256);
    if (here && here.mime === named.mime && here.size_bytes === named.size_bytes) return [];
    return [
      refuse(
        'no such photo',
        here
          ? `The photo ${brief(named.sha256)} is another one: ${here.mime}, ${here.size_bytes} bytes.`
          : `The photo ${brief(named.sha256)} is not in this file.`,
        'Send its bytes with the deed that names it.',
        'photos',
      ),
    ];
  });
}

/** Keep what the deeds have named. @returns what is wrong where they have not named all that came */
export function keepPhotos(
  db: Db,
  photos: readonly Attachment[],
  named: ReadonlySet<string>,
  now: number,
): Refusal | null {
  const left = photos.findIndex(p => !named.has(p.sha256));
  if (left >= 0)
    return refuse(
      'photo of nothing',
      `No deed names photo #${left}.`,
      'Name each photo in the deed it belongs to, or leave it out.',
      'photos',
    );
  for (const photo of photos) keepAttachment(db, photo, now);
  return null;
}
