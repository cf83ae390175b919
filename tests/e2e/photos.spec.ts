/** Photos by keys alone: chosen with a tag-out, made small on the way, kept without what the camera wrote, seen large. */
import type { Page } from '@playwright/test';
import type { Questions } from '../../db/api.ts';
import { JPEG, png } from '../db/kit/pictures.ts';
import { expect, type Host, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

/** Exif 2.3, 4.5.2: APP1 with "Exif", then TIFF; here with one GPS tag (4.6.6: 0x8825 points to where it was taken). */
const EXIF = Buffer.from('Exif\0\0II*\0\x08\0\0\0\x01\0\x25\x88\x04\0\x01\0\0\0\x1a\0\0\0\0\0\0\0', 'latin1');
const TAKEN_SOMEWHERE = Buffer.concat([
  JPEG.subarray(0, 2),
  Buffer.from([0xff, 0xe1, 0, EXIF.length + 2]),
  EXIF,
  JPEG.subarray(2),
]);

const dialog = (page: Page) => page.getByRole('dialog');

async function toThing(keys: Keys, page: Page, number: string): Promise<void> {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('/');
  await keys.type(number);
  await expect(page.getByRole('listbox', { name: 'Found' }).getByText(number).first()).toBeVisible();
  await keys.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toContainText(number);
}

/** Tabs on to the control of this name. */
async function tabTo(keys: Keys, page: Page, name: RegExp): Promise<void> {
  for (let i = 0; i < 20; i++) {
    const focused = await page.evaluate(() =>
      document.activeElement instanceof HTMLButtonElement ? document.activeElement.textContent : '',
    );
    if (name.test(focused)) return;
    await keys.press('Tab');
  }
  throw new Error(`Tab never came to ${name}.`);
}

async function choosePhotos(
  keys: Keys,
  page: Page,
  files: { name: string; buffer: Buffer }[],
): Promise<void> {
  // Waited for from before the walk to it: a chooser opened before the page is watched is never told of.
  const opened = page.waitForEvent('filechooser');
  await tabTo(keys, page, /Choose (photos|more)…/);
  await keys.press('Enter');
  const chooser = await opened;
  await chooser.setFiles(
    files.map(f => ({ ...f, mimeType: f.name.endsWith('png') ? 'image/png' : 'image/jpeg' })),
  );
}

const bytesOf = async (page: Page, host: Host, sha256: string): Promise<Questions['photo.get']['gives']> =>
  host.ask(page, 'photo.get', { sha256 });

test('a tag-out keeps photos of what is wrong; they stand in the thing’s history and in its chain, and open large', async ({
  page,
  host,
}) => {
  const keys = new Keys(page);
  await toThing(keys, page, '31-107');
  await keys.press('t');
  await expect(dialog(page)).toBeVisible();
  await keys.type('Jacket cut 12 ft from the male end');
  await choosePhotos(keys, page, [
    { name: 'cut.jpg', buffer: TAKEN_SOMEWHERE },
    { name: 'whole.png', buffer: png(180, 2400) },
  ]);
  await expect(dialog(page).getByText('2 chosen')).toBeVisible();
  await expect(dialog(page).getByText('whole.png')).toBeVisible();
  await look(page, 'photos-chosen');
  await page.getByRole('combobox', { name: 'Signed by' }).focus();
  await keys.type('okafor');
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await keys.press('Enter');
  await expect(dialog(page)).toHaveCount(0);

  const records = page.getByRole('grid', { name: /^Every record/ });
  await expect(
    records.getByAltText('Photo 2 of 2: 31-107, Tagged out: Jacket cut 12 ft from the male end'),
  ).toBeVisible();
  await look(page, 'photos-history');

  // What is kept: JPEG, no longer than 1600 pixels, and nothing of where it was taken.
  const [line] = await host.ask(page, 'item.history', { number: '31-107' });
  expect(line?.photos).toHaveLength(2);
  const [cut, whole] = await Promise.all((line?.photos ?? []).map(p => bytesOf(page, host, p.sha256)));
  expect(cut?.mime).toBe('image/jpeg');
  expect(Buffer.from(cut?.bytes ?? '', 'base64').toString('latin1')).not.toContain('Exif');
  const size = await page.evaluate(async url => {
    const picture = new Image();
    picture.src = url;
    await picture.decode();
    return [picture.naturalWidth, picture.naturalHeight];
  }, `data:${whole?.mime};base64,${whole?.bytes}`);
  expect(size).toEqual([1600, 1600]);

  await keys.press('o');
  await expect(dialog(page).getByText('Photo 1 of 2.')).toBeVisible();
  await expect(dialog(page).getByRole('img')).toBeVisible();
  await keys.press('ArrowRight');
  await expect(dialog(page).getByText('Photo 2 of 2.')).toBeVisible();
  await look(page, 'photos-large');
  await keys.press('Escape');
  await expect(dialog(page)).toHaveCount(0);

  await keys.press('5');
  const chains = page.getByRole('grid', { name: 'Open chains, the stuck ones first' });
  await expect(chains.getByRole('row').nth(1)).toBeFocused();
  const at = (await chains.getByRole('row').allTextContents()).findIndex(row => row.startsWith('31-107'));
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
  const steps = page.getByRole('complementary', { name: 'The chain of 31-107' });
  await expect(steps.getByRole('img')).toHaveCount(2);
  await look(page, 'photos-tagouts');
  await keys.press('o');
  await expect(dialog(page).getByRole('img')).toBeVisible();
  await keys.press('Escape');

  // By Tab to a small one: Enter opens that one.
  await steps.getByRole('button').first().focus();
  await keys.press('Enter');
  await expect(dialog(page).getByText('Photo 1 of 2.')).toBeVisible();
  await keys.press('Escape');
  await expect(steps.getByRole('button').first()).toBeFocused();
});

test('a photo is added afterwards, one is taken away again before, and what is no picture is refused in words', async ({
  page,
  host,
}) => {
  const keys = new Keys(page);
  await toThing(keys, page, '31-107');
  await keys.press('a');
  await expect(page.getByRole('menuitem', { name: 'Add a photo' })).toBeVisible();
  await keys.press('c');
  await expect(dialog(page).getByRole('button', { name: 'Photos' })).toBeFocused();
  await choosePhotos(keys, page, [{ name: 'notes.jpg', buffer: Buffer.from('not a picture') }]);
  await expect(dialog(page).getByRole('alert')).toContainText('notes.jpg cannot be read as a picture here.');
  await choosePhotos(keys, page, [
    { name: 'stencil.png', buffer: png(90, 64) },
    { name: 'other.png', buffer: png(200, 64) },
  ]);
  await expect(dialog(page).getByText('2 chosen')).toBeVisible();
  // Shift+Tab leads back to the last one's button.
  await keys.press('Shift+Tab');
  await expect(page.getByRole('button', { name: 'Remove other.png' })).toBeFocused();
  await keys.press('Enter');
  await expect(dialog(page).getByText('1 chosen')).toBeVisible();
  await keys.press('Tab');
  await keys.type('The stencil');
  await page.getByRole('combobox', { name: 'Signed by' }).focus();
  await keys.type('okafor');
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await keys.press('Enter');
  await expect(dialog(page)).toHaveCount(0);
  const [line] = await host.ask(page, 'item.history', { number: '31-107' });
  expect(line).toMatchObject({ what: '1 photo: The stencil', byName: 'J. Okafor' });
});

test('a photo is pasted into an exception of a check-off, waits in the draft and goes to the defect', async ({
  page,
  host,
}) => {
  const keys = new Keys(page);
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('3');
  const rows = page.getByRole('grid', { name: 'Units and their check-offs' }).getByRole('row');
  await expect(rows.nth(1)).toBeFocused();
  const at = (await rows.allTextContents()).findIndex(row => row.startsWith('Engine 32'));
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
  await keys.press('Enter');
  if (
    await dialog(page)
      .isVisible()
      .catch(() => false)
  ) {
    await page.getByRole('combobox', { name: 'Signed by' }).focus();
    await keys.type('calder');
    await expect(page.getByRole('option').first()).toBeVisible();
    await keys.press('Enter');
    await keys.press('Enter');
  }
  await expect(
    page.getByRole('grid', { name: 'Places to go through' }).getByRole('row').nth(1),
  ).toBeFocused();
  await keys.press('Enter');
  await expect(page.locator('[data-pane="lines"] tbody tr').first()).toBeFocused();
  await keys.press('d');
  // Where a line has several things, which one is asked first.
  await expect(dialog(page).getByRole('combobox', { name: 'Which' })).toBeFocused();
  await keys.type('32-10');
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await keys.press('Tab');
  await expect(dialog(page).getByRole('textbox', { name: 'Note' })).toBeFocused();
  await keys.type('Bent');
  await page.evaluate(
    bytes => {
      const data = new DataTransfer();
      data.items.add(new File([Uint8Array.from(bytes)], '', { type: 'image/png' }));
      document.activeElement?.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    },
    [...png(120, 64)],
  );
  await expect(dialog(page).getByText('Pasted picture')).toBeVisible();
  await look(page, 'photos-exception');
  await keys.press('Enter');
  await expect(dialog(page)).toHaveCount(0);
  await expect(page.getByAltText(/^Photo 1 of 1: .*damaged$/)).toBeVisible();
  const { rows: drafts } = await host.ask(page, 'checkoffs.list', { state: 'draft' });
  const draft = drafts.find(d => d.name === 'Engine 32');
  await expect
    .poll(async () => {
      const told = await host.ask(page, 'checkoff.page', { checkoff: draft?.id ?? '' });
      return told.places.flatMap(p => p.mark?.exceptions ?? []).map(e => e.photos?.length);
    })
    .toEqual([1]);
});
