/** Photos on paper: those that can be printed as they are kept, three beside each other, each with what it is of. */
import type { Content, ContentStack } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import { type Photo, photosWords } from '../../domain/photos.ts';
import { type Attachment, attachmentNamed, isWhole } from '../ledger/attachments.ts';
import type { Asking } from '../questions/types.ts';
import { brief } from './dates.ts';
import { SIDE_PT, section, together } from './frame.ts';

type Column = ContentStack & { width: number };

const BESIDE = 3;
const GAP_PT = 12;
const WIDTH_PT = (612 - 2 * SIDE_PT - (BESIDE - 1) * GAP_PT) / BESIDE;
const HEIGHT_PT = 140;
/** More make the paper long and its file large; they are counted, and seen on the screen. */
const MOST = 12;

/** @param named photos in the order in which they are printed, each with a line of what it is of */
export function photosSection(asking: Asking, named: readonly { photo: Photo; says: string }[]): Content[] {
  if (named.length === 0) return [];
  const pictures = named.slice(0, MOST).map(({ photo, says }): Column => {
    const kept = attachmentNamed(asking.db, photo.sha256);
    const wrong = whyNot(kept);
    return {
      stack: [
        wrong !== null || !kept
          ? { text: wrong ?? '' }
          : {
              image: `data:${kept.mime};base64,${kept.bytes.toString('base64')}`,
              fit: [WIDTH_PT, HEIGHT_PT],
            },
        { text: brief(says, 120), font: 'Narrow', margin: [0, 2, 0, 0] },
      ],
      width: WIDTH_PT,
    };
  });
  const rows = Array.from({ length: Math.ceil(pictures.length / BESIDE) }, (_, i) =>
    pictures.slice(i * BESIDE, (i + 1) * BESIDE),
  );
  return [
    ...rows.map((columns, i): Content => {
      const row: Content = { columns, columnGap: GAP_PT, margin: [0, 0, 0, 8] };
      // A heading does not stay behind alone.
      return i === 0 ? together([section(capital(photosWords(named.length))), row]) : together([row]);
    }),
    ...(named.length > MOST
      ? [`${capital(photosWords(named.length - MOST))} more: open its history on the screen.`]
      : []),
  ];
}

/** Why a photo is told in words alone, or null where it can be printed. */
function whyNot(kept: Attachment | null): string | null {
  if (!kept) return 'This photo has not come to this file.';
  if (!isWhole(kept)) return 'This photo is damaged: its bytes are not what was kept.';
  const prints = kept.mime === 'image/jpeg' ? jpegPrints(kept.bytes) : pngPrints(kept);
  return prints ? null : 'This photo is of a kind that is not printed: open it on the screen.';
}

/**
 * A JPEG that a PDF takes as it is: its frame header (ITU-T T.81, B.2.2; from memory) is there, baseline or
 * progressive, eight bits, grey or color.
 */
function jpegPrints(bytes: Buffer): boolean {
  for (let at = 2; at + 9 < bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1] ?? 0;
    if (marker >= 0xc0 && marker <= 0xc2) {
      const [height, width] = [bytes.readUInt16BE(at + 5), bytes.readUInt16BE(at + 7)];
      return bytes[at + 4] === 8 && height > 0 && width > 0 && [1, 3].includes(bytes[at + 9] ?? 0);
    }
    at += 2 + bytes.readUInt16BE(at + 2);
  }
  return false;
}

/** A PNG that a PDF takes as it is (W3C PNG, 11.2.1): eight bits, grey or color without transparency, not interlaced. */
const pngPrints = ({ mime, bytes }: Attachment): boolean =>
  mime === 'image/png' &&
  bytes.length > 33 &&
  bytes.readUInt32BE(16) > 0 &&
  bytes.readUInt32BE(20) > 0 &&
  bytes[24] === 8 &&
  [0, 2].includes(bytes[25] ?? 9) &&
  bytes[28] === 0;
