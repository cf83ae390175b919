/** The rule book by keys alone: read it, try it, make it the department's own; and pictures of every part of it. */
import type { Page } from '@playwright/test';
import { beginEmpty } from './begin.ts';
import { expect, shot, test } from './host.ts';
import { look } from './look.ts';

const sign = async (page: Page, name: string) => {
  await page.keyboard.type(name);
  await expect(page.getByRole('listbox').getByRole('option').first()).toBeVisible();
  await page.keyboard.press('Enter');
};
const press = async (page: Page, ...keys: string[]) => {
  for (const key of keys) await page.keyboard.press(key);
};

test.describe('by keys alone', () => {
  test.slow();

  test('a requirement is found by its source, read, tried and changed; a setting chosen; a permit confirmed; help opened', async ({
    page,
    host,
  }) => {
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await press(page, '8');
    const list = page.getByRole('grid', { name: 'Requirements' });
    await expect(list.getByText('Daily operational check')).toBeVisible();

    await press(page, 'g', 'f');
    await page.keyboard.type('49 cfr requalification 180.209');
    await expect(list.getByText('49 CFR', { exact: true })).toBeVisible();
    await press(page, 'Enter', 'Enter');
    const panel = page.getByRole('complementary', { name: 'The requirement' });
    // 49 CFR 180.209(a) Table 1: 3HT three years; 180.209(b): ten with the star mark.
    await expect(panel.getByRole('row', { name: /3 years 3HT/ })).toBeVisible();
    await expect(panel.getByRole('row', { name: /10 years.*3AA \(star mark\)/ })).toBeVisible();
    await expect(panel.getByText('Before you start')).toBeVisible();
    const counts = await host.ask(page, 'due.counts', { requirement: 'cylinder.requalification' });
    await expect(panel.getByText(`${counts.byState.overdue} Overdue`)).toBeVisible();

    // Tried: carbon, five years by construction (read second-hand), through the month's end.
    const entries = async () => (await host.ask(page, 'ledger.heads', {})).entries;
    const before = await entries();
    await press(page, 't');
    const results = page.getByRole('region', { name: 'What the book would say' });
    await expect(
      results.getByText(/Dec 2021 plus 5 years, on time through the last day of that month: 31 Dec 2026/),
    ).toBeVisible();
    await press(page, 'a');
    await press(page, 'i', 'Escape');
    await expect(results.getByText(/25 Nov 2026 plus 5 years.*: 30 Nov 2031/)).toBeVisible();
    expect(await entries()).toBe(before);
    await press(page, 'Escape');

    // What is law keeps its effect: the store refuses, by its clause, beside the choice.
    await expect(panel).toBeVisible();
    await press(page, 'e');
    const dialog = page.getByRole('dialog');
    const told = dialog.getByRole('region', { name: 'What it would do' });
    await expect(told.getByText(/No date moves/)).toBeVisible();
    await page.keyboard.type('Asked for by nobody');
    await dialog.getByLabel('Notes').focus();
    await press(page, 'Space');
    // Before it is signed, by the clause.
    await expect(told.getByText(/is law: 49 CFR 180\.205/)).toBeVisible();
    await dialog.getByRole('combobox', { name: 'Signed by' }).focus();
    await sign(page, 'alder');
    await press(page, 'Enter');
    await expect(
      dialog.getByRole('group', { name: 'Being late' }).getByText(/is law: 49 CFR 180\.205/),
    ).toBeVisible();
    await shot(page, 'rules-refused');
    await press(page, 'Escape');

    // A standard is loosened with a reason and by whose word, after one has seen what moves; it stays marked.
    await press(page, 'Escape', 'c', 'f');
    await page.keyboard.type('pack flow');
    await press(page, 'Enter', 'Enter', 'e');
    await expect(told.getByText(/No date moves/)).toBeVisible();
    await page.keyboard.type('The technician comes every fifteen months');
    await dialog.getByLabel('Every').focus();
    await press(page, 'Control+A');
    await page.keyboard.type('15');
    await expect(told.getByText(/Looser than the book/)).toBeVisible();
    await expect(told.getByText(/\d+ fall due later/)).toBeVisible();
    await dialog.getByLabel('Decided by').focus();
    await page.keyboard.type('Fire chief, order 18');
    await shot(page, 'rules-loosened');
    await press(page, 'Enter');
    await expect(dialog).toBeHidden();
    await expect(panel.getByText(/LOOSER than the book\. Fire chief, order 18/)).toBeVisible();
    await expect(panel.getByText('Every 12 months')).toBeVisible();
    const loosened = await host.ask(page, 'due.list', { requirement: 'pack.flow-test' });
    expect([...new Set(loosened.rows.map(r => r.own))]).toEqual(['looser']);
    await shot(page, 'rules-changed');

    // From memory alone: confirmed from the document in hand.
    await press(page, 'Escape', 'c', 'f');
    await page.keyboard.type('harness end');
    await press(page, 'Enter', 'Enter');
    await expect(panel.getByText(/From memory alone/)).toBeVisible();
    await press(page, 'm');
    await expect(dialog.getByText(/From memory alone|from memory alone/)).toBeVisible();
    await page.keyboard.type('NFPA 1858, 2018 edition, chief’s office');
    await press(page, 'Enter');
    await expect(dialog).toBeHidden();
    await expect(panel.getByText(/Confirmed from NFPA 1858/).first()).toBeVisible();
    await press(page, 'Escape', 'c');

    await press(page, 's');
    await expect(page.getByRole('grid', { name: /Settings/ })).toBeVisible();
    await press(page, 'ArrowDown', 'Enter');
    await expect(dialog.getByText(/The law: A cylinder filled before it became due/)).toBeVisible();
    await page.keyboard.type('Chief’s order 12');
    await press(page, 'Shift+Tab', 'Shift+Tab', 'ArrowRight', 'Enter');
    await expect(dialog).toBeHidden();
    const policies = (await host.ask(page, 'rulebook.list', {})).policies;
    expect(policies.find(p => p.id === 'charged past due')?.choice).toBe('until emptied');

    await press(page, 'q');
    await expect(page.getByRole('grid', { name: /Permits/ })).toBeVisible();
    await press(page, 'Enter');
    await expect(dialog.getByText('Confirm DOT-SP 14232')).toBeVisible();
    await page.keyboard.type('carbon');
    await expect(page.getByRole('listbox').getByRole('option').first()).toBeVisible();
    await press(page, 'Enter', 'Tab', 'Space', 'ArrowRight', 'Tab', 'Space', 'ArrowRight', 'ArrowRight');
    await press(page, 'Tab', 'Space', 'Enter');
    await expect(dialog).toBeHidden();
    const permits = (await host.ask(page, 'rulebook.list', {})).permits;
    expect(permits.find(p => p.permit === 'DOT-SP 14232')?.confirmed).toMatchObject({
      months: 60,
      lifeMonths: 'label',
    });

    await press(page, 'F1');
    await expect(dialog.getByRole('article', { name: 'Rule book' })).toBeVisible();
    await press(page, 'Escape');
    await expect(dialog).toBeHidden();
    await expect(page.locator('tbody tr:focus')).toHaveCount(1);
  });
});

test.describe('pictures', () => {
  test.slow();
  for (const [name, address, ready] of [
    ['list', '/rules', 'Daily operational check'],
    ['by-source', '/rules?by=source', '26 M.R.S. 2105'],
    ['hose', '/rules?rule=hose.service-test', 'How its things stand'],
    ['cylinder', '/rules?rule=cylinder.requalification', 'By specification'],
    ['settings', '/rules?part=policies', 'What the law says'],
    ['permits', '/rules?part=permits', 'On what ground'],
    ['try-cylinder', '/rules?part=try&family=cylinder', 'Its life ends'],
    ['try-ladder', '/rules?part=try&family=ladder', 'Never done'],
  ] as const)
    test(name, async ({ page, host }) => {
      await page.goto(`${host.origin}/#${address}`);
      // A ladder's last test was too long ago in the example.
      await expect(page.getByText(name === 'try-ladder' ? 'Overdue' : ready).first()).toBeVisible();
      await look(page, `rules-${name}`);
    });

  test('the form of a change', async ({ page, host }) => {
    await page.goto(`${host.origin}/#/rules?rule=cylinder.requalification`);
    await expect(page.getByText('How its things stand')).toBeVisible();
    await press(page, 'e');
    await expect(page.getByRole('dialog').getByText(/No date moves/)).toBeVisible();
    await look(page, 'rules-change');
  });
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });
  test.slow();

  test('a new department finds the whole book, with nothing that it concerns yet', async ({ page }) => {
    await beginEmpty(page);
    await press(page, '8');
    await expect(
      page.getByRole('grid', { name: 'Requirements' }).getByText('Daily operational check'),
    ).toBeVisible();
    await press(page, 'Enter');
    await expect(page.getByText('It concerns nothing today.')).toBeVisible();
    await look(page, 'rules-empty');
    await press(page, 'q');
    await expect(page.getByRole('grid', { name: /Permits/ })).toBeVisible();
    await look(page, 'rules-empty-permits');
  });
});
