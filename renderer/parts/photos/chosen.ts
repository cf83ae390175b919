/** Photos on their way from a file, the clipboard or a camera into a deed: made small here, before they are sent. */
import type { AttachmentSent } from '../../../db/api.ts';
import { PHOTO_TYPES, type Photo, type PhotoType } from '../../../domain/photos.ts';

export interface ChosenPhoto {
  /** What its file is called. */
  name: string;
  /** How the entry will name it. */
  photo: Photo;
  attachment: AttachmentSent;
}

/** The long side of what is kept, in pixels, and how much of its detail: a crack is still seen. Ours, no source. */
const LONG_SIDE_px = 1600;
const QUALITY = 0.85;

/**
 * A picture drawn anew at most 1600 pixels long, as JPEG. What a camera has written beside the picture, where and with
 * which phone it was taken, is thereby gone; which way up it was held is obeyed.
 * @throws Error in words where the browser cannot read it
 */
export async function chosenPhoto(file: File): Promise<ChosenPhoto> {
  const name = file.name === '' ? 'Pasted picture' : file.name;
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => {
    throw new Error(`${name} cannot be read as a picture here.`);
  });
  const shrunk = Math.min(1, LONG_SIDE_px / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * shrunk));
  canvas.height = Math.max(1, Math.round(picture.height * shrunk));
  const context = canvas.getContext('2d');
  if (!context) throw new Error(`${name} cannot be drawn here.`);
  // What is see-through would come out black.
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const blob = await new Promise<Blob | null>(resolve => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  if (!blob) throw new Error(`${name} cannot be drawn here.`);
  return named(name, await blob.arrayBuffer());
}

async function named(name: string, bytes: ArrayBuffer): Promise<ChosenPhoto> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  const sha256 = [...digest].map(byte => byte.toString(16).padStart(2, '0')).join('');
  return {
    name,
    photo: { sha256, mime: 'image/jpeg', size_bytes: bytes.byteLength },
    attachment: { name, mime: 'image/jpeg', bytes: base64(new Uint8Array(bytes)) },
  };
}

function base64(bytes: Uint8Array): string {
  let text = '';
  // In pieces: a call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 0x8000)
    text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

/** The address under which the page shows a picture. */
export const pictureUrl = ({ mime, bytes }: { mime: string; bytes: string }): string =>
  PHOTO_TYPES.includes(mime as PhotoType) ? `data:${mime};base64,${bytes}` : '';

/** The pictures among what was dropped or pasted. */
export const picturesIn = (data: DataTransfer | null): File[] =>
  [...(data?.files ?? [])].filter(file => file.type.startsWith('image/'));
