/**
 * Photos: kept beside the ledger, named in it by their SHA-256, written with the deed that names them or not at all.
 * Our own design, no source; the hash is FIPS 180-4's, checked here against Node's.
 */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { AttachmentSent, HistoryLine, PhotosKept, Questions, Verification } from '../../db/api.ts';
import type { ChainLine, CheckoffPage, DefectLine } from '../../db/api-checks.ts';
import { writeCopy } from '../../db/files/backup.ts';
import { attachmentsOf } from '../../db/ledger/attachments.ts';
import { entriesSince, knownHeads, takeIn } from '../../db/ledger/exchange.ts';
import { ask } from '../../db/store/ask.ts';
import { all } from '../../db/store/statements.ts';
import { PHOTO_LIMIT_bytes } from '../../domain/photos.ts';
import { carrying, present } from './kit/carry.ts';
import {
  aHose,
  departmentInMemory,
  fromTemplate,
  newDepartment,
  scratch,
  TestDepartment,
  template,
} from './kit/department.ts';
import { JPEG, png, sent, sha256Of } from './kit/pictures.ts';

const CUT = png(1);
const TAG = png(2);
const named = (bytes: Buffer) => ({ sha256: sha256Of(bytes), mime: 'image/png', size_bytes: bytes.length });

function ready() {
  const { d, g } = departmentInMemory();
  return { d, g, hose: aHose(d, '31-107', { place: g.bed }) };
}

/** A hose tagged out for a cut, with photos of it. */
function tagged(
  d: TestDepartment,
  item: string,
  attachments: AttachmentSent[],
  photos = attachments.map((_, i) => `#${i}`),
) {
  return d.act([{ action: 'item.tagOut', body: { item, reason: 'Jacket cut', tag: '0412', photos } }], {
    attachments,
  });
}

const historyOf = (d: TestDepartment, item: string) => d.ask<HistoryLine[]>('item.history', { item });
const verified = (d: TestDepartment) => d.ask<Verification & { photos: PhotosKept }>('ledger.verify');

describe('a photo of what is wrong', () => {
  it('is kept with the tag-out that names it, and comes back byte for byte', async () => {
    const { d, hose } = ready();
    expect(tagged(d, hose, [sent(CUT), sent(TAG, 'tag.png')])).toMatchObject({ ok: true });
    const [line] = await historyOf(d, hose);
    expect(line).toMatchObject({ what: 'Tagged out: Jacket cut', photos: [named(CUT), named(TAG)] });
    const got = await d.ask<Questions['photo.get']['gives']>('photo.get', { sha256: sha256Of(CUT) });
    expect(got).toEqual({ mime: 'image/png', size_bytes: CUT.length, bytes: CUT.toString('base64') });
    // The ledger holds the name alone.
    expect(d.texts().at(-1)?.text).toContain(sha256Of(CUT));
    expect(d.texts().at(-1)?.text).not.toContain(CUT.toString('base64').slice(0, 40));
    expect(await verified(d)).toMatchObject({ ok: true, photos: { kept: 2, damaged: [], missing: [] } });
  });

  it('is kept once, however often it is sent, and may be named again by its hash alone', async () => {
    const { d, hose } = ready();
    tagged(d, hose, [sent(CUT), sent(CUT, 'again.png')], ['#0', '#1']);
    const record = { item: hose, activity: 'inspection', outcome: 'fail', photos: [sha256Of(CUT)] };
    d.must('record.add', record);
    d.must('record.add', { ...record, photos: ['#0'] }, { attachments: [sent(CUT)] });
    expect(d.count('attachments')).toBe(1);
    expect((await historyOf(d, hose)).filter(l => l.photos.length > 0)).toHaveLength(3);
  });

  it('is what its bytes are, whatever its name or the sender says', async () => {
    const { d, hose } = ready();
    tagged(d, hose, [{ name: 'cut.webp', mime: 'image/webp', bytes: JPEG.toString('base64') }]);
    expect((await historyOf(d, hose))[0]?.photos[0]).toMatchObject({ mime: 'image/jpeg' });
  });

  it('goes with a limit, a report that it is missing, a record, a defect, and with anything afterwards', async () => {
    const { d, g, hose } = ready();
    const attachments = [sent(CUT)];
    const photos = ['#0'];
    d.must('item.limit', { item: hose, reason: 'Training only', photos }, { attachments });
    d.must('item.missing', { item: hose, photos }, { attachments });
    d.must('record.add', { item: hose, activity: 'inspection', outcome: 'pass', photos }, { attachments });
    d.must('photo.add', { of: hose, note: 'The stencil', photos }, { attachments });
    expect((await historyOf(d, hose)).filter(l => l.photos.length === 1).map(l => l.what)).toEqual([
      '1 photo: The stencil',
      'Inspection, passed',
      'Missing',
      'Limited use: Training only',
    ]);
    d.must('photo.add', { of: g.rig, photos }, { attachments });
    expect((await historyOf(d, g.rig))[0]).toMatchObject({ what: '1 photo', photos: [named(CUT)] });
    const defect = d.must(
      'defect.report',
      { of: g.unit, kind: 'low', note: 'Foam', photos },
      { attachments },
    );
    d.must('photo.add', { of: defect, photos }, { attachments: [sent(TAG)] });
    const { rows } = await d.ask<{ rows: DefectLine[] }>('defects.list', { open: true });
    expect(rows.map(r => r.photos)).toEqual([[named(CUT), named(TAG)]]);
  });

  it('stands with its step in the chain, and one added while it is out is a step of its own', async () => {
    const { d, hose } = ready();
    tagged(d, hose, [sent(CUT)]);
    d.must('photo.add', { of: hose, note: 'The tag', photos: ['#0'] }, { attachments: [sent(TAG)] });
    const { rows } = await d.ask<{ rows: ChainLine[] }>('chains.list');
    expect(rows[0]?.steps).toMatchObject([
      { what: 'Tagged out, tag 0412: Jacket cut', photos: [named(CUT)] },
      { what: '1 photo: The tag', photos: [named(TAG)] },
    ]);
  });

  it('is gone from what counts once its deed is voided, and its bytes stay', async () => {
    const { d, hose } = ready();
    const answer = tagged(d, hose, [sent(CUT)]);
    if (!answer.ok) throw new Error(answer.error.message);
    d.must('void', { target: answer.value.batch, why: 'Another hose' });
    expect(await d.ask('chains.list')).toMatchObject({ total: 0 });
    expect((await historyOf(d, hose))[0]).toMatchObject({
      voided: { why: 'Another hose' },
      photos: [named(CUT)],
    });
    expect(d.count('attachments')).toBe(1);
  });
});

describe('a photo of a check-off’s exception', () => {
  it('waits in the draft, needs no PIN there, and goes to the defect and the thing when it is signed', async () => {
    const c = await carrying();
    const { d, line, saw, started, finished } = c;
    d.act([{ action: 'member.pin', body: { member: d.admin }, secret: '481516' }]);
    const checkoff = d.must('checkoff.start', { of: c.g.unit, started });
    const broken = {
      line: line('Chain saw'),
      item: saw,
      kind: 'damaged',
      note: 'Bar bent',
      next: 'tag out',
      photos: ['#0'],
    };
    const foam = { line: line('Foam concentrate'), item: null, works: true, reading: '20' };
    d.must(
      'checkoff.mark',
      {
        checkoff,
        marks: [
          present('hosebed driver side', c.g.bed),
          present('L1', c.l1, { exceptions: [broken], operated: [foam] }),
        ],
      },
      { attachments: [sent(CUT)] },
    );
    const page = await d.ask<CheckoffPage>('checkoff.page', { checkoff });
    expect(page.places.flatMap(p => p.mark?.exceptions ?? []).map(e => e.photos)).toEqual([[named(CUT)]]);
    expect((await historyOf(d, saw)).filter(l => l.photos.length > 0)).toEqual([]);
    d.must('checkoff.sign', { checkoff, finished }, { pin: '481516', via: 'PIN' });
    const [defect] = (await d.ask<{ rows: DefectLine[] }>('defects.list', { open: true })).rows;
    expect(defect?.photos).toEqual([named(CUT)]);
    expect((await historyOf(d, saw)).find(l => l.kind === 'condition')?.photos).toEqual([named(CUT)]);
  });
});

describe('an act is refused and leaves nothing behind', () => {
  const big = Buffer.concat([CUT, Buffer.alloc(PHOTO_LIMIT_bytes)]);
  it.each<[string, AttachmentSent[], string[] | undefined, string, string]>([
    ['a photo of more than 8 MB', [sent(big)], undefined, 'photo too large', 'cut.png has 8.1 MB'],
    [
      'more than 40 MB together',
      Array.from({ length: 6 }, (_, i) => sent(Buffer.concat([png(i), Buffer.alloc(7 * 1024 * 1024)]))),
      undefined,
      'photos too large',
      '40 MB at most',
    ],
    [
      'more than 20 photos',
      Array.from({ length: 21 }, (_, i) => sent(png(i))),
      undefined,
      'too many photos',
      '21 photos',
    ],
    [
      'no picture under a picture’s name',
      [sent(Buffer.from('<svg/>'), 'cut.jpg')],
      undefined,
      'not a photo',
      'cut.jpg is no JPEG',
    ],
    [
      'what was cut off on its way',
      [{ ...sent(CUT), bytes: 'iVBORw0KGgo*' }],
      undefined,
      'bad photo',
      'did not come whole',
    ],
    [
      'a place that nothing was sent for',
      [sent(CUT)],
      ['#0', '#1'],
      'no such photo',
      'names photo #1; the act brings 1',
    ],
    [
      'a photo that no deed names',
      [sent(CUT), sent(TAG)],
      ['#1'],
      'photo of nothing',
      'No deed names photo #0.',
    ],
    ['the hash of one that is not here', [], ['ab'.repeat(32)], 'no such photo', 'named abababab…'],
  ])('with %s', (_what, attachments, photos, code, says) => {
    const { d, hose } = ready();
    const before = d.texts();
    const answer = tagged(d, hose, attachments, photos);
    if (answer.ok) throw new Error('It was not refused.');
    expect(answer.error.code).toBe(code);
    expect(answer.error.message).toContain(says);
    expect(answer.error.todo).not.toBe('');
    expect(d.texts()).toEqual(before);
    expect(d.count('attachments')).toBe(0);
    expect(d.conditionOf(hose)).toBe('serviceable');
  });

  it('that names in full one that is not here, or one that is as something else', () => {
    const { d, hose } = ready();
    const tag = (photo: object) => d.codes('item.tagOut', { item: hose, reason: 'Cut', photos: [photo] });
    expect(tag(named(CUT))).toEqual(['no such photo']);
    d.must('photo.add', { of: hose, photos: ['#0'] }, { attachments: [sent(CUT)] });
    expect(tag({ ...named(CUT), size_bytes: 1 })).toEqual(['no such photo']);
    d.must('item.tagOut', { item: hose, reason: 'Cut', photos: [named(CUT)] });
  });

  it('whose photos are right and whose second deed is not', () => {
    const { d, hose } = ready();
    const photo = { action: 'photo.add', body: { of: hose, photos: ['#0'] } };
    const answer = d.act([photo, { action: 'item.move', body: { item: hose, to: 'nowhere' } }], {
      attachments: [sent(CUT)],
    });
    expect(answer.ok).toBe(false);
    expect(d.count('attachments')).toBe(0);
  });

  it('of a thing that is not there, or a day that has not come', () => {
    const { d, hose } = ready();
    const add = (body: object) =>
      d.refused('photo.add', { photos: ['#0'], ...body }, { attachments: [sent(CUT)] })[0];
    expect(add({ of: 'nothing-1' })).toMatchObject({ code: 'not found', field: 'of' });
    expect(add({ of: hose, on: '2026-11-26' })).toMatchObject({ code: 'future date', field: 'on' });
  });
});

describe('what is kept', () => {
  it.each([
    ['UPDATE', 'UPDATE attachments SET bytes = zeroblob(4)'],
    ['DELETE', 'DELETE FROM attachments'],
    ['REPLACE', 'REPLACE INTO attachments SELECT sha256, mime, size_bytes, zeroblob(4), 0 FROM attachments'],
  ])('takes no %s', (_deed, sql) => {
    const { d, hose } = ready();
    tagged(d, hose, [sent(CUT)]);
    expect(() => d.db.exec(sql)).toThrow('only added to');
    expect(all(d.db, 'SELECT sha256, bytes FROM attachments')).toEqual([
      { sha256: sha256Of(CUT), bytes: CUT },
    ]);
  });

  it('is in a backup, which is checked and opened like the file', async () => {
    const d = newDepartment();
    const hose = aHose(d, '31-107');
    tagged(d, hose, [sent(CUT)]);
    const copy = join(scratch(), 'copy.baybook');
    writeCopy(d.db, copy);
    const db = new Database(copy, { readonly: true });
    onTestFinished(() => void db.close());
    const backup = new TestDepartment(db);
    expect(await backup.ask('photo.get', { sha256: sha256Of(CUT) })).toMatchObject({
      bytes: CUT.toString('base64'),
    });
    expect((await verified(backup)).photos).toEqual({ kept: 1, damaged: [], missing: [] });
  });

  it('is told where its bytes were changed by somebody who went round the guards', async () => {
    const { d, hose } = ready();
    tagged(d, hose, [sent(CUT), sent(TAG)]);
    d.db.exec('DROP TRIGGER attachments_no_update');
    const changed = Buffer.from(CUT);
    changed[CUT.length - 20] = (changed[CUT.length - 20] ?? 0) ^ 1;
    d.db.prepare('UPDATE attachments SET bytes = ? WHERE sha256 = ?').run(changed, sha256Of(CUT));
    expect(await verified(d)).toMatchObject({
      ok: false,
      photos: { kept: 2, damaged: [sha256Of(CUT)], missing: [] },
    });
    const answer = await ask(d.db, d.clock, 'photo.get', { sha256: sha256Of(CUT) });
    expect(answer).toMatchObject({ ok: false, error: { code: 'damaged' } });
    expect(await ask(d.db, d.clock, 'photo.get', { sha256: sha256Of(TAG) })).toMatchObject({ ok: true });
  });
});

describe('a photo of another device', () => {
  const { bytes } = template(['hose']);
  function twoDevices() {
    const [a, b] = [fromTemplate(bytes, 'device0'), fromTemplate(bytes, 'device1')];
    onTestFinished(() => [a, b].forEach(d => void d.db.close()));
    const hose = aHose(a, '31-107');
    tagged(a, hose, [sent(CUT)]);
    const texts = entriesSince(a.db, knownHeads(b.db));
    return { a, b, hose, texts };
  }

  it('travels with the entries that name it', async () => {
    const { a, b, hose, texts } = twoDevices();
    takeIn(b.db, texts, 1, attachmentsOf(a.db, texts));
    expect((await historyOf(b, hose))[0]?.photos).toEqual([named(CUT)]);
    expect(await b.ask('photo.get', { sha256: sha256Of(CUT) })).toMatchObject({
      bytes: CUT.toString('base64'),
    });
    // Sent again it is there already.
    takeIn(b.db, texts, 2, attachmentsOf(a.db, texts));
    expect(all(b.db, 'SELECT sha256, learned_at FROM attachments')).toEqual([
      { sha256: sha256Of(CUT), learned_at: 1 },
    ]);
  });

  it('is told as not here where it stayed behind, and is there once it comes', async () => {
    const { a, b, texts } = twoDevices();
    takeIn(b.db, texts, 1);
    // The ledger is whole all the same.
    expect(await verified(b)).toMatchObject({
      ok: true,
      photos: { kept: 0, damaged: [], missing: [sha256Of(CUT)] },
    });
    const get = (sha256: string) => ask(b.db, b.clock, 'photo.get', { sha256 });
    expect(await get(sha256Of(CUT))).toMatchObject({ ok: false, error: { code: 'not here' } });
    expect(await get(sha256Of(TAG))).toMatchObject({ ok: false, error: { code: 'not found' } });
    takeIn(b.db, texts, 2, attachmentsOf(a.db, texts));
    expect((await verified(b)).photos).toEqual({ kept: 1, damaged: [], missing: [] });
  });

  it('is refused with its whole bundle where its bytes are not those it is named by', () => {
    const { a, b, texts } = twoDevices();
    const forged = attachmentsOf(a.db, texts).map(p => ({ ...p, bytes: TAG }));
    expect(() => takeIn(b.db, texts, 1, forged)).toThrow('is not what it is named by');
    expect(b.count('attachments')).toBe(0);
    expect(b.texts()).not.toContainEqual(expect.objectContaining({ text: texts.at(-1) }));
  });
});
