/**
 * Papers, read back from their bytes. Outside sources: ISO 32000-1:2008 (the file's structure and its text, checked by
 * `kit/pdf.ts`), ANSI/ASME Y14.1 size A (8½ by 11 in), FIPS 180-4 as Node carries it (the printed hash).
 */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { DueList, HistoryLine, ItemPage, Questions } from '../../db/api.ts';
import type { PdfFile, Readiness, RigPage } from '../../db/api-desk.ts';
import type { RulebookList } from '../../db/api-rules.ts';
import { ask } from '../../db/store/ask.ts';
import { all, run } from '../../db/store/statements.ts';
import { clockWords } from '../../domain/rulebook/clock-words.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { aHose, departmentInMemory, type Ground, type TestDepartment } from './kit/department.ts';
import { type Pdf, type PdfPage, readPdf } from './kit/pdf.ts';
import { JPEG, png, sent } from './kit/pictures.ts';

type Paper = Questions['paper.make']['takes'];

const TODAY = '2026-11-25';
/** 8½ by 11 in at 72 pt to the inch. */
const LETTER_PT = [612, 792];
const EDGE_PT = 36;
const ADVICE = 'Follow the manufacturer, the current standard and your AHJ; tests by qualified people.';

type Printed = Pdf & { file: PdfFile };

async function printed(d: TestDepartment, paper: Paper): Promise<Printed> {
  const file = await d.ask<PdfFile>('paper.make', { by: 'J. Okafor', ...paper });
  const pdf = readPdf(Buffer.from(file.base64, 'base64'));
  expect(pdf.pages).toHaveLength(file.pages);
  return { ...pdf, file };
}

/** A department with something of everything that a paper shows. */
function furnished(): { d: TestDepartment; g: Ground; hose: string; voided: string; reserveHose: string } {
  const { d, g } = departmentInMemory();
  d.must('station.add', { name: 'Station 32' });
  const hose = aHose(d, '31-107', { place: g.bed, serial: 'SN-107' });
  const voided = d.must('record.add', {
    item: hose,
    activity: 'service test',
    outcome: 'pass',
    readings: { testPressure_psi: 300, held_s: 300 },
    on: '2026-05-02',
  });
  d.must('void', { target: voided, why: 'Was hose 31-170' });
  d.must('record.add', {
    item: hose,
    activity: 'service test',
    outcome: 'pass',
    readings: { testPressure_psi: 300, held_s: 300 },
    on: '2025-06-13',
  });
  const tagged = aHose(d, '31-108', { place: g.bed });
  d.must('item.tagOut', { item: tagged, reason: 'Cut 12 ft from the male end', on: '2026-11-20' });
  const reserveHose = aHose(d, '31-900', { place: g.rack });
  d.must('item.missing', { item: reserveHose, note: 'Not in the rack', on: '2026-11-21' });
  d.must('note.write', { text: 'Generator hard to start; fresh fuel tried.', unit: g.unit, on: TODAY });
  return { d, g, hose, voided, reserveHose };
}

describe('every paper', () => {
  interface Made {
    made: [name: string, pdf: Printed][];
    lastText: string;
    entries: number;
  }
  let kept: Promise<Made> | undefined;
  const papers = (): Promise<Made> => {
    kept ??= make();
    return kept;
  };
  async function make(): Promise<Made> {
    const { d, hose } = furnished();
    const texts = d.texts();
    const list: Paper[] = [
      { paper: 'morning page', station: 'Station 31' },
      { paper: 'coming due', filter: {} },
      { paper: 'item history', item: hose },
      { paper: 'rig sheet', rig: 'Engine 31' },
      { paper: 'rule sheet', family: 'cylinder' },
      { paper: 'reorder list' },
      { paper: 'fill log' },
    ];
    const made: Made['made'] = [];
    for (const paper of list) made.push([paper.paper, await printed(d, paper)]);
    return { made, entries: texts.length, lastText: texts.at(-1)?.text ?? '' };
  }

  it('is a PDF on US letter, upright or across, with the name it says', async () => {
    const { made } = await papers();
    for (const [name, pdf] of made) {
      const box = name === 'coming due' || name === 'fill log' ? LETTER_PT.toReversed() : LETTER_PT;
      for (const page of pdf.pages) expect(page.mediaBox, name).toEqual([0, 0, ...box]);
      expect(pdf.file.name, name).toMatch(/^[A-Z][^/\\:*?"<>|]*, 2026-11-25\.pdf$/);
    }
    expect(made.find(([name]) => name === 'rule sheet')?.[1].pages.length).toBeGreaterThan(1);
  });

  it('says on every page whose it is, what it is, for when, which page, when and by whom it was printed', async () => {
    const { made } = await papers();
    for (const [name, { pages }] of made)
      pages.forEach((page, i) => {
        const title = name.charAt(0).toUpperCase() + name.slice(1);
        expect(page.text, name).toMatch(new RegExp(`Larkspur Valley Fire District ${title}`));
        expect(page.text, name).toContain('For Wednesday 25 Nov 2026');
        expect(page.text, name).toContain(`Page ${i + 1} of ${pages.length}`);
        // Noon in Denver is 18:00 UTC in November less seven hours; the clock of the tests runs on by seconds.
        expect(page.text, name).toMatch(/Printed 25 Nov 2026 11:\d\d \(America\/Denver\) by J\. Okafor/);
      });
  });

  it('carries the ledger’s count and the hash of its last entry, which anyone can reckon', async () => {
    const { made, lastText, entries } = await papers();
    const hash = createHash('sha256').update(lastText).digest('hex');
    for (const [name, { pages }] of made)
      for (const page of pages) {
        const told = /Ledger: ([\d,]+) entries; last /.exec(page.text);
        expect(Number(told?.[1]?.replaceAll(',', '')), name).toBe(entries);
        const { device, seq } = JSON.parse(lastText);
        expect(page.text, name).toContain(`${device} ${seq} ${hash.slice(0, 16)}`);
      }
  });

  it('has no type under 10 pt, no letter that is not drawn, and nothing over the edge', async () => {
    const { made } = await papers();
    for (const [name, { pages }] of made)
      for (const { pieces, mediaBox } of pages) {
        expect(pieces.length, name).toBeGreaterThan(20);
        for (const piece of pieces) {
          expect(piece.size, `${name}: ${piece.text}`).toBeGreaterThanOrEqual(10);
          expect(piece.text, name).not.toContain('\ufffd');
          expect(piece.x, `${name}: ${piece.text}`).toBeGreaterThanOrEqual(EDGE_PT);
          expect(piece.x, `${name}: ${piece.text}`).toBeLessThan((mediaBox[2] ?? 0) - EDGE_PT);
          expect(piece.y, `${name}: ${piece.text}`).toBeLessThan((mediaBox[3] ?? 0) - 15);
        }
      }
  });

  it('names nobody where nobody is named', async () => {
    const { d } = departmentInMemory();
    const { text } = await printed(d, { paper: 'rule sheet', family: 'pack', by: undefined as never });
    expect(text).toContain('by someone who gave no name');
  });
});

/** Numbers in the first column, in the order they are read. */
const numbersOf = (page: PdfPage): string[] => {
  const left = Math.min(...page.pieces.map(p => p.x));
  return page.pieces.filter(p => p.face.includes('Mono') && p.x < left + 1).map(p => p.text.trim());
};

describe('the list of what is coming due', () => {
  it('holds the rows of the screen’s list in its order, each whole on its page, under heads on every page', async () => {
    const { d, g } = furnished();
    for (let n = 0; n < 60; n++) aHose(d, `32-${n}`, { place: g.rack });
    for (const sort of ['due', 'number'] as const) {
      const filter = { family: 'hose', sort, descending: true };
      const { rows } = await d.ask<DueList>('due.list', { ...filter, on: TODAY });
      expect(rows.length).toBeGreaterThan(60);
      const { pages } = await printed(d, { paper: 'coming due', filter });
      expect(pages.length).toBeGreaterThan(2);
      expect(pages.flatMap(numbersOf)).toEqual(rows.map(r => r.number));
      for (const page of pages) {
        for (const head of ['Number', 'Family', 'What is owed', 'State', 'Due', 'Last done', 'Place'])
          expect(page.text).toContain(head);
        // A row that was torn would leave its words without its number on the page.
        const states = page.pieces.filter(
          p => p.text === 'owed' || p.text === 'Overdue' || p.text === 'done',
        );
        expect(states.length).toBeLessThanOrEqual(numbersOf(page).length + 4);
      }
    }
  });

  it('tells its filter in words, its rows by state, and is empty where nothing fits', async () => {
    const { d, g } = furnished();
    const filter = { state: ['overdue' as const], family: 'hose', unit: g.unit, within: 30 };
    const { text } = await printed(d, { paper: 'coming due', filter });
    expect(text).toContain('Show what is overdue for hose on Engine 31 at any station, due within 30 days.');
    expect(text).toMatch(/\d rows?: \d overdue\. By due date\./);
    const none = await printed(d, { paper: 'coming due', filter: { text: 'no such thing' } });
    expect(none.text).toContain('Nothing fits the filter.');
    expect(none.text).toContain('0 rows.');
  });

  it('stands under its groups where it is grouped', async () => {
    const { d } = furnished();
    const { text, pages } = await printed(d, { paper: 'coming due', filter: { by: 'unit', family: 'hose' } });
    expect(text).toMatch(/No unit: \d rows?/);
    expect(text).toMatch(/Engine 31: \d rows?/);
    const { total } = await d.ask<DueList>('due.list', { family: 'hose', on: TODAY });
    expect(pages.flatMap(numbersOf)).toHaveLength(total);
  });

  it('has a box before a test that can hurt someone, and none before one that cannot', async () => {
    const { d } = furnished();
    const test = await printed(d, { paper: 'coming due', filter: { requirement: 'hose.service-test' } });
    expect(test.text).toContain('Before you start');
    expect(test.text).toContain('Bleed all air before raising pressure');
    expect(test.text).toContain(ADVICE);
    const look = await printed(d, { paper: 'coming due', filter: { requirement: 'hose.inspection' } });
    expect(look.text).not.toContain('Before you start');
  });
});

describe('a long list', () => {
  /** One thing's duty, told so many times over: what the list costs is its rows, whatever they are of. */
  function withRows(count: number): TestDepartment {
    const { d, g } = departmentInMemory();
    aHose(d, '31-107', { place: g.bed });
    const columns = all<{ name: string }>(d.db, "SELECT name FROM pragma_table_info('due')")
      .map(c => `"${c.name}"`)
      .filter(name => name !== '"key"')
      .join(', ');
    const known = all(d.db, 'SELECT 1 FROM due').length;
    run(
      d.db,
      `WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ?)
       INSERT INTO due (${columns}) SELECT ${columns} FROM (SELECT * FROM due LIMIT 1), n`,
      count - known,
    );
    return d;
  }

  it('of 5,000 rows is made whole', { timeout: 60_000 }, async () => {
    const d = withRows(5_000);
    const { pages } = await printed(d, { paper: 'coming due', filter: {} });
    expect(pages.flatMap(numbersOf)).toHaveLength(5_000);
    for (const page of pages) expect(page.text).toContain('What is owed');
    expect(pages.at(-1)?.text).toContain(`Page ${pages.length} of ${pages.length}`);
  });

  it('that nobody would carry is refused before it holds everyone up', async () => {
    const d = withRows(6_001);
    const answer = await ask(d.db, d.clock, 'paper.make', { paper: 'coming due', filter: {} });
    expect(answer).toMatchObject({ ok: false, error: { code: 'too long', field: 'filter' } });
  });
});

describe('the history of a thing', () => {
  it('holds every line of its history, what was voided struck through, with why and by whom', async () => {
    const { d, hose } = furnished();
    const history = await d.ask<HistoryLine[]>('item.history', { item: hose });
    const { text, pages } = await printed(d, { paper: 'item history', item: hose });
    expect(text).toContain(`Every record, the latest first: ${history.length} lines`);
    for (const { what, byName, via } of history) {
      expect(text).toContain(what);
      expect(text).toContain(`${byName} (${via})`);
    }
    expect(text).toMatch(/Void since 25 Nov 2026 11:\d\d, by R\. Alder: Was hose 31-170/);
    expect(text).toContain('test pressure 300 psi');
    const struck = pages.flatMap(({ pieces, strokes }) =>
      pieces.filter(({ x, y, size }) =>
        strokes.some(
          ([x1, y1, x2, y2]) => Math.abs(y1 - y2) < 0.1 && x1 - 1 < x && x < x2 && y1 < y && y1 > y - size,
        ),
      ),
    );
    const words = struck.map(p => p.text.trim()).join(' ');
    expect(words).toMatch(/Service test, passed/);
    // One of the two tests was voided, and only that one is struck.
    expect(words.match(/passed/g)).toHaveLength(1);
  });

  it('says what it is, how it stands, and of every date the rule and the reckoning', async () => {
    const { d, hose } = furnished();
    const page = await d.ask<ItemPage>('item.page', { item: hose });
    const { text } = await printed(d, { paper: 'item history', item: hose });
    expect(text).toContain('31-107 1¾ in attack hose, 50 ft');
    expect(text).toContain('SN-107');
    expect(text).toContain('Engine 31, hosebed driver side');
    expect(page.due.length).toBeGreaterThan(0);
    for (const { requirement } of page.due) {
      const { paragraph } = await d.ask<{ paragraph: string }>('due.explain', { item: hose, requirement });
      expect(text).toContain(paragraph);
    }
  });

  it('leaves out no word of a long reason, and sets none over the foot of a page', async () => {
    const { d, hose } = furnished();
    const words = Array.from({ length: 620 }, (_, i) => `w${i}`)
      .join(' ')
      .slice(0, 3_900);
    const last = words.split(' ').at(-2) ?? '';
    d.must('item.tagOut', { item: hose, reason: words, on: TODAY });
    const { text, pages } = await printed(d, { paper: 'item history', item: hose });
    for (const word of ['w0', 'w100', 'w300', last]) expect(text).toMatch(new RegExp(`\\b${word}\\b`));
    for (const { pieces } of pages)
      for (const { y, text: word } of pieces.filter(p => /^w\d{1,4}(\s|$)/.test(p.text)))
        expect(y, word).toBeLessThan(792 - 54);
  });

  it('has the photos that a PDF takes as they are, says of the others that they are there, and prints none by its name', async () => {
    const { d, hose } = furnished();
    const cut = (bytes: Buffer) => Buffer.concat([bytes.subarray(0, 20), Buffer.alloc(30)]);
    const webp = Buffer.from('RIFF\x1a\x00\x00\x00WEBPVP8 ', 'latin1');
    const attachments = [JPEG, png(1), webp, cut(JPEG)].map(b => sent(b));
    d.must('item.tagOut', { item: hose, reason: 'Cut', photos: ['#0', '#1', '#2', '#3'] }, { attachments });
    const { text, file } = await printed(d, { paper: 'item history', item: hose });
    expect(text).toContain('4 photos');
    expect(text.match(/25 Nov 2026\. Tagged out: Cut/g)).toHaveLength(4);
    expect(text.match(/is of a kind that is not printed: open it on the screen/g)).toHaveLength(2);
    const bytes = Buffer.from(file.base64, 'base64');
    // ISO 32000-1:2008, 8.9.5: each picture is an image XObject; 7.4.8: a JPEG is in it byte for byte.
    expect(bytes.toString('latin1').match(/\/Subtype \/Image/g)).toHaveLength(2);
    expect(bytes.includes(JPEG)).toBe(true);
  });

  it('draws letters and signs that its own face has not', async () => {
    const { d, g } = furnished();
    const item = aHose(d, 'Ł-7', { place: g.rack });
    d.must('item.tagOut', { item, reason: 'Żak: ≥ 2½ in cut, “Сайт” — 10 µm', on: TODAY });
    const { text } = await printed(d, { paper: 'item history', item });
    expect(text).toContain('Ł-7');
    expect(text).toContain('Żak: ≥ 2½ in cut, “Сайт” — 10 µm');
  });
});

describe('the morning page', () => {
  it('tells of each unit of its station what readiness tells, and that it only advises', async () => {
    const { d } = furnished();
    const { units } = await d.ask<Readiness>('readiness.now', { on: TODAY });
    const { text, pages } = await printed(d, { paper: 'morning page', station: 'station 31', on: TODAY });
    expect(pages).toHaveLength(1);
    const [unit] = units;
    expect(unit?.verdict).toBe('not ready');
    expect(text).toContain('Engine 31 Not ready');
    expect(text).toContain(unit?.says ?? '?');
    const { d7, d30, d90 } = unit?.within ?? {};
    expect(text).toContain(`Due within 7, 30, 90 days: ${d7}, ${d30}, ${d90}`);
    const [alone] = (await d.ask<Readiness>('readiness.now', { on: TODAY, unit: 'Engine 31' })).units;
    for (const reason of alone?.reasons ?? []) expect(text).toContain(reason.number);
    expect(text).toContain('It advises. It does not change dispatch status; the officer decides.');
    expect(text).toContain('Cut 12 ft from the male end');
    expect(text).toMatch(/Missing 31-900 1¾ in attack hose, 50 ft\. Not in the rack 21 Nov 2026/);
    expect(text).toContain('Generator hard to start; fresh fuel tried. (R. Alder)');
    for (const room of ['Officer', 'Shift', 'Date and time']) expect(text).toContain(room);
    // As many lines to write on as stay on the page, which the tight form would leave half empty.
    const [page] = pages;
    const from = page?.pieces.find(p => p.text.startsWith('Seen'))?.y ?? 0;
    const lines = page?.strokes.filter(([x1, y1, x2]) => x2 - x1 > 500 && y1 > from) ?? [];
    // And the hairline of the footer.
    expect(lines).toHaveLength(8 + 1);
  });

  it('tells ten reasons of a unit and counts the others', async () => {
    const { d, g } = furnished();
    const before = (await d.ask<Readiness>('readiness.now', { on: TODAY, unit: 'Engine 31' })).units[0];
    for (let n = 0; n < 12; n++)
      d.must('item.tagOut', { item: aHose(d, `32-${n}`, { place: g.bed }), reason: 'Cut' });
    const [unit] = (await d.ask<Readiness>('readiness.now', { on: TODAY, unit: 'Engine 31' })).units;
    const reasons = unit?.reasons.length ?? 0;
    expect(reasons).toBeGreaterThanOrEqual((before?.reasons.length ?? 0) + 12);
    const { text } = await printed(d, { paper: 'morning page', station: 'Station 31', on: TODAY });
    expect(text).toContain(`${reasons - 10} more`);
  });

  it('tells nothing of another station’s units', async () => {
    const { d } = furnished();
    const { text } = await printed(d, { paper: 'morning page', station: 'Station 32' });
    expect(text).toContain('No unit is known to be at this station.');
    expect(text).not.toContain('31-107');
    expect(text).not.toContain('Generator');
  });
});

describe('the rule sheet', () => {
  it.each(['hose', 'ladder', 'cylinder', 'pack'])(
    'of %s holds each requirement with its sources, its force, who may do it, and its cautions in a box',
    async family => {
      const { d } = furnished();
      const { rules } = await d.ask<RulebookList>('rulebook.list', { family });
      const { text } = await printed(d, { paper: 'rule sheet', family });
      expect(rules.length).toBeGreaterThan(0);
      for (const { requirement: r } of rules) {
        expect(text).toContain(r.title);
        expect(text).toContain(clockWords(r, familyOf(family)));
        expect(text).toContain(r.binds);
        expect(text).toContain(r.who);
        for (const { document, section, edition, note } of r.sources)
          for (const part of [document, section, edition, note ?? '']) expect(text).toContain(part);
        for (const caution of r.cautions) expect(text).toContain(caution);
      }
      const boxes = rules.filter(r => r.requirement.cautions.length > 0).length;
      expect(text.split('Before you start')).toHaveLength(boxes + 1);
      expect(text.split(ADVICE)).toHaveLength(boxes + 1);
      if (rules.some(r => r.requirement.sources.some(s => s.confidence === 'read second-hand')))
        expect(text).toContain('read second-hand; check it against the document in hand.');
    },
  );

  it('tells periods as the regulation’s table has them', async () => {
    const { d } = furnished();
    const { text } = await printed(d, { paper: 'rule sheet', family: 'cylinder' });
    // 49 CFR 180.209(a), Table 1: 3HT three years; 3A, 3AA and 3AL five; 8 and 8AL ten. (b): ten with the star mark.
    expect(text).toMatch(/By specification\. 3 years: 3HT\. 5 years: 3, 3A, 3AA, 3AL, /);
    expect(text).toMatch(/10 years: 3A \(star mark\), 3AA \(star mark\), 8, 8AL, /);
  });
});

describe('the rig sheet', () => {
  it('holds every place and every thing of the rig, with a box to tick, and what is wrong in words', async () => {
    const { d, g } = furnished();
    const tray = d.must('place.add', { name: 'tray 3', kind: 'compartment', under: g.bed });
    aHose(d, '31-777', { place: tray });
    // Tagged out, and never tested: the heavier of the two is told.
    d.must('item.tagOut', { item: aHose(d, '31-778', { place: g.rig }), reason: 'Cut' });
    const rig = await d.ask<RigPage>('rig.page', { rig: 'Engine 31', on: TODAY });
    const { text, pages } = await printed(d, { paper: 'rig sheet', rig: g.rig, on: TODAY });
    const things = [...rig.loose, ...rig.places.flatMap(p => p.items)];
    for (const { number } of things) expect(text).toContain(number);
    for (const { name } of rig.places) expect(text).toContain(name);
    expect(text).toContain('On the rig, in no place of it');
    expect(text).toContain('Never done');
    expect(text).toMatch(
      new RegExp(`${things.length} things in ${rig.places.length} places, \\d with something wrong`),
    );
    expect(pages.length).toBe(1);
  });
});

describe('the changeover sheet', () => {
  it('holds by place what moves with a box to tick, what is there already, what stays and what is lacking', async () => {
    const { d, g } = furnished();
    const reserve = d.must('rig.add', { name: 'Reserve R-1', station: g.station });
    const r1 = d.must('place.add', { name: 'L1', kind: 'compartment', under: reserve });
    d.must('place.add', { name: 'L1', kind: 'compartment', under: g.rig });
    d.must('item.receive', { family: 'imager', number: 'TIC-9', place: r1 });
    d.must('item.receive', { family: 'imager', number: 'TIC-3', place: g.rig });
    const line = (what: string, family: string | undefined, qty: number) => ({
      what,
      ...(family ? { family } : {}),
      qty,
      min: 1,
      place: 'L1',
    });
    d.must('carry.set', {
      of: g.unit,
      lines: [
        line('Thermal imager', 'imager', 3),
        line('Spanner wrench', undefined, 4),
        line('Gas meter', 'gas-meter', 1),
      ],
    });
    const { text, pages } = await printed(d, { paper: 'changeover sheet', from: g.rig, to: reserve });
    for (const said of [
      'What moves from Engine 31 to Reserve R-1?',
      'TIC-3',
      'TIC-9',
      'There',
      '4 of 4 Spanner wrench',
      'Lacking',
      '1 of 1 Gas meter',
      'Stays on Engine 31',
      'No line asks for it:',
      'Page 1 of 1',
      'Moved by',
    ])
      expect(text).toContain(said);
    expect(pages.length).toBe(1);
  });
});

describe('the tag', () => {
  it('says first what must not be done, then what it is, why, since when and by whom, and who may take it off', async () => {
    const { d, g } = furnished();
    const by = d.must('member.add', { number: '7', name: 'N. Calder', position: 'driver' });
    const saw = d.must('item.receive', {
      family: 'power-tool',
      number: 'SAW-4',
      attributes: { kind: 'chain saw' },
      place: g.bed,
      on: '2022-03-01',
    });
    d.must('item.tagOut', { item: saw, reason: 'Chain brake does not hold', tag: '0412', on: TODAY }, { by });
    const { text, pages } = await printed(d, { paper: 'tag', item: saw });
    expect(pages).toHaveLength(1);
    for (const said of [
      'Do not use',
      'Tagged out',
      'SAW-4',
      'Chain saw',
      'Chain brake does not hold',
      '0412',
      '25 Nov 2026',
      'N. Calder',
      'Taken off by somebody entitled to return it, and by nobody else.',
    ])
      expect(text).toContain(said);
  });

  it('of a thing held for investigation forbids every touch', async () => {
    const { d, hose } = furnished();
    d.must('item.hold', { item: hose, reason: 'Injury on Mill Road', on: TODAY });
    const { text } = await printed(d, { paper: 'tag', item: hose });
    expect(text).toContain('Do not touch');
    expect(text).toContain('no cleaning, filling, repair or test');
  });
});

describe('the reorder list', () => {
  it('says what to order, for which place, and what is moved there first', async () => {
    const { d, g } = furnished();
    expect((await printed(d, { paper: 'reorder list' })).text).toContain('Nothing is under its minimum.');
    const gloves = d.must('stock.add', { what: 'Exam gloves, large', unit: 'box', perBox: 100 });
    d.must('stock.par', { stock: gloves, place: g.rack, par: 600, min: 300 });
    d.must('stock.par', { stock: gloves, place: g.bed, par: 50, min: 20 });
    d.must('stock.receive', { stock: gloves, place: g.bed, amount: 80 });
    const { text } = await printed(d, { paper: 'reorder list' });
    for (const said of [
      'Exam gloves, large',
      '6 boxes of 100',
      'Station 31, hose rack: 6 boxes',
      'Move first',
    ])
      expect(text).toContain(said);
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 3 });
    expect((await printed(d, { paper: 'reorder list' })).text).toContain('a count is owed');
  });
});

describe('the fill log', () => {
  it('says date, filler, cylinder, the hydro date that was checked and the pressure: what an auditor asks for', async () => {
    const { d } = furnished();
    const paper = { paper: 'fill log', from: '2026-11-01', to: '2026-11-25' } as const;
    expect((await printed(d, paper)).text).toContain('Nothing was filled.');
    const item = d.must('item.receive', {
      family: 'cylinder',
      number: 'C-208',
      attributes: { spec: '3AL', servicePressure_psi: 4500, made: '2016-02' },
    });
    d.must('record.add', { item, activity: 'requalification', outcome: 'pass', rin: 'A123', on: '2021-09' });
    d.must('cylinder.fill', {
      item,
      from_psi: 900,
      to_psi: 4500,
      hydroDate: '2021-09',
      performedBy: 'S. Ibarra',
      on: '2026-11-23T03:10',
    });
    d.must('cylinder.fill', { foreign: { number: 'CB-207', owner: 'Cottonwood Basin Fire' }, to_psi: 4400 });
    const { text } = await printed(d, paper);
    for (const said of [
      '2 fills, 1 Nov 2026 to 25 Nov 2026',
      '23 Nov 2026 03:10',
      'S. Ibarra',
      'C-208',
      'Sep 2021',
      '900',
      '4,500',
      '49 CFR 180.205(c)',
      'Pulled and tagged out.',
      'Cottonwood Basin Fire',
      'Before you start',
    ])
      expect(text, said).toContain(said);
  });
});

describe('what cannot be printed', () => {
  it.each([
    [{ paper: 'item history', item: 'no such thing' }, 'not found', 'item'],
    [{ paper: 'tag', item: 'no such thing' }, 'in service', 'item'],
    [{ paper: 'morning page', station: 'Station 99' }, 'not found', 'station'],
    [{ paper: 'rig sheet', rig: 'Engine 99' }, 'not found', 'rig'],
    [{ paper: 'changeover sheet', from: 'Engine 99', to: 'Engine 31' }, 'not found', 'from'],
    [{ paper: 'rule sheet', family: 'kite' }, 'unknown family', 'family'],
    [{ paper: 'coming due', filter: { family: 'kite' } }, 'unknown family', 'family'],
    [{ paper: 'coming due', filter: { unit: 'Engine 99' } }, 'not found', 'unit'],
    [{ paper: 'coming due', filter: { state: 'late' } }, 'bad question', 'filter.state'],
    [{ paper: 'coming due', filter: { on: '2026-02-30' } }, 'bad question', 'filter.on'],
    [{ paper: 'coming due', filter: { limit: 5 } }, 'bad question', 'limit'],
    [{ paper: 'coming due' }, 'bad question', 'filter'],
    [{ paper: 'poster' }, 'bad question', 'paper'],
    [{}, 'bad question', 'paper'],
  ])('%j is refused, with what is wrong', async (paper, code, field) => {
    const { d } = departmentInMemory();
    const answer = await ask(d.db, d.clock, 'paper.make', paper);
    expect(answer).toMatchObject({ ok: false, error: { code, field } });
    if (!answer.ok) expect(answer.error.todo).not.toBe('');
  });

  it('is stopped on the way where the asker cancels, and tells how far it has come until then', async () => {
    const { d, g } = departmentInMemory();
    for (let n = 0; n < 40; n++) aHose(d, `32-${n}`, { place: g.rack });
    const paper = { paper: 'coming due', filter: {} };
    const told: number[] = [];
    const whole = await ask(d.db, d.clock, 'paper.make', paper, (done, total) => {
      told.push(done / total);
      return 'go on';
    });
    expect(whole.ok).toBe(true);
    expect(told.length).toBeGreaterThan(10);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
    // Told while the pages are laid out too, which is most of the work.
    expect(told.filter(share => share > 0.1 && share < 0.7).length).toBeGreaterThan(20);
    const stopped = await ask(d.db, d.clock, 'paper.make', paper, done => (done > 30 ? 'stop' : 'go on'));
    expect(stopped).toMatchObject({ ok: false, error: { code: 'canceled' } });
    // The next one is made as if nothing had been.
    expect((await ask(d.db, d.clock, 'paper.make', paper)).ok).toBe(true);
  });
});
