/** Why: the words that can be read to an inspector. What they must hold is this program's own rule. */
import { describe, expect, it } from 'vitest';
import { explain, whyLine } from '../../../domain/derive/explain.ts';
import { day, SHIPPED, thing, why } from '../notation.ts';

const LADDER = `
  ladder L-4: inService 2020-01-10
  2024-05-02  passed   service test
  2025-06-14  passed   service test
  2025-07-01  failed   inspection
  2025-07-03  passed   inspection
  2026-06-01  stopped  service test`;

const paragraph = (text: string, requirement: string, on: string) => why(text, requirement, on).paragraph;

describe('the paragraph', () => {
  it('names the thing, the day, how late it is, what counts, the arithmetic, the rule and its force', () => {
    const told = paragraph(LADDER, 'ladder.service-test', '2026-06-15');
    for (const part of [
      'Ground ladder L-4 is overdue for its service test: it was due 14 Jun 2026, 1 day ago.',
      'The service test of 14 Jun 2025 passed and counts.',
      '14 Jun 2025 plus 12 months: 14 Jun 2026.',
      'The rule: every 12 months, by NFPA 1932 (7.1.6).',
      'the force of a standard',
      'where the department has adopted NFPA 1932',
    ])
      expect(told).toContain(part);
    expect(told).not.toContain('second-hand');
  });

  it('counts the days to go, and says "in" where it is soon', () => {
    expect(paragraph(LADDER, 'ladder.service-test', '2026-06-14')).toContain(
      'due for its service test by 14 Jun 2026, in 0 days.',
    );
    expect(paragraph(LADDER, 'ladder.service-test', '2026-06-13')).toContain('in 1 day.');
    expect(paragraph(LADDER, 'ladder.service-test', '2025-12-31')).toContain(
      'until 14 Jun 2026, 165 days from now.',
    );
  });

  it('says that a month runs to its last day, and which line of the table or which permit spoke', () => {
    const told = paragraph(
      'cylinder C-1: spec 3AA, star yes, made 2012-02\n2024-01  passed  requalification',
      'cylinder.requalification',
      '2026-11-25',
    );
    expect(told).toContain('Every 10 years, by 49 CFR 180.209(b), star mark.');
    expect(told).toContain(
      'Jan 2024 plus 10 years, on time through the last day of that month: 31 Jan 2034.',
    );
    expect(told).toContain('the force of law');
  });

  it('says on what a first one counts, with both dates where two decide', () => {
    const told = paragraph(
      'hose H-1: made 2025-03-01, inService 2025-09-01',
      'hose.service-test',
      '2026-03-02',
    );
    expect(told).toContain('no service test on record; the first was due 1 Mar 2026, 1 day ago.');
    expect(told).toContain('12 months after manufacture (1 Mar 2025, so 1 Mar 2026)');
    expect(told).toContain('the day it was placed in service (1 Sep 2025): 1 Mar 2026.');
    expect(paragraph('hose H-1: inService 2025-09', 'hose.service-test', '2026-03-02')).toContain(
      'manufacture (not known)',
    );
    expect(paragraph('hose H-1: use attack', 'hose.service-test', '2026-03-02')).toContain(
      'neither the manufacture date nor the day it was placed in service is known',
    );
  });

  it('says that a failure is owed whatever the date, and what alone settles it', () => {
    const told = paragraph(`${LADDER}\n2026-06-15  failed  inspection`, 'ladder.inspection', '2026-06-16');
    expect(told).toContain('Ground ladder L-4 owes an inspection before it may be returned.');
    expect(told).toContain('It failed the inspection of 15 Jun 2026, so it is owed now, whatever the date');
    expect(told).toContain('only a pass settles it');
  });

  it('warns where a source was read second-hand', () =>
    expect(paragraph('ladder L-1: heatLabelExpires 2026-06', 'ladder.heat-label', '2026-01-01')).toContain(
      'Its source was read second-hand; check it against the document in hand.',
    ));

  it('of a life says when it ends or ended', () => {
    const carbon = 'cylinder C-1: construction carbon, made 2012-02';
    expect(paragraph(carbon, 'cylinder.end-of-life', '2027-02-28')).toContain(
      'reaches its end of life on 28 Feb 2027, in 0 days.',
    );
    expect(paragraph(carbon, 'cylinder.end-of-life', '2027-03-01')).toContain(
      'reached its end of life on 28 Feb 2027, 1 day ago.',
    );
    expect(paragraph(carbon, 'cylinder.end-of-life', '2020-01-01')).toContain('has life until 28 Feb 2027');
  });

  it('of a held thing says that this is what it will owe once it is released', () =>
    expect(
      paragraph(`${LADDER}\n2026-06-02  is  held for investigation`, 'ladder.service-test', '2026-06-15'),
    ).toContain('held for investigation: this is what it will owe once it is released'));

  it('of a retired thing says that it owes nothing, and nothing else', () => {
    const told = why(`${LADDER}\n2026-06-02  is  retired`, 'ladder.service-test', '2026-06-15');
    expect([told.paragraph, told.state]).toEqual([
      'Ground ladder L-4 is retired and owes nothing.',
      'not applicable',
    ]);
    expect([told.clocks, told.wouldChange]).toEqual([[], []]);
  });

  it('of a rule that does not concern the thing says why', () => {
    const told = why('hose H-1: use attack', 'hose.occupant-service-test', '2026-01-01');
    expect([told.state, told.steps]).toEqual([
      'not applicable',
      ['It does not concern this thing: only where use is occupant.'],
    ]);
    expect(why('ladder L-1: made 2019', 'ladder.heat-label', '2026-01-01').steps.join()).toContain(
      'no heatLabelExpires is on file',
    );
    expect(why('hose B-1: use occupant', 'hose.service-test', '2026-01-01').steps.join()).toContain(
      'not where use is occupant',
    );
    expect(why('hose H-1: made 1990-01', 'hose.end-of-life', '2026-01-01').steps).toEqual([
      'Made Jan 1990, not before 1 Jul 1987: no fixed end of life.',
    ]);
  });
});

describe('the records', () => {
  it('that count and that do not are all told, the latest first, each with why', () => {
    const { counted, notCounted } = why(
      `${LADDER}\n2026-06-15  failed  service test`,
      'ladder.service-test',
      '2026-06-16',
    );
    expect(counted.map(r => [r.activity, r.on, r.outcome])).toEqual([['service test', '2025-06-14', 'pass']]);
    expect(notCounted.map(r => `${r.on} ${r.activity}: ${r.why}`)).toEqual([
      '2026-06-15 service test: it failed: a failure restarts no clock',
      '2026-06-01 service test: it was not completed: a stopped test is not a pass',
      '2025-07-03 inspection: an inspection does not satisfy the service test',
      '2025-07-01 inspection: an inspection does not satisfy the service test',
      '2024-05-02 service test: a later one counts',
    ]);
  });

  it('none counts where none passed', () =>
    expect(
      why('ladder L-1: made 2019\n2026-06-01  stopped  service test', 'ladder.service-test', '2026-06-02')
        .counted,
    ).toEqual([]));

  it('of a failed test counts where the rule only asks that it was run', () => {
    const told = why(
      'hose B-1: use occupant, made 2020-01\n2025-06-14  failed  service test',
      'hose.inspection',
      '2026-01-01',
    );
    expect(told.counted.map(r => r.outcome)).toEqual(['fail']);
    expect(told.paragraph).toContain('The service test of 14 Jun 2025 was run and counts.');
  });
});

describe('the clocks', () => {
  it('are all there are: one that a test covers is said not to be listed, and the explanation says why', () => {
    const hose =
      'hose H-1: use attack, made 2020-01\n2025-06-14  passed  service test\n2025-08-14  passed  inspection';
    const told = why(hose, 'hose.inspection', '2026-01-01');
    expect(told.clocks.map(c => [c.requirement, c.wins, c.listed])).toEqual([
      ['hose.service-test', true, true],
      ['hose.inspection', false, false],
    ]);
    expect(told.steps.at(-1)).toBe(
      'The service test is due no later and settles it too, so it is not listed beside it.',
    );
  });

  it('win alone or together, and without a date not at all', () => {
    const clocks = (text: string) =>
      why(text, 'ladder.service-test', '2026-01-01').clocks.map(c => [c.title, c.dueOn, c.wins]);
    expect(clocks('ladder L-1: heatLabelExpires 2026-06-14\n2025-06-14  passed  service test')).toEqual([
      ['Inspection', null, false],
      ['Service test', '2026-06-14', true],
      ['Heat label', '2026-06-14', true],
    ]);
  });
});

describe('what would change it', () => {
  const wouldChange = (text: string, requirement: string) =>
    why(text, requirement, '2026-01-01').wouldChange.join(' ');

  it('is a passed record, a corrected date, a confirmed value, a new label, or nothing', () => {
    expect(wouldChange(LADDER, 'ladder.service-test')).toBe(
      'Recording a passed service test sets a new date.',
    );
    expect(wouldChange('ladder L-1: inService 2026-01-01', 'ladder.service-test')).toContain('Correcting');
    expect(wouldChange('cylinder C-1: spec DOT-SP 10915', 'cylinder.requalification')).toContain(
      'Confirming the missing value',
    );
    expect(wouldChange('ladder L-1: heatLabelExpires 2026-06', 'ladder.heat-label')).toContain('A new label');
    expect(wouldChange('cylinder C-1: construction carbon, made 2012-02', 'cylinder.end-of-life')).toBe(
      'Nothing restores a life that has ended; retire it and replace it.',
    );
  });
});

describe('a question about a rule', () => {
  it('that is not in the book has no answer', () =>
    expect(explain(thing(LADDER), 'ladder.polish', SHIPPED, day('2026-01-01'))).toBeNull());

  it('has a one-line answer: its steps, or the whole paragraph where there are none', () => {
    expect(whyLine(why(LADDER, 'ladder.service-test', '2026-01-01'))).toBe(
      '14 Jun 2025 plus 12 months: 14 Jun 2026.',
    );
    const silent = why('hose H-1: use attack', 'hose.end-of-life', '2026-01-01');
    expect([silent.steps, whyLine(silent)]).toEqual([[], silent.paragraph]);
  });
});
