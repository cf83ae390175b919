/** A looser rule is marked on every page, and a projection is printed as a range. The program's own rules. */
import { describe, expect, it } from 'vitest';
import type { DueList, Questions } from '../../db/api.ts';
import type { PdfFile } from '../../db/api-desk.ts';
import { LOOSER_MEANS } from '../../domain/rulebook/due-words.ts';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import { aHose, departmentInMemory, type TestDepartment } from './kit/department.ts';
import { readPdf } from './kit/pdf.ts';

async function printed(d: TestDepartment, paper: Questions['paper.make']['takes']): Promise<string> {
  const file = await d.ask<PdfFile>('paper.make', { by: 'J. Okafor', ...paper });
  return readPdf(Buffer.from(file.base64, 'base64')).text;
}

/** A hose test that the chief lets stand for two years: one is late by it, one is due within the week. */
function loosened() {
  const { d, g } = departmentInMemory();
  d.must('profile.set', { state: 'CO', kind: 'volunteer' });
  const known = shippedRequirement('hose.service-test');
  if (known?.clock.kind !== 'since last') throw new Error('The hose test counts from the last one.');
  d.must('rulebook.adopt', {
    requirements: [{ ...known, clock: { ...known.clock, every: { months: 24 } } }],
    from: '2022-01-01',
    reason: 'The tester is shared with two districts',
    authority: 'Fire chief, order 4',
  });
  const tested = (number: string, on: string) => {
    const hose = aHose(d, number, { place: g.bed });
    d.must('record.add', {
      ...{ item: hose, activity: 'service test', outcome: 'pass', on },
      readings: { testPressure_psi: 300, held_s: 300 },
    });
    return hose;
  };
  return { d, g, late: tested('31-107', '2024-06-13'), soon: tested('31-108', '2024-11-28') };
}

describe('a looser rule', () => {
  it('is marked on the morning page beside what is late by it and what is soon due, with what the mark means', async () => {
    const { d } = loosened();
    const text = await printed(d, { paper: 'morning page', station: 'Station 31' });
    expect(text).toContain('Service test · LOOSER RULE: 1¾ in attack hose, 50 ft');
    expect(text).toContain('Engine 31: service test · LOOSER RULE by 28 Nov 2026: 31-108');
    expect(text).toContain(LOOSER_MEANS);
  });

  it('is marked on the history of the thing and on the list', async () => {
    const { d, late } = loosened();
    for (const paper of [
      { paper: 'item history', item: late } as const,
      { paper: 'coming due', filter: {} } as const,
    ]) {
      const text = await printed(d, paper);
      expect(text).toContain('Service test · LOOSER RULE');
      expect(text).toContain(LOOSER_MEANS);
    }
  });

  it('is not spoken of where none is', async () => {
    const { d, g } = departmentInMemory();
    aHose(d, '31-107', { place: g.bed });
    expect(await printed(d, { paper: 'morning page', station: 'Station 31' })).not.toContain('LOOSER');
  });
});

describe('a projection', () => {
  it('is printed as a range on every paper, never as one day', async () => {
    const { d, g } = departmentInMemory();
    const service = shippedRequirement('apparatus.preventive-service');
    d.must('rulebook.adopt', { requirements: [service], from: '2020-01-01' });
    const read = (hours: number, miles: number, on: string) => {
      d.must('rig.read', { rig: g.rig, meter: 'engine hours', reading: hours, on });
      d.must('rig.read', { rig: g.rig, meter: 'miles', reading: miles, on });
    };
    read(1_000, 10_000, '2026-09-01');
    d.must('record.add', { item: g.rig, activity: 'preventive service', outcome: 'pass', on: '2026-09-01' });
    // Three hours a day or a little less: 250 since the service are reached within the week.
    read(1_110, 10_200, '2026-10-12');
    read(1_235, 10_400, '2026-11-23');
    const { rows } = await d.ask<DueList>('due.list', { requirement: 'apparatus.preventive-service' });
    const [row] = rows;
    if (!row?.dueOn || !row.dueTo) throw new Error('It is projected.');
    const range = /likely \d+ \w+ 202\d to \d+ \w+ 202\d; a reading decides/;
    for (const paper of [
      { paper: 'item history', item: g.rig } as const,
      { paper: 'coming due', filter: {} } as const,
      { paper: 'morning page', station: 'Station 31' } as const,
    ])
      expect([paper.paper, range.test(await printed(d, paper))]).toEqual([paper.paper, true]);
  });
});
