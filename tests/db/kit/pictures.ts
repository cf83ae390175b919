/** Tiny pictures made here, so that no binary file lies in the repository. */
import { createHash } from 'node:crypto';
import { crc32, deflateSync } from 'node:zlib';
import type { AttachmentSent } from '../../../db/api.ts';

/**
 * A PNG of one grey square, another for each number. As the PNG specification has it (W3C, 5.2, 5.3 and 11.2): the
 * signature, then chunks of length, type, data and CRC.
 */
export function png(n: number, side = 4): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(side, 0);
  head.writeUInt32BE(side, 4);
  // Eight bits of grey, no interlacing.
  head.set([8, 0, 0, 0, 0], 8);
  const rows = Buffer.alloc(side * (side + 1), n % 256);
  for (let row = 0; row < side; row++) rows[row * (side + 1)] = 0;
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', head),
    // Told apart by more than their grey.
    chunk('tEXt', Buffer.from(`Comment\0${n}`, 'latin1')),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  framed.set(body, 4);
  framed.writeUInt32BE(crc32(body), body.length + 4);
  return framed;
}

/** A picture as an act brings it. */
export const sent = (bytes: Buffer, name = 'cut.png'): AttachmentSent => ({
  name,
  mime: 'image/png',
  bytes: bytes.toString('base64'),
});

export const sha256Of = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

/** A JPEG of eight by six red dots, as a browser's canvas writes one. */
export const JPEG = Buffer.from(
  [
    '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6j',
    'q62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSk',
    'pKSkpKSkpKT/wAARCAAGAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAT/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QA',
    'FQEBAQAAAAAAAAAAAAAAAAAAAwX/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCMAKi//9k=',
  ].join(''),
  'base64',
);
