/** The app window: how it is opened, and when the host ends after it. Our own design, no source. */
import { chmodSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { findBrowser, hasDisplay, windowArguments } from '../../electron/loopback/browser.ts';
import { unused } from '../../electron/loopback/life.ts';
import { scratchFolder } from './scratch.ts';

const WINDOW = { browser: 'chromium', address: 'http://127.0.0.1:1/enter?token=t', profile: '/data/window' };

describe('the window', () => {
  it('has a profile of its own and no address bar', () => {
    expect(windowArguments(WINDOW, 1000)).toEqual([
      '--app=http://127.0.0.1:1/enter?token=t',
      '--user-data-dir=/data/window',
      '--no-first-run',
      '--no-default-browser-check',
    ]);
  });

  it('gives up the sandbox only for root, which cannot have one', () => {
    expect(windowArguments(WINDOW, 0)).toEqual([
      ...windowArguments(WINDOW, 1000),
      '--no-sandbox',
      '--test-type',
    ]);
    expect(windowArguments(WINDOW, 1000)).not.toContain('--no-sandbox');
  });

  it('is shown by the browser CHROME_PATH names, else by the first one on the path', () => {
    const folder = scratchFolder();
    const other = scratchFolder();
    expect(findBrowser({ PATH: folder }, 'linux')).toBeNull();
    writeFileSync(join(folder, 'google-chrome'), '');
    expect(findBrowser({ PATH: folder }, 'linux')).toBeNull();
    chmodSync(join(folder, 'google-chrome'), 0o755);
    expect(findBrowser({ PATH: `${other}:${folder}` }, 'linux')).toBe(join(folder, 'google-chrome'));
    writeFileSync(join(other, 'chromium'), '', { mode: 0o755 });
    expect(findBrowser({ PATH: `${folder}:${other}` }, 'linux')).toBe(join(other, 'chromium'));
    expect(findBrowser({ PATH: folder, CHROME_PATH: '/my/browser' }, 'linux')).toBe('/my/browser');
  });

  it('needs a display on Linux', () => {
    expect(hasDisplay({}, 'linux')).toBe(false);
    expect(hasDisplay({ DISPLAY: '' }, 'linux')).toBe(false);
    expect(hasDisplay({ DISPLAY: ':0' }, 'linux')).toBe(true);
    expect(hasDisplay({ WAYLAND_DISPLAY: 'wayland-0' }, 'linux')).toBe(true);
    expect(hasDisplay({}, 'darwin')).toBe(true);
  });
});

describe('the host ends', () => {
  afterEach(() => {
    vi.useRealTimers();
  });

  function life() {
    vi.useFakeTimers();
    let pages = 0;
    let ended = false;
    let close = () => {};
    let counted = () => {};
    unused({
      pagesOpen: () => pages,
      onPagesOpen: listener => {
        counted = listener;
      },
      windowClosed: new Promise(resolve => {
        close = resolve;
      }),
      grace_ms: 3_000,
      firstGrace_ms: 20_000,
    }).then(() => {
      ended = true;
    });
    return {
      ended: () => ended,
      pages(count: number) {
        pages = count;
        counted();
      },
      async closeWindow() {
        close();
        await vi.advanceTimersByTimeAsync(0);
      },
      pass: (ms: number) => vi.advanceTimersByTimeAsync(ms),
    };
  }

  it('some seconds after its window was closed', async () => {
    const host = life();
    host.pages(1);
    host.pages(0);
    await host.closeWindow();
    await host.pass(2_999);
    expect(host.ended()).toBe(false);
    await host.pass(1);
    expect(host.ended()).toBe(true);
  });

  it('not while its window is open, even with no page connected', async () => {
    const host = life();
    host.pages(1);
    host.pages(0);
    await host.pass(3_600_000);
    expect(host.ended()).toBe(false);
  });

  it('not while another page is open, nor when a page comes back in time', async () => {
    const host = life();
    host.pages(2);
    await host.closeWindow();
    host.pages(1);
    await host.pass(60_000);
    host.pages(0);
    await host.pass(2_000);
    host.pages(1);
    await host.pass(60_000);
    expect(host.ended()).toBe(false);
    host.pages(0);
    await host.pass(3_000);
    expect(host.ended()).toBe(true);
  });

  it('not before a page had time to load in a browser that was already running', async () => {
    const host = life();
    await host.closeWindow();
    await host.pass(19_000);
    expect(host.ended()).toBe(false);
    host.pages(1);
    await host.pass(60_000);
    expect(host.ended()).toBe(false);
    host.pages(0);
    await host.pass(3_000);
    expect(host.ended()).toBe(true);
  });

  it('where no page ever came', async () => {
    const host = life();
    await host.closeWindow();
    await host.pass(20_000);
    expect(host.ended()).toBe(true);
  });
});
