/** Rigs by keys alone: what rides where, moved, ridden, arranged; then pictures for review, and axe. */
import type { Page } from '@playwright/test';
import { expect, type Host, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const rigs = (page: Page) => page.getByRole('grid', { name: 'Rigs' });
const places = (page: Page) => page.getByRole('grid', { name: /^Places of/ });
const drawing = (page: Page) => page.getByRole('region', { name: 'Drawing' });

async function rigOf(page: Page, host: Host, name: string) {
  return host.ask(page, 'rig.page', { rig: name });
}

/** What the odometer of a rig stands at, in miles. */
async function milesOf(page: Page, host: Host, name: string): Promise<number> {
  const { meters } = await rigOf(page, host, name);
  const stands = meters.find(m => m.meter === 'miles')?.reading;
  if (stands === undefined || stands === null) throw new Error(`${name} has no miles`);
  return stands;
}

/** From anywhere: the list of rigs, the rig by its name, its page. */
async function openRig(keys: Keys, page: Page, name: string): Promise<void> {
  await keys.press('2');
  const names = rigs(page).getByRole('row');
  await expect(names.nth(1)).toBeFocused();
  const at = (await names.allTextContents()).findIndex(row => row.startsWith(name));
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
  await keys.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: new RegExp(name) })).toBeVisible();
  await expect(places(page)).toBeFocused();
}

/** Signs the form that is open, by whom its words find, and sends it. */
async function sign(keys: Keys, page: Page, who: string): Promise<void> {
  const signed = page.getByRole('combobox', { name: 'Signed by' });
  await signed.focus();
  await keys.type(who);
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await keys.press('Enter');
  await expect(page.getByRole('dialog')).toHaveCount(0);
}

test.beforeEach(async ({ page }) => {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
});

test.describe('with the demo department', () => {
  test('a new saw is received in the place that is open', async ({ page, host }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 31');
    await keys.press('n');
    await expect(drawing(page).getByRole('button', { name: /^crosslay 2/, pressed: true })).toBeVisible();
    await keys.press('v');
    const dialog = page.getByRole('dialog', { name: 'Receive a thing' });
    await expect(dialog.getByRole('combobox', { name: 'What it is' })).toBeFocused();
    await keys.type('power tool');
    await expect(page.getByRole('option').first()).toBeVisible();
    await keys.press('Enter');
    await keys.press('Tab');
    await keys.type('SAW-99');
    await dialog.getByRole('combobox', { name: 'Kind' }).focus();
    await keys.type('chain');
    await expect(page.getByRole('option').first()).toBeVisible();
    await keys.press('Enter');
    await sign(keys, page, 'quist');
    const [saw] = await host.ask(page, 'item.find', { number: 'SAW-99' });
    expect(saw).toMatchObject({ family: 'power-tool', what: 'Chain saw', place: 'Engine 31, crosslay 2' });
  });

  test('the list of rigs leads to a rig, its places and the thing that is wrong', async ({ page }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 31');
    await expect(page.getByText(/\d+ with something wrong/)).toBeVisible();
    // 31-107 lies in crosslay 2, which the drawing marks.
    await expect(drawing(page).getByRole('button', { name: 'crosslay 2: 4 things, overdue' })).toBeVisible();
    await keys.press('n');
    await expect(drawing(page).getByRole('button', { name: /^crosslay 2/, pressed: true })).toBeVisible();
    await keys.press('ArrowDown');
    await keys.press('ArrowDown');
    await keys.press('Enter');
    await expect(page.getByRole('heading', { name: 'Every date' })).toBeVisible();
    await expect(page.getByRole('main')).toContainText('31-107');
    await keys.press('Escape');
    await expect(places(page)).toBeVisible();
    await look(page, 'rig');
  });

  test('two things picked are moved together, in one act', async ({ page, host }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 31');
    await keys.press('ArrowDown');
    await keys.press(' ');
    await keys.press(' ');
    await keys.press('m');
    await expect(page.getByRole('dialog', { name: 'Move 2 things' })).toBeVisible();
    await keys.type('station 31 hose rack');
    await expect(page.getByRole('option', { name: /Station 31, hose rack/ })).toBeVisible();
    await keys.press('Enter');
    await sign(keys, page, 'whit');
    const rig = await rigOf(page, host, 'Engine 31');
    expect(rig.places.find(p => p.name === 'crosslay 1')?.items).toHaveLength(2);
    await expect(page.getByText(/\d+ things in 20 places/)).toBeVisible();
  });

  test('a length that is overdue is swapped with a ready spare: both are moved in one act', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 31');
    await keys.press('n');
    await keys.press('ArrowDown');
    await keys.press('ArrowDown');
    await keys.press('x');
    const spares = page.getByRole('grid', { name: 'What it can be swapped with' });
    await expect(spares.getByRole('row').nth(1)).toContainText('ready spare');
    await look(page, 'rig-swap');
    // Another kind, and one off a first line rig, say what speaks against them.
    await keys.type('supply engine 32');
    await expect(spares.getByRole('row').nth(1)).toContainText('not the same kind, Engine 32 would be short');
    await keys.press('Escape');
    await expect(places(page)).toBeFocused();

    const before = (await host.ask(page, 'ledger.heads', {})).entries;
    await keys.press('x');
    await expect(spares.getByRole('row').nth(1)).toBeVisible();
    await keys.press('ArrowDown');
    await keys.press('ArrowDown');
    const number = (await spares.getByRole('row').nth(2).textContent())?.slice(0, 6) ?? '';
    await keys.press('Enter');
    await expect(page.getByRole('dialog', { name: `Swap 31-107 with ${number}` })).toBeVisible();
    await look(page, 'rig-swap-form');
    await sign(keys, page, 'whit');
    await expect(places(page).getByText(number)).toBeVisible();
    await expect(places(page)).toBeFocused();
    const rig = await rigOf(page, host, 'Engine 31');
    const crosslay = rig.places.find(p => p.name === 'crosslay 2')?.items.map(i => i.number);
    expect(crosslay).toContain(number);
    expect(crosslay).not.toContain('31-107');
    const [swapped] = await host.ask(page, 'item.find', { number: '31-107' });
    expect(swapped?.place).toBe('Station 31, hose rack');
    expect((await host.ask(page, 'ledger.heads', {})).entries).toBe(before + 2);
  });

  test('what was left on the reserve rig is on its open list until it is brought home', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Reserve R-2');
    const left = page.getByRole('grid', { name: /^Not returned/ });
    await expect(left.getByRole('row').nth(1)).toContainText('Engine 34');
    await look(page, 'rig-not-returned');
    const before = await rigOf(page, host, 'Reserve R-2');
    expect(before.leftHere.map(l => [l.home, l.here, l.condition])).toEqual([
      ['Engine 34', 'Reserve R-2', 'missing'],
    ]);
    // The imager was reported missing: brought home, it is found.
    await keys.press('h');
    await expect(page.getByRole('dialog', { name: 'TIC-4 back to Engine 34' })).toBeVisible();
    await sign(keys, page, 'whit');
    await expect(left).toHaveCount(0);
    const home = await rigOf(page, host, 'Engine 34');
    expect(home.loose.map(i => [i.number, i.condition])).toEqual([['TIC-4', 'tagged out']]);
  });

  test('what goes along to the reserve rig and is left there is listed when the crew is back', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    const ride = async (rig: string) => {
      await openRig(keys, page, rig);
      await keys.press('y');
      await expect(page.getByRole('dialog')).toBeVisible();
      await keys.type('engine 31');
      await keys.press('Enter');
      await sign(keys, page, 'whit');
    };
    await ride('Reserve R-2');
    await expect(page.getByText('Engine 31, a reserve rig')).toBeVisible();
    await openRig(keys, page, 'Engine 31');
    await keys.press('ArrowDown');
    await keys.press('m');
    await expect(page.getByRole('dialog', { name: 'Move: 31-101' })).toBeVisible();
    await keys.type('reserve r-2 l1');
    await expect(page.getByRole('option', { name: /Reserve R-2, L1/ })).toBeVisible();
    await keys.press('Enter');
    await sign(keys, page, 'whit');
    await ride('Engine 31');
    const left = page.getByRole('grid', { name: /^Not returned/ });
    await expect(left.getByRole('row').nth(1)).toContainText('31-101');
    const { leftElsewhere } = await rigOf(page, host, 'Engine 31');
    expect(leftElsewhere.map(l => [l.number, l.here])).toEqual([['31-101', 'Reserve R-2']]);
    await keys.press('h');
    await sign(keys, page, 'whit');
    await expect(left).toHaveCount(0);
  });

  test('what is due on a rig is one key away, and its sheet is printed whole', async ({ page }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 31');
    const opened = page.context().waitForEvent('page');
    await keys.press('p');
    await (await opened).close();
    await expect(
      page.getByText('Opened to print: Rig sheet, Engine 31, 2026-11-25.pdf, 4 pages'),
    ).toBeVisible();
    await page.bringToFront();
    await keys.press('Escape');
    await expect(rigs(page).getByRole('row').nth(1)).toBeFocused();
    await keys.press('c');
    await expect(page.getByRole('grid', { name: 'Coming due' })).toBeVisible();
    await expect(page.getByRole('combobox', { name: 'Unit: Battalion 3' })).toBeVisible();
  });

  test('a crew rides the reserve rig and comes back; the reserve rig is taken out and returned', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Reserve R-2');
    await keys.press('y');
    await keys.type('engine 31');
    await keys.press('Enter');
    await sign(keys, page, 'whit');
    await expect(page.getByText('Engine 31, a reserve rig')).toBeVisible();
    const ready = await host.ask(page, 'readiness.now', { unit: 'Engine 31' });
    expect(ready.units[0]?.rig).toMatchObject({ name: 'Reserve R-2', own: false });

    await keys.press('o');
    await expect(page.getByLabel('Reason')).toBeFocused();
    await keys.type('Transmission leak, drops falling');
    await keys.press('Enter');
    await expect(page.getByRole('dialog')).toHaveCount(0);
    await expect(page.getByText(/Transmission leak, drops falling, since/)).toBeVisible();
    await look(page, 'rig-out-of-service');
    const out = await host.ask(page, 'readiness.now', { unit: 'Engine 31' });
    expect(out.units[0]?.verdict).toBe('not ready');

    await keys.press('o');
    await expect(page.getByRole('dialog', { name: 'Return Reserve R-2 to service' })).toBeVisible();
    await keys.press('Enter');
    await expect(page.getByRole('dialog')).toHaveCount(0);
    expect((await rigOf(page, host, 'Reserve R-2')).condition).toBe('in service');
  });

  test('the rig itself is one key away: its dates, its records and its meters, and no deed that is not for rigs', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 32');
    await keys.press('j');
    await expect(page.getByRole('heading', { level: 1, name: /Engine 32/ })).toBeVisible();
    const dates = page.getByRole('grid', { name: /^Every date/ });
    await expect(dates.getByText('Pump service test')).toBeVisible();
    await expect(page.getByRole('img', { name: /^engine hours, in all/ })).toBeVisible();
    await expect(page.getByText(/Preventive service, every 250 engine hours/)).toBeVisible();
    await expect(page.getByRole('button', { name: /^Tag out/ })).toHaveCount(0);
    await look(page, 'rig-itself');
    const stood = await milesOf(page, host, 'Engine 32');
    await keys.press('j');
    await expect(page.getByRole('dialog', { name: 'Read a meter of Engine 32' })).toBeVisible();
    await keys.type(String(stood + 12));
    await sign(keys, page, 'whit');
    expect(await milesOf(page, host, 'Engine 32')).toBe(stood + 12);
  });

  test('a meter that would run backward, or leap, is refused in words; the right reading is kept', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 31');
    const [hours] = (await rigOf(page, host, 'Engine 31')).meters;
    await keys.press('e');
    const reading = page.getByLabel('Reading, whole');
    await expect(reading).toBeFocused();
    const stood = await milesOf(page, host, 'Engine 31');
    await keys.type('12');
    await sign(keys, page, 'whit').catch(() => {});
    await expect(page.getByText(/12 is less/)).toBeVisible();
    const again = async (miles: number) => {
      await reading.focus();
      await page.keyboard.press('Control+A');
      await keys.type(String(miles));
      await keys.press('Enter');
    };
    await again(stood + 100_000);
    await expect(page.getByText(/read twice/i).first()).toBeVisible();
    expect(await milesOf(page, host, 'Engine 31')).toBe(stood);
    await again(stood + 12);
    await expect(page.getByRole('dialog')).toHaveCount(0);
    const after = (await rigOf(page, host, 'Engine 31')).meters;
    expect(after.find(m => m.meter === 'miles')?.reading).toBe(stood + 12);
    expect(after.find(m => m.meter === hours?.meter)?.reading).toBe(hours?.reading);
  });

  test('the drawing is arranged by arrows, tells what lies over what, and is kept as a whole', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await openRig(keys, page, 'Engine 31');
    await keys.press('d');
    const arranging = page.getByRole('region', { name: 'Arranging the drawing' });
    const l1 = arranging.getByRole('button', { name: 'L1', exact: true });
    await expect(l1).toBeFocused();
    await keys.press('ArrowRight');
    await expect(arranging.getByText('L1 lies over L2.')).toBeVisible();
    await look(page, 'rig-arranging');
    await keys.press('ArrowLeft');
    await expect(arranging.getByText(/lies over/)).toHaveCount(0);
    await keys.press('Shift+ArrowUp');
    await keys.press('Shift+ArrowUp');
    await keys.press('s');
    await sign(keys, page, 'quist');
    await expect(drawing(page)).toBeVisible();
    const rig = await rigOf(page, host, 'Engine 31');
    const id = rig.places.find(p => p.name === 'L1')?.id;
    expect(rig.arranged).toBe(true);
    expect(rig.drawing.find(b => b.place === id)).toMatchObject({ view: 'driver side', x: 0, y: 0, h: 2 });
  });

  test('the list of rigs', async ({ page }) => {
    await page.keyboard.press('2');
    await expect(rigs(page).getByRole('row').nth(5)).toBeVisible();
    await look(page, 'rigs');
  });
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });

  test('the list of rigs teaches where rigs come from', async ({ page }) => {
    await page.getByLabel('Name of the department').fill('Cedar Hollow Fire Company');
    await page.getByLabel('Your member number').fill('7');
    await page.getByLabel('Your name').fill('A. Birch');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await page.keyboard.press('2');
    await expect(page.getByText(/There are no rigs yet/)).toBeVisible();
    await look(page, 'rigs-empty');
  });
});
