/**
 * Going through a rig: exceptions and not ticks, a signature that takes effect as a whole, and nothing that is changed
 * quietly afterwards. Common practice, no source, where none is named.
 */
import { describe, expect, it } from 'vitest';
import type { CarryPage, CheckoffLine, CheckoffPage, DefectLine } from '../../db/api-checks.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { carrying, present } from './kit/carry.ts';

type Carrying = Awaited<ReturnType<typeof carrying>>;
const BED = 'hosebed driver side';

const begin = ({ d, g, started }: Carrying) => d.must('checkoff.start', { of: g.unit, started });
const works = (c: Carrying, more: Record<string, unknown> = {}) =>
  present('L1', c.l1, {
    operated: [
      { line: c.line('Chain saw'), item: c.saw, works: true },
      { line: c.line('Foam concentrate'), item: null, works: true, reading: '20' },
    ],
    ...more,
  });

describe('a carry list', () => {
  it('is filled by the tracked things of the right kind in their place; counted things count by what was found', async () => {
    const { page } = await carrying();
    const { lines } = await page();
    expect(lines.map(l => [l.code, l.what, l.here.map(t => t.number), l.serving, l.lacking])).toEqual([
      ['A1', '1¾ in attack hose', ['31-1', '31-2'], 2, 0],
      ['B1', 'Spanner wrench', [], null, 0],
      ['B2', 'Chain saw', ['SAW-1'], 1, 0],
      ['B3', 'Foam concentrate', [], null, 0],
    ]);
  });

  it('of an old day stays as it was, whatever became of its lines since', async () => {
    const { d, g, page, line } = await carrying();
    d.must('carry.set', {
      of: g.unit,
      on: '2026-06-01',
      lines: [{ line: line('Spanner wrench'), what: 'Spanner wrench', qty: 6, min: 4, place: 'L1' }],
      end: [line('Chain saw')],
    });
    const told = async (on?: string) => (await page(on)).lines.map(l => `${l.qty} ${l.what}`);
    expect(await told()).toEqual(['2 1¾ in attack hose', '6 Spanner wrench', '4 Foam concentrate']);
    expect(await told('2026-05-31')).toEqual([
      '2 1¾ in attack hose',
      '4 Spanner wrench',
      '1 Chain saw',
      '4 Foam concentrate',
    ]);
    expect(await told('2025-12-31')).toEqual([]);
  });

  it('is refused a minimum above what is carried, and a family that there is not', async () => {
    const { d, g } = await carrying();
    const set = (line: object) =>
      d.codes('carry.set', { of: g.unit, lines: [{ what: 'Axe', place: 'L1', ...line }] });
    expect(set({ qty: 1, min: 2 })).toEqual(['minimum above']);
    expect(set({ qty: 1, min: 1, family: 'axes' })).toEqual(['unknown family']);
    expect(set({ qty: 1, min: 1, like: { kind: 'pick' } })).toEqual(['not tracked']);
  });

  it('belongs to the unit and goes with its crew: on a reserve rig it finds what is there', async () => {
    const { d, g, page, saw } = await carrying();
    const reserve = d.must('rig.add', { name: 'Reserve R-1', station: g.station, on: '2015-01-01' });
    const bed = d.must('place.add', { name: BED, kind: 'compartment', under: reserve, on: '2015-01-01' });
    d.must('rig.ride', { rig: reserve, unit: g.unit, on: '2026-11-25T06:00' });
    const { rig, places, lines } = await page();
    expect(rig?.name).toBe('Reserve R-1');
    expect(places.map(p => [p.name, p.at])).toEqual([
      [BED, bed],
      ['L1', null],
    ]);
    expect(lines.map(l => l.lacking)).toEqual([2, 0, 1, 0]);
    expect(saw).not.toBe('');
  });
});

describe('a check-off', () => {
  it('that everything is present does not say that the saw was run or the foam read: it cannot be signed so', async () => {
    const c = await carrying();
    const { d, finished } = c;
    const checkoff = begin(c);
    d.must('checkoff.mark', { checkoff, marks: [present(BED, c.g.bed), present('L1', c.l1)] });
    const wrong = d.refused('checkoff.sign', { checkoff, finished });
    expect(wrong.map(p => p.message)).toEqual([
      'L1: Chain saw: not operated.',
      'L1: Foam concentrate: level not entered.',
    ]);
    d.must('checkoff.mark', { checkoff, marks: [works(c)] });
    d.must('checkoff.sign', { checkoff, finished });
    const { lines } = await c.page();
    expect(lines.every(l => l.checked?.on === '2026-11-25')).toBe(true);
  });

  it('is not signed while a place was not gone through, but may be with a reason', async () => {
    const c = await carrying();
    const checkoff = begin(c);
    c.d.must('checkoff.mark', { checkoff, marks: [works(c)] });
    expect(c.d.refused('checkoff.sign', { checkoff, finished: c.finished })[0]?.message).toBe(
      'hosebed driver side: not gone through.',
    );
    c.d.must('checkoff.mark', {
      checkoff,
      marks: [present(BED, c.g.bed, { present: false, leftOut: 'Hose is drying' })],
    });
    c.d.must('checkoff.sign', { checkoff, finished: c.finished });
    const { lines } = await c.page();
    // What was left out was not looked at.
    expect(lines.map(l => l.checked?.on ?? null)).toEqual([null, '2026-11-25', '2026-11-25', '2026-11-25']);
  });

  it('takes effect as a whole when it is signed, and not before', async () => {
    const c = await carrying();
    const { d, hose, saw, line, finished } = c;
    const checkoff = begin(c);
    const marks = [
      present(BED, c.g.bed, {
        exceptions: [
          { line: line('1¾ in attack hose'), item: hose[0], kind: 'missing', next: 'report missing' },
        ],
        seen: [hose[1]],
      }),
      present('L1', c.l1, {
        exceptions: [
          { line: line('Chain saw'), item: saw, kind: 'damaged', next: 'tag out', note: 'Chain brake slips' },
          { line: line('Spanner wrench'), kind: 'short', short: 1, next: 'defect' },
        ],
        operated: [{ line: line('Foam concentrate'), works: true, reading: '20' }],
      }),
    ];
    d.must('checkoff.mark', { checkoff, marks });
    expect([d.conditionOf(saw), d.conditionOf(hose[0] ?? '')]).toEqual(['serviceable', 'serviceable']);
    d.must('checkoff.sign', { checkoff, finished });
    expect([d.conditionOf(saw), d.conditionOf(hose[0] ?? '')]).toEqual(['tagged out', 'missing']);
    const { lines } = await c.page();
    expect(lines.map(l => [l.what, l.lacking, l.defects.map(f => f.kind)])).toEqual([
      ['1¾ in attack hose', 1, ['missing']],
      ['Spanner wrench', 1, ['short']],
      ['Chain saw', 1, ['damaged']],
      ['Foam concentrate', 0, []],
    ]);
  });

  it('is free to mend until it is signed, and afterwards not at all', async () => {
    const c = await carrying();
    const { d, line, finished } = c;
    const checkoff = begin(c);
    d.must('checkoff.mark', {
      checkoff,
      marks: [
        present(BED, c.g.bed),
        works(c, { exceptions: [{ line: line('Spanner wrench'), kind: 'short', short: 2, next: 'defect' }] }),
      ],
    });
    d.must('checkoff.mark', { checkoff, marks: [works(c)] });
    d.must('checkoff.sign', { checkoff, finished });
    const { rows } = await d.ask<{ rows: DefectLine[] }>('defects.list', {});
    expect(rows).toEqual([]);
    expect(d.codes('checkoff.mark', { checkoff, marks: [works(c)] })).toEqual(['signed']);
    expect(d.codes('checkoff.sign', { checkoff, finished })).toEqual(['signed']);
  });

  it('is gone through by two people at two places at once; of one place nobody overwrites what he has not seen', async () => {
    const c = await carrying();
    const { d } = c;
    const other = d.must('member.add', { number: '112', name: 'Ana Ruiz', position: 'firefighter' });
    const checkoff = begin(c);
    d.must('checkoff.mark', { checkoff, marks: [present(BED, c.g.bed)], saw: { [BED]: null } });
    d.must('checkoff.mark', { checkoff, marks: [works(c)], saw: { L1: null } }, { by: other });
    const { places } = await d.ask<CheckoffPage>('checkoff.page', { checkoff });
    expect(places.map(p => [p.name, p.mark?.present, p.mark?.byName])).toEqual([
      [BED, true, 'R. Alder'],
      ['L1', true, 'Ana Ruiz'],
    ]);
    expect(
      d.refused('checkoff.mark', { checkoff, marks: [present('L1', c.l1)], saw: { L1: null } })[0]?.message,
    ).toBe('L1 was marked by Ana Ruiz since you looked.');
    const mark = places[1]?.mark?.fact ?? null;
    d.must('checkoff.mark', { checkoff, marks: [works(c)], saw: { L1: mark } });
  });

  it('keeps the list that was gone through, whatever is said of that day later', async () => {
    const c = await carrying();
    const { d, g, line, finished } = c;
    const checkoff = begin(c);
    d.must('checkoff.mark', { checkoff, marks: [present(BED, g.bed), works(c)] });
    d.must('checkoff.sign', { checkoff, finished });
    d.must('carry.set', { of: g.unit, on: '2026-11-25', end: [line('Spanner wrench')] });
    const { places, lines } = await d.ask<CheckoffPage>('checkoff.page', { checkoff });
    expect(places.flatMap(p => p.lines.map(l => l.what))).toContain('Spanner wrench');
    expect(lines).toBe(4);
    const now = await d.ask<CarryPage>('carry.page', { of: 'Engine 31' });
    expect(now.lines.map(l => l.what)).not.toContain('Spanner wrench');
  });

  it('that was gone through faster than the department asks for is noted, by its sheet and nowhere else', async () => {
    const c = await carrying();
    const { d, g } = c;
    const { id } = await d.ask<{ id: string }>('department.page');
    const checkoff = begin(c);
    d.must('checkoff.mark', { checkoff, marks: [present(BED, g.bed), works(c)] });
    // Four lines from 07:10 to 07:10: 59 s at the most, 14.7 s a line.
    d.must('checkoff.sign', { checkoff, finished: c.started });
    const noted = async () => {
      const { rows } = await d.ask<{ rows: CheckoffLine[] }>('checkoffs.list');
      const { haste } = await d.ask<CheckoffPage>('checkoff.page', { checkoff });
      expect(rows[0]?.haste).toEqual(haste);
      return haste;
    };
    const before = await d.ask('readiness.now');
    expect(await noted()).toBeNull();
    d.must('department.amend', { department: id, hasteUnder_s: 15 });
    expect(await noted()).toEqual({ secondsPerLine: 14.7, under_s: 15 });
    expect(await d.ask('readiness.now')).toEqual(before);
    d.must('department.amend', { department: id, hasteUnder_s: 14 });
    expect(await noted()).toBeNull();
    d.must('department.amend', { department: id, hasteUnder_s: null });
    expect(await noted()).toBeNull();
    for (const hasteUnder_s of [0, 61, '3'])
      expect(d.codes('department.amend', { department: id, hasteUnder_s })).toEqual(['bad value']);
  });

  it('is countersigned by who is entitled, once, after it was signed', async () => {
    const c = await carrying();
    const { d, finished } = c;
    const driver = d.must('member.add', { number: '112', name: 'Ana Ruiz', position: 'driver' });
    const checkoff = begin(c);
    d.must('checkoff.mark', { checkoff, marks: [present(BED, c.g.bed), works(c)] });
    expect(d.codes('checkoff.countersign', { checkoff })).toEqual(['not signed']);
    d.must('checkoff.sign', { checkoff, finished }, { by: driver });
    expect(d.codes('checkoff.countersign', { checkoff }, { by: driver })).toEqual(['not entitled']);
    d.must('checkoff.countersign', { checkoff });
    expect(d.codes('checkoff.countersign', { checkoff })).toEqual(['countersigned']);
    const page = await d.ask<CheckoffPage>('checkoff.page', { checkoff });
    expect([page.state, page.signedBy, page.countersignedBy]).toEqual([
      'countersigned',
      'Ana Ruiz',
      'R. Alder',
    ]);
  });

  it('does nothing with what is held for investigation', async () => {
    const c = await carrying();
    const { d, saw, line } = c;
    d.must('item.hold', { item: saw, reason: 'Hand injury' });
    const checkoff = begin(c);
    const damaged = (next: string) => ({
      checkoff,
      marks: [
        present('L1', c.l1, {
          exceptions: [{ line: line('Chain saw'), item: saw, kind: 'damaged', next, note: 'Bar bent' }],
        }),
      ],
    });
    expect(d.codes('checkoff.mark', damaged('tag out'))).toEqual(['held']);
    d.must('checkoff.mark', damaged('note'));
  });
});

describe('what was found wrong', () => {
  const signed = async (next: string, more: Record<string, unknown> = {}) => {
    const c = await carrying();
    const checkoff = begin(c);
    c.d.must('checkoff.mark', {
      checkoff,
      marks: [
        present(BED, c.g.bed),
        present('L1', c.l1, {
          exceptions: [
            { line: c.line('Chain saw'), item: c.saw, kind: 'damaged', note: 'Pull cord', next, ...more },
          ],
          operated: [{ line: c.line('Foam concentrate'), works: true, reading: '20' }],
        }),
      ],
    });
    c.d.must('checkoff.sign', { checkoff, finished: c.finished });
    const open = async () => (await c.d.ask<{ rows: DefectLine[] }>('defects.list', { open: true })).rows;
    return { c, open };
  };

  it('stays open while its thing is out, and is settled by its return and not by word', async () => {
    const { c, open } = await signed('tag out');
    const [defect] = await open();
    expect(defect).toMatchObject({ what: 'Chain saw', number: 'SAW-1', condition: 'tagged out' });
    expect(c.d.codes('defect.close', { defect: defect?.id, how: 'repaired' })).toEqual(['thing is out']);
    c.d.must('item.return', { item: c.saw });
    expect(await open()).toEqual([]);
    const { rows } = await c.d.ask<{ rows: DefectLine[] }>('defects.list', {});
    expect(rows[0]?.closed?.how).toBe('back in service');
  });

  it('is ended by another than the repairer where the department has chosen so', async () => {
    const { c } = await signed('tag out');
    const repair = familyOf('power-tool')?.repairs.find(r => r.owes.length === 0)?.kind;
    c.d.must('item.repaired', { item: c.saw, kind: repair, note: 'New cord' });
    const officer = c.d.must('member.add', {
      number: '209',
      name: 'B. Whitlow',
      position: 'company officer',
    });
    c.d.must('policy.choose', { policy: 'return after repair', choice: 'another member' });
    expect(c.d.codes('item.return', { item: c.saw })).toEqual(['repaired it']);
    c.d.must('item.return', { item: c.saw }, { by: officer });
    // Out again for another reason: nobody has repaired it since.
    c.d.must('item.tagOut', { item: c.saw, reason: 'Chain dull' });
    c.d.must('item.return', { item: c.saw });
  });

  it('is settled when its thing is gone for good', async () => {
    const { c, open } = await signed('tag out');
    c.d.must('item.retire', { item: c.saw, reason: 'Not worth a crank' });
    expect(await open()).toEqual([]);
  });

  it('that took nothing out is settled by word, and by no reason given is not', async () => {
    const { c, open } = await signed('defect');
    const [defect] = await open();
    expect(c.d.conditionOf(c.saw)).toBe('serviceable');
    expect(c.d.codes('defect.close', { defect: defect?.id, how: 'no fault found' })).toEqual(['no reason']);
    c.d.must('defect.close', { defect: defect?.id, how: 'repaired' });
    expect(await open()).toEqual([]);
    expect(c.d.codes('defect.close', { defect: defect?.id, how: 'repaired' })).toEqual(['settled']);
  });

  it('is not reported twice: seen again it is confirmed', async () => {
    const { c, open } = await signed('defect');
    const [defect] = await open();
    const again = begin(c);
    c.d.must('checkoff.mark', {
      checkoff: again,
      marks: [
        present(BED, c.g.bed),
        present('L1', c.l1, {
          exceptions: [
            {
              line: c.line('Chain saw'),
              item: c.saw,
              kind: 'damaged',
              note: 'Pull cord',
              next: 'defect',
              defect: defect?.id,
            },
          ],
          operated: [{ line: c.line('Foam concentrate'), works: true, reading: '20' }],
        }),
      ],
    });
    c.d.must('checkoff.sign', { checkoff: again, finished: c.finished });
    expect((await open()).map(f => f.id)).toEqual([defect?.id]);
  });

  it('is swapped in one signature: the spare lies in the place, the other is out and where it was put', async () => {
    const c = await carrying();
    const spare = c.d.must('item.receive', {
      family: 'power-tool',
      number: 'SAW-2',
      attributes: { kind: 'chain saw' },
      place: c.g.rack,
      assignment: 'ready spare',
      on: '2022-03-01',
    });
    const checkoff = begin(c);
    c.d.must('checkoff.mark', {
      checkoff,
      marks: [
        present(BED, c.g.bed),
        present('L1', c.l1, {
          exceptions: [
            {
              line: c.line('Chain saw'),
              item: c.saw,
              kind: 'damaged',
              note: 'Pull cord',
              next: 'swap',
              with: spare,
              to: c.g.rack,
            },
          ],
          operated: [{ line: c.line('Foam concentrate'), works: true, reading: '20' }],
        }),
      ],
    });
    c.d.must('checkoff.sign', { checkoff, finished: c.finished });
    const { lines } = await c.page();
    const line = lines.find(l => l.what === 'Chain saw');
    expect([line?.here.map(t => t.number), line?.lacking]).toEqual([['SAW-2'], 0]);
    expect(c.d.conditionOf(c.saw)).toBe('tagged out');
  });
});
