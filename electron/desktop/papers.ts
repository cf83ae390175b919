/**
 * Papers on the desktop: made by the store, kept in a folder of their own beside the departments, and shown in
 * whatever the system opens a PDF with. The page says only which paper: neither its bytes nor where it goes.
 */
import { copyFileSync, existsSync, writeFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import type { BrowserWindow, Dialog, Shell } from 'electron';
import type { Answer, Questions } from '../../db/api.ts';
import type { PaperShown } from '../../db/api-desk.ts';
import type { Desk } from '../desk.ts';
import { ensureFolder } from '../folder.ts';

export interface Papers {
  /** @returns what was made and how it is shown, or the store's refusal */
  show(paper: unknown): Promise<Answer<PaperShown>>;
}

export interface PapersOptions {
  desk: Desk;
  shell: Pick<Shell, 'openPath'>;
  dialog: Pick<Dialog, 'showSaveDialog'>;
  window: BrowserWindow;
  /** The data folder. */
  folder: string;
  documents(): string;
}

export function createPapers({ desk, shell, dialog, window, folder, documents }: PapersOptions): Papers {
  return {
    async show(paper) {
      const answer = await desk.ask('paper.make', paper as Questions['paper.make']['takes']);
      if (!answer.ok) return answer;
      const { name, pages, base64 } = answer.value;
      const kept = join(folder, 'papers');
      ensureFolder(kept);
      const path = freePath(kept, name);
      // Never over a paper that was printed before: somebody may be reading it.
      writeFileSync(path, Buffer.from(base64, 'base64'), { flag: 'wx', mode: 0o600 });
      const told = { name: basename(path), pages };
      if ((await shell.openPath(path)) === '') return { ok: true, value: { ...told, shown: 'opened' } };
      // Nothing on this system opens a PDF: where shall it go, then?
      const { canceled, filePath } = await dialog.showSaveDialog(window, {
        title: 'Save the paper',
        defaultPath: join(documents(), told.name),
        filters: [{ name: 'PDF', extensions: ['pdf'] }],
      });
      if (canceled || filePath === '') return { ok: true, value: { ...told, shown: 'kept' } };
      copyFileSync(path, filePath);
      return { ok: true, value: { ...told, name: basename(filePath), shown: 'saved' } };
    },
  };
}

/** A path of that name that no file has: `Rule sheet.pdf`, then `Rule sheet (2).pdf`. The name is the store's, and a name only. */
function freePath(folder: string, name: string): string {
  const ending = extname(name) === '.pdf' ? '' : '.pdf';
  const plain = basename(name.replaceAll('\\', '/')) + ending;
  const stem = plain.slice(0, -'.pdf'.length);
  for (let n = 1; ; n++) {
    const path = join(folder, n === 1 ? plain : `${stem} (${n}).pdf`);
    if (!existsSync(path)) return path;
  }
}
