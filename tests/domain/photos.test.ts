import { describe, expect, it } from 'vitest';
import { photosIn, photosOf, photoTypeOf } from '../../domain/photos.ts';

const bytes = (text: string) => Uint8Array.from(text, c => c.charCodeAt(0));

describe('what kind of picture bytes are', () => {
  it.each([
    // JFIF 1.02, appendix A: SOI, APP0, its length, "JFIF". Exif 2.3, 4.5.2 has APP1 there.
    ['image/jpeg', '\xff\xd8\xff\xe0\x00\x10JFIF\x00'],
    ['image/jpeg', '\xff\xd8\xff\xe1\x00\x10Exif\x00'],
    // PNG (W3C), 5.2: 137 80 78 71 13 10 26 10.
    ['image/png', '\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR'],
    // RFC 9649, 2.4 and 2.5: "RIFF", size, "WEBP", then "VP8 ", "VP8L" or "VP8X".
    ['image/webp', 'RIFF\x1a\x00\x00\x00WEBPVP8 '],
    ['image/webp', 'RIFF\xff\xff\xff\x7fWEBPVP8L'],
    ['image/webp', 'RIFF\x00\x00\x00\x00WEBPVP8X'],
  ])('is %s by its first bytes', (mime, begins) => {
    expect(photoTypeOf(bytes(begins))).toBe(mime);
  });

  it.each([
    ['a GIF', 'GIF89a'],
    ['a drawing in words', '<svg xmlns="http://www.w3.org/2000/svg">'],
    ['a page', '<!doctype html><img src="x.jpg">'],
    ['a PDF', '%PDF-1.7'],
    ['what some phones write', '\x00\x00\x00\x18ftypheic'],
    ['a sound in RIFF', 'RIFF\x24\x00\x00\x00WAVEfmt '],
    ['a PNG whose line ends were changed on its way', '\x89PNG\n\x1a\n'],
    ['a beginning that was cut off', '\xff\xd8'],
    ['nothing', ''],
  ])('is none that is kept where it is %s', (_what, begins) => {
    expect(photoTypeOf(bytes(begins))).toBeNull();
  });
});

const photo = { sha256: 'ab'.repeat(32), mime: 'image/png', size_bytes: 12 };

describe('photos that a body names', () => {
  it('are found however deep they lie, and nothing else that has a hash', () => {
    const body = {
      marks: [{ exceptions: [{ photos: [photo] }, {}] }],
      // As a sheet that was brought in is named.
      file: 'hose.csv',
      sha256: '0'.repeat(64),
    };
    expect(photosIn(body)).toEqual([photo]);
    expect(photosOf(body)).toEqual([]);
    expect(photosOf({ photos: [photo] })).toEqual([photo]);
  });
});
