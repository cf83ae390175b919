/** A paper, made by the store and shown as this host can: in the system's viewer, in a window of the browser, or saved. */
import type { Answer, Questions } from '../../../db/api.ts';
import type { PaperShown } from '../../../db/api-desk.ts';
import { host } from '../../api/transport.ts';
import { saveBytes } from '../saveFile.ts';

export async function showPaper(paper: Questions['paper.make']['takes']): Promise<Answer<PaperShown>> {
  const { paper: ownWay, ask } = host();
  if (ownWay) return ownWay(paper);
  const answer = await ask('paper.make', paper);
  if (!answer.ok) return answer;
  const { name, pages, base64 } = answer.value;
  const file = new File([Uint8Array.from(atob(base64), c => c.charCodeAt(0))], name, {
    type: 'application/pdf',
  });
  if (openInWindow(file)) return { ok: true, value: { name, pages, shown: 'opened' } };
  saveBytes(name, file);
  return { ok: true, value: { name, pages, shown: 'saved' } };
}

/** The window reads its paper whenever it is turned to; it is let go with the screen that made it. */
const KEPT_MS = 30 * 60_000;

/** @returns false where the browser opens no window, as it may long after the key was pressed */
function openInWindow(file: File): boolean {
  const url = URL.createObjectURL(file);
  if (window.open(url, '_blank') === null) {
    URL.revokeObjectURL(url);
    return false;
  }
  setTimeout(() => URL.revokeObjectURL(url), KEPT_MS);
  return true;
}
