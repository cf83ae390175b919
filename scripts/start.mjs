// `npm start`: from a fresh copy to the program's window, or to an address where no window can be shown.

import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { BROWSER_ADVICE, browserOrInstall } from './bootstrap/browser.mjs';
import { buildStale } from './bootstrap/build.mjs';
import { didNotStart, electronArguments, electronOrFetch } from './bootstrap/desktop.mjs';
import { ROOT } from './bootstrap/files.mjs';
import { handOver, installDependencies } from './bootstrap/install.mjs';
import { main, run, say } from './bootstrap/run.mjs';

main(async () => {
  await installDependencies();
  const code = await handOver(process.argv[1]);
  if (code !== null) return code;
  const electron = wantsWindow() ? await electronOrFetch() : null;
  if (electron !== null) {
    await buildStale(['renderer', 'host']);
    const started = Date.now();
    const ended = await run(electron, electronArguments(process.argv.slice(2)));
    if (!didNotStart(ended, Date.now() - started)) return ended;
    say(`Electron ended at once (${ended}). The screens open in a browser window instead.`);
  }
  if (wantsWindow()) {
    const browser = await browserOrInstall();
    if (browser === null) say(`No window can be opened. ${BROWSER_ADVICE}`);
    else process.env.CHROME_PATH = browser;
  }
  await buildStale(['renderer', 'host']);
  await import(pathToFileURL(join(ROOT, 'dist', 'host', 'loopback.js')).href);
});

function wantsWindow() {
  const display = process.platform !== 'linux' || process.env.DISPLAY || process.env.WAYLAND_DISPLAY;
  return Boolean(display) && !process.argv.includes('--no-window') && !process.argv.includes('--help');
}
