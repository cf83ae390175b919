/**
 * The captain's check-off by keys alone, timed as a person would be: the keys that were pressed, at a quarter of a
 * second and a bit each (0.28 s for an average typist: Card, Moran and Newell, The Keystroke-Level Model, 1980; from
 * memory), and what the program itself took. Looking at the rig is not in it.
 */
import type { Page } from '@playwright/test';
import type { Deed } from '../../db/api.ts';
import { expect, type Host, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const SECONDS_A_KEY = 0.28;

const units = (page: Page) => page.getByRole('grid', { name: 'Units and their check-offs' });
const places = (page: Page) => page.getByRole('grid', { name: 'Places to go through' });

async function must(page: Page, host: Host, deeds: Deed[]): Promise<void> {
  const by = (await host.ask(page, 'members.list', {})).find(m => m.name === 'M. Quist')?.id;
  const sent = await page.request.post(`${host.origin}/api/act`, { data: { request: { by, deeds } } });
  const answer = (await sent.json()) as { ok: boolean };
  expect(answer, JSON.stringify(answer)).toMatchObject({ ok: true });
}

/** From anywhere: the check-offs, and the unit by its name under the cursor. */
async function toUnit(keys: Keys, page: Page, name: string): Promise<void> {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('3');
  const rows = units(page).getByRole('row');
  await expect(rows.nth(1)).toBeFocused();
  const at = (await rows.allTextContents()).findIndex(row => row.startsWith(name));
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
}

/** Begins a check-off of the unit that has the cursor. */
async function begin(keys: Keys, page: Page, who: string): Promise<void> {
  await keys.press('Enter');
  await expect(page.getByRole('dialog')).toBeVisible();
  await choose(keys, page, who);
  await keys.press('Enter');
  await expect(places(page).getByRole('row').nth(1)).toBeFocused();
}

async function choose(keys: Keys, page: Page, who: string): Promise<void> {
  await page.getByRole('combobox', { name: 'Signed by' }).focus();
  await keys.type(who);
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
}

/** Says of every place what is so: all present, and each of its saws, radios and packs operated or read. */
async function goThrough(keys: Keys, page: Page): Promise<void> {
  const dialog = page.getByRole('dialog');
  for (let turn = 0; turn < 200; turn++) {
    const open = await page.evaluate(() => {
      const focused = document.activeElement?.closest('[data-pane]');
      const found = document.activeElement?.lastElementChild?.textContent ?? '';
      return { pane: focused?.getAttribute('data-pane'), found };
    });
    if (open.pane === 'places') {
      if (open.found.includes('✓')) return;
      await keys.press('a');
    } else {
      await keys.press('o');
      if (open.found.includes('to read')) {
        await expect(dialog).toBeVisible();
        // Of a kit the number is read off its seal; everything else is a pressure.
        const seal = /(\d+) was put on/.exec((await dialog.textContent()) ?? '');
        await keys.type(seal?.[1] ?? '96');
        await keys.press('Enter');
        await expect(dialog).toHaveCount(0);
      }
    }
    // What a key leads to is drawn before the next is pressed.
    await page.evaluate(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))));
  }
  throw new Error('The check-off never came to its end.');
}

const lineOf = (page: Page, what: string) => page.getByRole('row', { name: new RegExp(what) }).first();

async function sign(keys: Keys, page: Page): Promise<void> {
  await keys.press('g');
  await expect(page.getByRole('dialog', { name: /^Sign the check-off/ })).toBeVisible();
  await keys.press('Enter');
  await expect(units(page)).toBeVisible();
}

function report(name: string, keys: Keys, began: number): number {
  const took_s = (Date.now() - began) / 1000;
  const person_s = keys.pressed * SECONDS_A_KEY;
  const said = `${name}: ${keys.pressed} keys, ${person_s.toFixed(0)} s of them at ${SECONDS_A_KEY} s each; the script took ${took_s.toFixed(0)} s`;
  test.info().annotations.push({ type: 'keyboard work', description: said });
  console.log(said);
  return person_s;
}

test.describe('with the demo department', () => {
  test('an engine of 250 lines with three exceptions is checked and signed in under three minutes of keys', async ({
    page,
    host,
  }) => {
    const before = await host.ask(page, 'carry.page', { of: 'Engine 31' });
    await must(page, host, [
      {
        action: 'carry.set',
        body: {
          of: before.of,
          lines: Array.from({ length: 250 - before.lines.length }, (_, i) => ({
            what: `Small part ${i + 1}`,
            qty: (i % 6) + 1,
            min: 1,
            place: before.places[i % before.places.length]?.name ?? 'L1',
            verify: 'count',
          })),
        },
      },
    ]);
    const keys = new Keys(page);
    const began = Date.now();
    await toUnit(keys, page, 'Engine 31');
    await begin(keys, page, 'calder');
    await goThrough(keys, page);

    // Three exceptions, each from the box: one short, one low, one damaged with a word.
    const { lines } = await host.ask(page, 'carry.page', { of: 'Engine 31' });
    const code = (what: string) => lines.find(l => l.what === what)?.code ?? '';
    const box = page.getByLabel('By code or number');
    for (const word of [
      `${code('Small part 6')} s2`,
      `${code('Foam concentrate 5 gal')} l 12`,
      `${code('Small part 11')} d bent`,
    ]) {
      await keys.press('c');
      await expect(box).toBeFocused();
      await keys.type(word);
      await keys.press('Enter');
      await expect(box).toHaveValue('');
      await keys.press('Escape');
    }
    await expect(page.getByText('3 exceptions')).toBeVisible();
    await keys.press('v');
    await expect(page.getByRole('button', { name: /^L1: .*gone through$/ })).toBeVisible();
    await look(page, 'check-off-drawn');
    await keys.press('v');
    await look(page, 'check-off-of-250-lines');
    await sign(keys, page);
    expect(report('250 lines, three exceptions', keys, began)).toBeLessThan(180);

    const { rows } = await host.ask(page, 'checkoffs.list', { of: before.of });
    expect(rows[0]).toMatchObject({ state: 'signed', signedBy: 'N. Calder', lines: 250, exceptions: 3 });
    const defects = await host.ask(page, 'defects.list', { of: before.of, open: true });
    expect(defects.rows.map(d => [d.what, d.kind, d.short, d.note])).toEqual(
      expect.arrayContaining([
        ['Small part 6', 'short', 2, null],
        ['Foam concentrate 5 gal', 'low', null, null],
        ['Small part 11', 'damaged', null, 'bent'],
      ]),
    );
  });

  test('a paper sheet is entered by its codes in under two minutes of keys', async ({ page, host }) => {
    const { of, lines } = await host.ask(page, 'carry.page', { of: 'Engine 33' });
    const keys = new Keys(page);
    const began = Date.now();
    await toUnit(keys, page, 'Engine 33');
    await begin(keys, page, 'whitlow');
    const code = (what: RegExp) => lines.find(l => what.test(l.what))?.code ?? '';
    const box = page.getByLabel('By code or number');
    for (const word of [`${code(/Rubber mallet/)} m`, `${code(/Door wedge/)} s2`, `${code(/Absorbent/)} l`]) {
      await keys.press('c');
      await expect(box).toBeFocused();
      await keys.type(word);
      await keys.press('Enter');
      await expect(box).toHaveValue('');
      await keys.press('Escape');
    }
    await keys.press('r');
    await expect(page.getByText('Everything that is not named otherwise is present.')).toBeVisible();
    await places(page)
      .getByRole('row', { name: /to enter/ })
      .first()
      .focus();
    await goThrough(keys, page);
    await sign(keys, page);
    expect(report('a paper sheet of an engine', keys, began)).toBeLessThan(120);
    const { rows } = await host.ask(page, 'checkoffs.list', { of });
    // The three of the sheet, and the seal of its medical bag that is known to be broken.
    expect(rows[0]).toMatchObject({ state: 'signed', exceptions: 4 });
  });

  test('a saw that will not start is swapped for a spare and tagged out with the signature', async ({
    page,
    host,
  }) => {
    const { lines, of } = await host.ask(page, 'carry.page', { of: 'Engine 34' });
    const saw = lines.find(l => l.what === 'Chain saw');
    const number = saw?.here[0]?.number ?? '';
    const keys = new Keys(page);
    await toUnit(keys, page, 'Engine 34');
    await begin(keys, page, 'calder');
    await goThrough(keys, page);
    await places(page)
      .getByRole('row', { name: new RegExp(`\\b${saw?.place}\\b`) })
      .first()
      .focus();
    await keys.press('Enter');
    await lineOf(page, 'Chain saw').focus();
    await keys.press('d');
    const dialog = page.getByRole('dialog');
    await expect(dialog.getByRole('textbox', { name: 'Note' })).toBeFocused();
    await keys.type('will not start');
    await keys.press('Tab');
    await expect(dialog.getByRole('radio', { name: 'Tag it out' })).toBeFocused();
    await keys.press('ArrowRight');
    // The spare to take first is offered as it is.
    await expect(dialog.getByRole('combobox', { name: 'Put in its place' })).not.toHaveValue('');
    await keys.press('Enter');
    await expect(dialog).toHaveCount(0);
    await sign(keys, page);
    const [out] = await host.ask(page, 'item.find', { number });
    expect(out?.condition).toBe('tagged out');
    const now = await host.ask(page, 'carry.page', { of });
    const line = now.lines.find(l => l.what === 'Chain saw');
    expect(line?.here).toHaveLength(2);
    expect(line?.serving).toBe(1);
  });

  test('a draft waits as it was left, and another officer countersigns what was signed', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await toUnit(keys, page, 'Battalion 3');
    await begin(keys, page, 'whitlow');
    const kept = page.waitForResponse(r => r.url().endsWith('/api/act'));
    await keys.press('a');
    await kept;
    await page.reload();
    await expect(places(page)).toBeVisible();
    await keys.press('3');
    await expect(units(page).getByText(/draft since/)).toBeVisible();
    await toUnit(keys, page, 'Battalion 3');
    await keys.press('Enter');
    await expect(places(page)).toBeVisible();
    await goThrough(keys, page);
    await sign(keys, page);
    await toUnit(keys, page, 'Battalion 3');
    // Until the list has been asked again the row tells of the draft, and `t` leads to the one before it.
    await expect(units(page).getByRole('row', { name: /^Battalion 3/ })).not.toContainText('draft since');
    await keys.press('t');
    await expect(page.getByText(/signed 25 Nov 2026 by B. Whitlow/)).toBeVisible();
    await keys.press('g');
    await choose(keys, page, 'okafor');
    await keys.press('Enter');
    await expect(units(page)).toBeVisible();
    const { rows } = await host.ask(page, 'checkoffs.list', {});
    expect(rows[0]).toMatchObject({ state: 'countersigned', countersignedBy: 'J. Okafor' });
  });

  test('a driver who finds drops of oil falling takes the rig out with the signature', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await keys.press('2');
    const rigs = page.getByRole('grid', { name: 'Rigs' });
    await expect(rigs.getByRole('row').nth(1)).toBeFocused();
    await rigs.getByRole('row', { name: /^Engine 33/ }).focus();
    await keys.press('Enter');
    await expect(page.getByRole('grid', { name: /^Places of/ })).toBeFocused();
    await keys.press('g');
    const walk = page.getByRole('grid', { name: 'Walk-round' });
    await expect(walk.getByRole('row').nth(1)).toBeFocused();
    await keys.press('Enter');
    const dialog = page.getByRole('dialog');
    await expect(dialog.getByRole('radio', { name: 'no leak' })).toBeFocused();
    for (let i = 0; i < 3; i++) await keys.press('ArrowRight');
    await keys.press('Enter');
    await expect(dialog).toHaveCount(0);
    await keys.press('r');
    await expect(page.getByRole('complementary', { name: 'What it comes to' })).toContainText(
      'Engine oil leak of class 3, drops that fall: out of service from class 3 on',
    );
    await look(page, 'walk-round');
    await keys.press('g');
    await expect(dialog).toContainText('is taken out of service with this signature');
    await choose(keys, page, 'haskell');
    await keys.press('Enter');
    await expect(dialog).toHaveCount(0);
    expect((await host.ask(page, 'rig.page', { rig: 'Engine 33' })).condition).toBe('out of service');
  });

  test('what is broken stands in its chain with what comes next', async ({ page }) => {
    const keys = new Keys(page);
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await keys.press('5');
    const chains = page.getByRole('grid', { name: /^Open chains/ });
    await expect(chains.getByRole('row').nth(1)).toBeFocused();
    await expect(page.getByRole('complementary', { name: /^The chain of/ })).toContainText('Next');
    await look(page, 'tag-outs');
  });

  test('the list of units, and the list of one', async ({ page }) => {
    const keys = new Keys(page);
    await toUnit(keys, page, 'Engine 31');
    await look(page, 'check-offs');
    await keys.press('l');
    await expect(page.getByRole('grid', { name: 'Carry list of Engine 31' })).toBeVisible();
    await look(page, 'carry-list');
  });
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });

  test('a unit without a list is given one, line by line', async ({ page }) => {
    for (const [label, value] of [
      ['Name of the department', 'Larkspur Valley Fire District'],
      ['Your member number', '7'],
      ['Your name', 'R. Alder'],
    ] as const)
      await page.getByLabel(label).fill(value);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await page.keyboard.press('3');
    await expect(page.getByText(/There are no units yet/)).toBeVisible();
    await look(page, 'check-offs-empty');
    await page.keyboard.press('5');
    await expect(page.getByText(/Nothing is out of service/)).toBeVisible();
  });
});
