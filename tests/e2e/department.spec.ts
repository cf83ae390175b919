/** Who and where, by keys alone: a department is filled, signed for, backed up and restored. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, shot, test } from './host.ts';
import { look } from './look.ts';

const PARTS = {
  h: 'places',
  m: 'members',
  a: 'agencies',
  s: 'settings',
  b: 'backup',
  x: 'export',
  i: 'about',
} as const;

async function lookAtAll(page: Page, name: string): Promise<void> {
  await page.keyboard.press('9');
  for (const [key, part] of Object.entries(PARTS)) {
    await page.keyboard.press(key);
    await expect(
      page.getByRole('navigation', { name: 'Parts of the department' }).locator('[aria-current=page]'),
    ).toHaveAttribute('aria-keyshortcuts', key);
    await expect(page.getByText('Reading the book…')).toHaveCount(0);
    await look(page, `department-${name}-${part}`);
  }
}

/** Presses keys one after the other; what is longer than a key's name is typed where the focus is. */
async function keys(page: Page, ...pressed: string[]): Promise<void> {
  for (const key of pressed) {
    if (key.startsWith('"')) await page.keyboard.type(key.slice(1));
    else await page.keyboard.press(key);
  }
}

/** Fills in the form that a key opens, field after field, and sends it. */
async function fill(page: Page, key: string, ...fields: string[]): Promise<void> {
  await page.keyboard.press(key);
  await expect(page.getByRole('dialog')).toBeVisible();
  await expect(page.getByRole('dialog').locator('input:focus')).toHaveCount(1);
  for (const [at, field] of fields.entries()) {
    if (at > 0) await page.keyboard.press('Tab');
    await page.keyboard.type(field);
  }
}

async function send(page: Page): Promise<void> {
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toHaveCount(0);
}

async function actAs(page: Page, name: string): Promise<void> {
  await page.keyboard.press('w');
  await expect(page.getByRole('dialog')).toBeVisible();
  await page.keyboard.type(name);
  await expect(page.getByRole('option', { name: new RegExp(name) })).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: `Acting as ${name}` })).toBeVisible();
}

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });
  test.slow();

  test('places, members, a PIN, an agency, a setting, a backup and its restoring, exports and the check of the ledger', async ({
    page,
    host,
  }) => {
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await keys(
      page,
      '"Cedar Hollow Fire Company',
      'Tab',
      'Tab',
      'Tab',
      'Tab',
      '"7',
      'Tab',
      '"A. Birch',
      'Enter',
    );
    await expect(page.getByRole('button', { name: 'Acting as A. Birch' })).toBeVisible();
    await page.keyboard.press('9');
    await expect(page.getByText('Nothing stands anywhere yet.')).toBeVisible();

    const places = page.getByRole('grid', { name: 'Places' });
    await fill(page, 't', 'Station 1');
    await send(page);
    await expect(places.getByText('Station 1')).toBeVisible();
    // Whatever is added is offered to stand at the station that has the focus.
    await fill(page, 'u', 'Engine 1', 'engine');
    await keys(page, 'Tab', 'Tab', '"Engine 1');
    await send(page);
    await expect(places.getByRole('row')).toHaveCount(4);
    await fill(page, 'r', 'Reserve R-1');
    await send(page);
    await expect(places.getByText('Reserve R-1')).toBeVisible();
    await fill(page, 'c', 'bottle rack');
    await send(page);
    await expect(places.getByText('bottle rack')).toBeVisible();
    const listed = await host.ask(page, 'places.list', {});
    expect(listed.map(p => [p.kind, p.path, p.station])).toEqual(
      expect.arrayContaining([
        ['station', 'Station 1', 'Station 1'],
        ['rig', 'Engine 1', 'Station 1'],
        ['rig', 'Reserve R-1', 'Station 1'],
        ['rack', 'Station 1, bottle rack', 'Station 1'],
      ]),
    );
    // Amending: the rack gets another name.
    await keys(page, 'End', 'ArrowDown', 'ArrowDown', 'ArrowDown', 'ArrowDown');
    await expect(page.getByRole('button', { name: 'Amend bottle rack' })).toBeVisible();
    await page.keyboard.press('e');
    await expect(page.getByRole('dialog')).toBeVisible();
    await keys(page, 'Control+A', '"cylinder rack');
    await send(page);
    await expect(places.getByText('cylinder rack')).toBeVisible();

    await page.keyboard.press('m');
    const members = page.getByRole('grid', { name: 'Members' });
    await expect(members).toBeVisible();
    await fill(page, 'n', '12', 'S. Lind', 'logis');
    await expect(page.getByRole('option', { name: /Logistics/ })).toBeVisible();
    await page.keyboard.press('Enter');
    await keys(page, 'Tab', 'Tab', '"4815', 'Tab', '"4816', 'Enter');
    await expect(page.getByText('The two PINs are not the same.')).toBeVisible();
    await keys(page, 'Control+A', '"4815');
    await send(page);
    await expect(members.getByRole('row', { name: /S\. Lind/ })).toContainText('with a PIN');
    await expect(members.getByRole('row', { name: /S\. Lind/ })).toContainText(
      'Look, record, countersign, return to service, void, plan',
    );

    // A deed signed with the PIN: a wrong one first.
    await actAs(page, 'S. Lind');
    await page.keyboard.press('h');
    await expect(places).toBeVisible();
    await fill(page, 't', 'Station 2', '', '1111');
    await page.keyboard.press('Enter');
    await expect(page.getByText('The PIN is not right.')).toBeVisible();
    await expect(page.getByText('4 more in a row lock it for 5 minutes.')).toBeVisible();
    await shot(page, 'department-wrong-pin');
    await keys(page, 'Control+A', '"4815');
    await send(page);
    await expect(places.getByText('Station 2')).toBeVisible();
    const changes = await host.ask(page, 'changes.since', { since: '2000-01-01T00:00:00.000Z' });
    expect(changes.lines.some(l => l.byName === 'S. Lind')).toBe(true);

    await actAs(page, 'A. Birch');
    await page.keyboard.press('a');
    await expect(page.getByText('No agency is known yet.')).toBeVisible();
    await fill(page, 'n', 'Juniper Cylinder Testing', 'a123', 'Jan 2027');
    await send(page);
    const agencies = page.getByRole('grid', { name: 'Agencies' });
    await expect(agencies.getByText('A123')).toBeVisible();
    // 49 CFR 107.805(e): an approval, and its RIN, expires. 31 Jan 2027 is 67 days after 25 Nov 2026, by the calendar.
    await expect(agencies.getByText('67 days left')).toBeVisible();
    await expect(agencies.getByText('Due soon')).toBeVisible();

    await page.keyboard.press('s');
    await expect(page.getByRole('grid', { name: 'Settings' })).toBeVisible();
    await page.keyboard.press('e');
    await expect(page.getByRole('dialog')).toBeVisible();
    await keys(page, 'Control+A', '"Cedar Hollow Fire District');
    await send(page);
    await expect(page.getByRole('navigation', { name: 'Screens' })).toContainText(
      'Cedar Hollow Fire District',
    );

    // What it is decides what is law: a private brigade is bound by 29 CFR 1910 in every state.
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('e');
    const profile = page.getByRole('dialog', { name: 'What is the department?' });
    await expect(profile.getByText(/bind here is not certain. Taken as law here/)).toBeVisible();
    await page.keyboard.type('colorado');
    await expect(page.getByRole('option', { name: 'Colorado' })).toBeVisible();
    await page.keyboard.press('Enter');
    await profile.getByLabel('Career').focus();
    await keys(page, 'Space');
    await expect(profile.getByText(/are not law here but a benchmark/)).toBeVisible();
    await keys(page, 'ArrowRight', 'ArrowRight', 'ArrowRight');
    await expect(profile.getByText(/are law here: they cannot be loosened/)).toBeVisible();
    await look(page, 'department-profile');
    await send(page);
    const book = await host.ask(page, 'rulebook.list', {});
    expect(book.profile).toMatchObject({ state: 'CO', kind: 'private brigade' });
    expect(book.rules.find(r => r.requirement.id === 'pack.inspection')?.force.force).toBe('law');

    await page.keyboard.press('b');
    await expect(page.getByText('There is no backup yet.')).toBeVisible();
    await page.keyboard.press('n');
    await expect(page.getByText('is written and checked')).toBeVisible();
    const before = await host.ask(page, 'ledger.heads', {});
    await page.keyboard.press('h');
    await fill(page, 't', 'Station 3');
    await send(page);
    await expect(places.getByText('Station 3')).toBeVisible();
    await page.keyboard.press('b');
    await expect(page.getByRole('grid', { name: 'Backups' }).locator('tr:focus')).toHaveCount(1);
    await page.keyboard.press('Enter');
    await expect(page.getByText('Checked whole')).toBeVisible();
    await expect(page.getByText('holds all of it and 1 entry more')).toBeVisible();
    await shot(page, 'department-restore');
    await page.keyboard.press('Enter');
    await expect(page.getByText(/^Restored as .* restored\.baybook, beside the other files/)).toBeVisible();
    expect((await host.ask(page, 'department.summary', {}))?.stations.map(s => s.name)).toEqual([
      'Station 1',
      'Station 2',
    ]);
    expect(readdirSync(host.folder).filter(n => n.endsWith('.baybook'))).toHaveLength(2);

    // About: the check of the ledger, against the anchor that lies beside the backup.
    await expect(page.getByRole('table', { name: 'Newest entry of each device' })).toBeVisible();
    await page.keyboard.press('v');
    await expect(page.getByText('Whole.')).toBeVisible();
    const folder = join(host.folder, 'backups');
    const anchor = readdirSync(folder).find(n => n.endsWith('.anchor.txt')) ?? '';
    await page.keyboard.press('n');
    await page.keyboard.insertText(readFileSync(join(folder, anchor), 'utf8'));
    await page.keyboard.press('Enter');
    await expect(page.getByText('the head of the anchor is among them')).toBeVisible();
    const [head] = before.devices;
    await keys(page, 'Control+A', `"${head?.device} ${(head?.seq ?? 0) + 1} ${head?.hash}`, 'Enter');
    await expect(page.getByText('Not whole.')).toBeVisible();
    await keys(page, 'Control+A', '"nonsense', 'Enter');
    await expect(page.getByText('This cannot be read as an anchor.')).toBeVisible();
    await page.keyboard.press('Escape');

    await page.keyboard.press('x');
    await expect(page.getByRole('grid', { name: 'Exports' }).locator('tr:focus')).toHaveCount(1);
    const [first] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    // The families in the order of a walk round the rig, the rigs first.
    expect(first.suggestedFilename()).toBe('apparatus-2026-11-25.csv');
    const names: string[] = [];
    page.on('download', download => names.push(download.suggestedFilename()));
    await page.keyboard.press('v');
    await expect.poll(() => names, { timeout: 30_000 }).toContain('ledger-2026-11-25.jsonl');
    expect(names.filter(n => n.endsWith('.csv')).length).toBeGreaterThanOrEqual(4);
  });

  test('every part teaches what to do, light and dark', async ({ page }) => {
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await keys(
      page,
      '"Cedar Hollow Fire Company',
      'Tab',
      'Tab',
      'Tab',
      'Tab',
      '"7',
      'Tab',
      '"A. Birch',
      'Enter',
    );
    await expect(page.getByRole('button', { name: 'Acting as A. Birch' })).toBeVisible();
    await lookAtAll(page, 'empty');
  });
});

test.describe('with the demo department', () => {
  test.slow();

  test('every part, light and dark', async ({ page }) => {
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await lookAtAll(page, 'demo');
    await page.keyboard.press('b');
    await page.keyboard.press('n');
    await expect(page.getByText('is written and checked')).toBeVisible({ timeout: 30_000 });
    await look(page, 'department-demo-backed-up');
    await page.keyboard.press('e');
    await expect(page.getByText('Checked whole')).toBeVisible();
    await look(page, 'department-demo-preview');
  });
});
