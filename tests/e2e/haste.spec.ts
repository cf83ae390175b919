/** The note on haste by keys: off until the department sets it, then told to whoever countersigns, and nowhere else. */
import type { Page } from '@playwright/test';
import type { Answer } from '../../db/api.ts';
import { isBySeal, needsEntry } from '../../domain/checkoffs/marks.ts';
import { choose, enter, formOpen, send } from './forms.ts';
import { expect, type Host, TODAY, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

/** A check-off of a unit that says all is well, from seven o'clock to two minutes past. @returns its id */
async function hasty(page: Page, host: Host, of: string): Promise<string> {
  const { of: unit, lines, places } = await host.ask(page, 'carry.page', { of });
  const by = (await host.ask(page, 'members.list', {})).find(m => m.name === 'B. Whitlow')?.id;
  const act = async (action: string, body: object): Promise<string> => {
    const deeds = [{ action, body }];
    const sent = await page.request.post(`${host.origin}/api/act`, { data: { request: { by, deeds } } });
    const answer = (await sent.json()) as Answer<{ entries: string[] }>;
    if (!answer.ok) throw new Error(answer.error.message);
    return answer.value.entries[0] ?? '';
  };
  const checkoff = await act('checkoff.start', { of: unit, started: `${TODAY}T07:00` });
  const marks = places.map(({ name, at }) => ({
    place: name,
    at,
    present: true,
    operated: lines
      .filter(l => l.place === name && needsEntry(l))
      .flatMap(l =>
        isBySeal(l)
          ? l.here.map(t => ({ line: l.line, item: t.item, works: true, reading: t.kit?.seal ?? null }))
          : [{ line: l.line, works: true, reading: l.reading ? '96' : null }],
      ),
  }));
  await act('checkoff.mark', { checkoff, marks });
  await act('checkoff.sign', { checkoff, finished: `${TODAY}T07:02` });
  return checkoff;
}

test('haste is noted once the department has set a pace, on the list, the page and before the countersignature', async ({
  page,
  host,
}) => {
  test.slow();
  const keys = new Keys(page);
  const checkoff = await hasty(page, host, 'Battalion 3');
  const units = page.getByRole('grid', { name: 'Units and their check-offs' });
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('3');
  await expect(units.getByRole('row').nth(1)).toBeFocused();
  await expect(page.getByText(/The department notes under/)).toHaveCount(0);

  await keys.press('9');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await keys.press('s');
  const settings = page.getByRole('grid', { name: 'Settings' });
  await expect(settings.getByRole('row').nth(1)).toBeFocused();
  const at = (await settings.getByRole('row').allTextContents()).findIndex(row =>
    row.startsWith('Note on haste'),
  );
  expect(at).toBeGreaterThan(0);
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
  await expect(settings.getByRole('row').nth(at)).toContainText('Off');
  await keys.press('e');
  await formOpen(page);
  await enter(keys, page, 'Noted under, seconds a line', '90');
  await choose(keys, page, 'Signed by', 'alder');
  await keys.press('Enter');
  await expect(page.getByRole('alert')).toBeVisible();
  await page.getByLabel('Noted under, seconds a line').focus();
  await keys.press('Control+A');
  await keys.type('60');
  await look(page, 'haste-setting');
  await send(keys, page);
  await expect(settings.getByRole('row').nth(at)).toContainText('Under 60 s a line');

  await keys.press('3');
  await expect(
    page.getByText(/The department notes under 60 s a line; it is a note and no finding/),
  ).toBeVisible();
  await expect(units.getByRole('row', { name: /^Battalion 3/ })).toContainText('11.9 s a line');
  await look(page, 'haste-list');
  await page.goto(`${host.origin}/#/checks/${checkoff}`);
  // Fifteen lines in two minutes, which by the minute may have been 179 seconds.
  const note = 'Gone through in 11.9 s a line; the department notes under 60 s.';
  await expect(page.getByText(note)).toBeVisible();
  await keys.press('g');
  await formOpen(page);
  await expect(page.getByRole('dialog').getByText(note)).toBeVisible();
  await look(page, 'haste-countersign');
});
