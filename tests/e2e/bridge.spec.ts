/**
 * The screens behind a bridge, as the desktop window gives them one: the same methods, played here in the browser, so
 * that what a menu asks and what is dropped is tried in a real page.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { HostCommand } from '../../db/api.ts';
import { expect, test } from './host.ts';

const SHEET = readFileSync(fileURLToPath(new URL('../fixtures/sheets/hose.csv', import.meta.url)), 'utf8');

declare global {
  interface Window {
    command?: (command: HostCommand) => void;
    httpUsed?: string[];
  }
}

test('the screens speak over the bridge alone, and do what a menu asks', async ({ page }) => {
  await page.addInitScript(() => {
    const fetched = window.fetch.bind(window);
    window.httpUsed = [];
    window.fetch = (...given) => {
      window.httpUsed?.push(String(given[0]));
      return fetched(...given);
    };
    const post = async (path: string, body: unknown) =>
      (
        await fetched(path, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(body),
        })
      ).json();
    window.baybook = {
      act: request => post('/api/act', { request }),
      ask: (question, args) => post('/api/ask', { question, args }),
      host: request => post('/api/host', request),
      onChange: (_heard, connected) => {
        connected?.(true);
        return () => {};
      },
      onCommand: heard => {
        window.command = heard;
        return () => {
          delete window.command;
        };
      },
    };
  });
  await page.reload();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  const obey = (command: HostCommand) => page.evaluate(c => window.command?.(c), command);

  for (const [dialog, title] of [
    ['keys', /keys/i],
    ['help', 'Help'],
    ['display', 'Display'],
    ['files', 'Department files'],
    ['who', 'Who acts?'],
  ] as const) {
    await obey({ do: 'dialog', dialog });
    await expect(page.getByRole('dialog', { name: title })).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toHaveCount(0);
  }
  await obey({ do: 'screen', screen: 'import' });
  await expect(page).toHaveURL(/#\/import$/);
  for (const screen of ['rigs', 'rules', 'department', 'readiness', 'due'] as const) {
    await obey({ do: 'screen', screen });
    await expect(page).toHaveURL(new RegExp(`#/${screen}`));
  }
  await obey({ do: 'search' });
  await expect(page.getByRole('combobox', { name: /search/i })).toBeFocused();
  const scheme = () => page.evaluate(() => document.documentElement.dataset.mantineColorScheme);
  for (const wanted of ['dark', 'light'] as const) {
    await obey({ do: 'light', scheme: wanted });
    await expect.poll(scheme).toBe(wanted);
  }
  await page.evaluate(text => {
    window.command?.({ do: 'sheet', name: 'hose.csv', bytes: new TextEncoder().encode(text) });
  }, SHEET);
  await expect(page.getByText('hose.csv', { exact: true })).toBeVisible();
  await expect(page.getByRole('button', { name: /^Accept [\d,]+ rows/ })).toBeVisible();
  expect(await page.evaluate(() => window.httpUsed)).toEqual([]);
});

test('a sheet dropped on any screen is shown where sheets are read; another file is not taken', async ({
  page,
}) => {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await page.keyboard.press('4');
  await expect(page.getByRole('grid', { name: 'Coming due' }).getByRole('row').nth(5)).toBeVisible();
  const drop = (on: string, name: string, text: string) =>
    page.evaluate(
      given => {
        const dataTransfer = new DataTransfer();
        dataTransfer.items.add(new File([given.text], given.name));
        const event = new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true });
        document.querySelector(given.on)?.dispatchEvent(event);
      },
      { on, name, text },
    );
  await drop('main', 'letter.txt', 'no sheet');
  await expect(page).toHaveURL(/#\/due/);
  await drop('main', 'hose.csv', SHEET);
  await expect(page).toHaveURL(/#\/import$/);
  await expect(page.getByRole('button', { name: /^Accept [\d,]+ rows/ })).toBeVisible();
  for (const [on, name] of [
    ['main h1', 'hose 2.csv'],
    ['nav', 'hose 3.csv'],
  ] as const) {
    await drop(on, name, SHEET);
    await expect(page.getByText(name, { exact: true })).toBeVisible();
  }
});
