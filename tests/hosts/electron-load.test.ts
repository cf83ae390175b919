/** Main and preload themselves, with Electron put in their place. Our own design, no source. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import type { Bridge } from '../../electron/desktop/bridge.ts';
import { fakeElectron, preventable, until } from './electronFake.ts';

const kept = vi.hoisted(() => ({
  exposed: new Map<string, unknown>(),
  invoked: [] as unknown[][],
  listeners: new Map<string, Set<(event: unknown, value: unknown) => void>>(),
  parts: {} as Record<string, unknown>,
}));

vi.mock('electron', () => {
  const part = (name: string) =>
    new Proxy(function part() {} as object, {
      get: (_, key) => (kept.parts[name] as Record<PropertyKey, unknown> | undefined)?.[key],
      construct: (_, given) => new (kept.parts[name] as new (...given: unknown[]) => object)(...given),
    });
  const names = [
    'app',
    'BrowserWindow',
    'dialog',
    'ipcMain',
    'Menu',
    'Notification',
    'protocol',
    'screen',
    'session',
    'shell',
  ];
  return {
    ...Object.fromEntries(names.map(name => [name, part(name)])),
    nativeTheme: { themeSource: 'system', shouldUseDarkColors: true },
    contextBridge: { exposeInMainWorld: (name: string, api: unknown) => kept.exposed.set(name, api) },
    ipcRenderer: {
      invoke: async (...given: unknown[]) => {
        kept.invoked.push(given);
        return { ok: true };
      },
      on(channel: string, listener: (event: unknown, value: unknown) => void) {
        kept.listeners.set(channel, (kept.listeners.get(channel) ?? new Set()).add(listener));
        return this;
      },
      removeListener(channel: string, listener: (event: unknown, value: unknown) => void) {
        kept.listeners.get(channel)?.delete(listener);
        return this;
      },
    },
  };
});

const folder = mkdtempSync(join(tmpdir(), 'baybook-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('the preload exposes one name with the methods that the screens call, and nothing else', async () => {
  await import('../../electron/desktop/preload.ts');
  expect([...kept.exposed.keys()]).toEqual(['baybook']);
  const bridge = kept.exposed.get('baybook') as Bridge;
  // The types say the same: what is exposed fits what the screens take for their host.
  const host: NonNullable<Window['baybook']> = bridge;
  expect(Object.keys(host).sort()).toEqual([
    'act',
    'ask',
    'host',
    'onChange',
    'onCommand',
    'onProgress',
    'paper',
  ]);
  expect(Object.values(host).every(method => typeof method === 'function')).toBe(true);

  await bridge.ask('department.summary', {});
  await bridge.act({ by: null, via: 'claimed', deeds: [] });
  await bridge.host({ command: 'files' });
  await bridge.paper({ paper: 'rule sheet', family: 'hose' });
  expect(kept.invoked.map(([channel]) => channel)).toEqual([
    'baybook:ask',
    'baybook:act',
    'baybook:host',
    'baybook:paper',
  ]);

  const heard: unknown[] = [];
  const alive: boolean[] = [];
  const stop = bridge.onChange(
    touched => heard.push(touched),
    is => alive.push(is),
  );
  for (const listener of kept.listeners.get('baybook:changes') ?? [])
    listener({ sender: 'every channel' }, ['due']);
  expect(heard).toEqual([['due']]);
  expect(alive).toEqual([true]);
  // What it gives back must not be a thing of Electron's.
  expect(stop()).toBeUndefined();
  expect(kept.listeners.get('baybook:changes')?.size).toBe(0);
});

it('main starts the host on the data folder, with the real store and the preload built beside it', async () => {
  const electron = fakeElectron();
  Object.assign(kept.parts, electron.parts);
  vi.stubEnv('BAYBOOK_DATA', folder);
  // The demo department takes seconds to make; an empty file is opened at once.
  const { writeFileSync } = await import('node:fs');
  writeFileSync(join(folder, 'mine.baybook'), '');
  await import('../../electron/desktop/main.ts');
  await until(() => electron.windows[0]?.loaded.length === 1);
  vi.unstubAllEnvs();
  expect(electron.log).toContain(`path userData ${join(folder, 'desktop')}`);
  expect(String(electron.windows[0]?.options.webPreferences?.preload)).toMatch(/preload\.cjs$/);
  expect(electron.windows[0]?.options.backgroundColor).toBe('#181510');
  const ask = electron.handlers.get('baybook:ask');
  const ours = { senderFrame: { url: 'app://baybook/', parent: null } };
  expect(await ask?.(ours, 'department.summary', {})).toMatchObject({ ok: true });
  electron.app.emit('will-quit', preventable());
  await until(() => electron.log.includes('exit 0'));
});
