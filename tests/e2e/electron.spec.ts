/**
 * The main flows in Electron itself, wherever its runtime and a display are. Where they are not, one test says so in
 * its title: what is not run must not look as if it had been.
 */
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { _electron, test as base, type ElectronApplication, expect, type Page } from '@playwright/test';
import { electronArguments, electronRuntime } from '../../scripts/bootstrap/desktop.mjs';
import { DEMO_FILE, TODAY } from './host.ts';
import { Keys } from './keys.ts';
import { filterToOverdueHose } from './overdue.ts';

const runtime = electronRuntime();
const hasDisplay = process.platform !== 'linux' || process.env.DISPLAY || process.env.WAYLAND_DISPLAY;
const why =
  runtime === null
    ? 'Electron’s runtime is not here'
    : hasDisplay
      ? null
      : 'there is no display for Electron';

interface Desktop {
  app: ElectronApplication;
  folder: string;
}

const test = base.extend<{ desktop: Desktop; screens: Page }>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads which fixtures are wanted from the pattern.
  desktop: async ({}, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'baybook-e2e-'));
    copyFileSync(DEMO_FILE, join(folder, 'demo.baybook'));
    const desktop = { app: await launch(folder), folder };
    await use(desktop);
    await desktop.app.close();
    rmSync(folder, { recursive: true, force: true });
  },
  screens: async ({ desktop }, use) => {
    await use(await desktop.app.firstWindow());
  },
});

function launch(folder: string): Promise<ElectronApplication> {
  return _electron.launch({
    ...(runtime === null ? {} : { executablePath: runtime }),
    args: electronArguments(['--on', TODAY]),
    env: { ...process.env, BAYBOOK_DATA: folder },
  });
}

test('the preload is built as one CommonJS file that loads Electron and nothing else', () => {
  const built = (name: string) =>
    readFileSync(fileURLToPath(new URL(`../../dist/host/${name}`, import.meta.url)), 'utf8');
  const preload = built('preload.cjs');
  // A sandboxed preload has no modules and a `require` for Electron alone (Electron: “Process Sandboxing”, from memory).
  expect([...preload.matchAll(/require\(([^)]*)\)/g)].map(m => m[1])).toEqual(['"electron"']);
  expect(preload).not.toMatch(/^(import|export) /m);
  expect(built('main.js')).toMatch(/from "electron"/);
});

if (why !== null) {
  test(`SKIPPED: ${why}`, () => {
    console.error(
      `\nSKIPPED: ${why}. Nothing was run inside Electron. node node_modules/electron/install.js\n`,
    );
    test.skip(true, `${why}; nothing was run inside Electron`);
  });
} else {
  test('the screens come from our own scheme, over the bridge, without Node', async ({ screens }) => {
    await expect(screens).toHaveURL(/^app:\/\/baybook\//);
    await expect(screens.getByRole('heading', { level: 1 })).toHaveText(/What is known against each unit/);
    const seen = await screens.evaluate(() => ({
      bridge: Object.keys(window.baybook ?? {}).sort(),
      node: ['require', 'process', 'module', 'Buffer', 'global'].filter(name => name in window),
    }));
    expect(seen.bridge).toEqual(['act', 'ask', 'host', 'onChange', 'onCommand', 'onProgress']);
    expect(seen.node).toEqual([]);
  });

  test('the overdue hose is found, tested and current by keys', async ({ screens }) => {
    const keys = new Keys(screens);
    const table = screens.getByRole('grid', { name: 'Coming due' });
    await keys.press('4');
    await expect(table.getByRole('row').nth(5)).toBeVisible();
    await filterToOverdueHose(keys, screens);
    await expect(table.getByText('31-107')).toBeVisible();
    await keys.press('Enter');
    await keys.press('r');
    await keys.type('okafor');
    await expect(screens.getByRole('option').first()).toBeVisible();
    await keys.press('Enter');
    await keys.press('Enter');
    await expect(
      screens.getByRole('complementary').getByText(/is current for its service test until 25 Nov 2027/),
    ).toBeVisible();
  });

  test('a page leads nowhere else and opens nothing', async ({ screens, desktop }) => {
    const opened = await screens.evaluate(() => window.open('https://example.org/') === null);
    expect(opened).toBe(true);
    await screens.evaluate(() => {
      location.href = 'https://example.org/';
    });
    await screens.waitForTimeout(300);
    await expect(screens).toHaveURL(/^app:\/\/baybook\//);
    expect(desktop.app.windows()).toHaveLength(1);
  });

  test('the menu leads to the screens', async ({ screens, desktop }) => {
    await expect(screens.getByRole('heading', { level: 1 })).toBeVisible();
    await desktop.app.evaluate(({ Menu }) => {
      const go = Menu.getApplicationMenu()?.items.find(item => item.label === '&Go');
      go?.submenu?.items.find(item => item.label === 'Import')?.click();
    });
    await expect(screens).toHaveURL(/#\/import$/);
  });

  test('a second start ends, and the first goes on', async ({ desktop, screens }) => {
    await expect(screens.getByRole('heading', { level: 1 })).toBeVisible();
    const second = launch(desktop.folder);
    await second.then(app => app.waitForEvent('close')).catch(() => {});
    expect(desktop.app.windows()).toHaveLength(1);
  });
}
