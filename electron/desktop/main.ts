/** Electron's main process. Only this file and the preload load Electron; the rest is given it. */
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import {
  app,
  BrowserWindow,
  dialog,
  ipcMain,
  Menu,
  Notification,
  nativeTheme,
  protocol,
  screen,
  session,
  shell,
} from 'electron';
import { openDepartment, runDemo } from '../../db/store/client.ts';
import { dataFolder } from '../folder.ts';
import { problemOf } from '../problem.ts';
import { startDesktop } from './desktop.ts';

// Not strict: Electron and the system add arguments of their own.
const { values } = parseArgs({ options: { on: { type: 'string' } }, strict: false });

startDesktop({
  electron: {
    app,
    BrowserWindow,
    dialog,
    ipcMain,
    Menu,
    Notification,
    nativeTheme,
    protocol,
    screen,
    session,
    shell,
  },
  store: { openDepartment, runDemo },
  folder: dataFolder(),
  pages: fileURLToPath(new URL('../renderer', import.meta.url)),
  preload: fileURLToPath(new URL('./preload.cjs', import.meta.url)),
  argv: process.argv.slice(1),
  ...(typeof values.on === 'string' ? { today: values.on } : {}),
}).catch(error => {
  dialog.showErrorBox('Baybook could not start', problemOf(error).message);
  app.exit(1);
});
