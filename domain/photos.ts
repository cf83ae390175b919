/**
 * Photos that deeds name. An entry holds a photo's name alone, the SHA-256 of its bytes; the bytes lie beside the
 * ledger, so that what is hashed stays small and a photo that two deeds name is kept once.
 */

export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const;
export type PhotoType = (typeof PHOTO_TYPES)[number];

/** A photo as an entry names it. */
export interface Photo {
  /** SHA-256 of its bytes, lower-case hex. */
  sha256: string;
  mime: PhotoType;
  size_bytes: number;
}

/** The most that one photo may be, one act may bring, and all photos of an act together. Ours, no source. */
export const PHOTO_LIMIT_bytes = 8 * 1024 * 1024;
export const PHOTOS_LIMIT = 20;
export const PHOTOS_LIMIT_bytes = 40 * 1024 * 1024;

/** A name of bytes, as a deed may give it alone. */
export const SHA256 = /^[0-9a-f]{64}$/;

/**
 * By which first bytes a file is which kind of picture; null: any byte.
 * Source: WHATWG MIME Sniffing Standard, "Matching an image type pattern", its table of byte patterns and masks (read
 * as programs that follow the table restate it, not in the standard itself).
 */
const BEGINS_WITH: Readonly<Record<PhotoType, readonly (number | null)[]>> = {
  'image/jpeg': [0xff, 0xd8, 0xff],
  'image/png': [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
  // RIFF, four bytes of length, WEBPVP
  'image/webp': [0x52, 0x49, 0x46, 0x46, null, null, null, null, 0x57, 0x45, 0x42, 0x50, 0x56, 0x50],
};

/** What kind of picture bytes are, by themselves and not by what their file is called; null where by none. */
export function photoTypeOf(bytes: Uint8Array): PhotoType | null {
  return PHOTO_TYPES.find(type => BEGINS_WITH[type].every((b, i) => b === null || bytes[i] === b)) ?? null;
}

/** The photos that what a fact or deed says names by itself; none where it has none. */
export function photosOf(values: Readonly<Record<string, unknown>>): readonly Photo[] {
  return Array.isArray(values.photos) ? values.photos.filter(isPhoto) : [];
}

/** Every photo named anywhere in a body, in the order in which it is read. */
export function photosIn(value: unknown): Photo[] {
  if (value === null || typeof value !== 'object') return [];
  if (isPhoto(value)) return [value];
  return Object.values(value).flatMap(photosIn);
}

/** `1 photo`, `3 photos`. */
export const photosWords = (count: number): string => (count === 1 ? '1 photo' : `${count} photos`);

function isPhoto(value: unknown): value is Photo {
  if (value === null || typeof value !== 'object') return false;
  const { sha256, mime, size_bytes } = value as Partial<Photo>;
  return (
    typeof sha256 === 'string' &&
    SHA256.test(sha256) &&
    typeof mime === 'string' &&
    Number.isSafeInteger(size_bytes)
  );
}
