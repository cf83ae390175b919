/**
 * Cylinders: which rule speaks, by specification (49 CFR 180.209 Table 1), by a confirmed special permit, or by
 * construction (service-firm tables, read second-hand); lives; and several clocks on one cylinder.
 */
import { describe, expect, it } from 'vitest';
import { dayText } from '../../../domain/calendar/day.ts';
import { derive, lifeEndsOn } from '../../../domain/derive/thing.ts';
import { PERMIT_OFFERS } from '../../../domain/rulebook/cylinder.ts';
import type { Permit } from '../../../domain/rulebook/types.ts';
import { book, day, dueOn, factsFrom, rowOn, state, thing, why } from '../notation.ts';

const REQUALIFICATION = 'cylinder.requalification';
const LIFE = 'cylinder.end-of-life';

const permit = (name: string, months: number, lifeMonths: Permit['lifeMonths']): Permit => ({
  permit: name,
  construction: 'carbon',
  months,
  lifeMonths,
  basis: 'the permit in hand',
});

describe('a cylinder under a special permit', () => {
  const carbon = 'cylinder C-103: spec DOT-SP 10915, construction carbon, made 2018-05, lifeLabel_months 180';

  it('that nobody has confirmed is not judged, though the book has heard of it and its construction is known', () => {
    expect(PERMIT_OFFERS.some(o => o.permit === 'DOT-SP 10915')).toBe(true);
    expect([state(carbon, REQUALIFICATION, '2026-01-01'), state(carbon, LIFE, '2026-01-01')]).toEqual([
      'not judged',
      'not judged',
    ]);
    expect(why(carbon, REQUALIFICATION, '2026-01-01').steps.join(' ')).toMatch(
      /DOT-SP 10915 is a permit that the department has not confirmed\. Read the permit or the label in hand/,
    );
  });

  it('is judged by what was confirmed, whatever the offer or the construction would say', () => {
    const early = book({ permits: [permit('DOT-SP 10915', 36, 180)] });
    expect(dueOn(carbon, REQUALIFICATION, early)).toBe('2021-05-31');
    expect(dueOn(carbon, LIFE, early)).toBe('2033-05-31');
    const later = book({ permits: [permit('DOT-SP 10915', 36, 180), permit('DOT-SP 10915', 60, 180)] });
    expect(dueOn(carbon, REQUALIFICATION, later)).toBe('2023-05-31');
  });

  it('is not helped by the confirmation of another one', () =>
    expect(
      state(carbon, REQUALIFICATION, '2026-01-01', book({ permits: [permit('DOT-SP 10945', 60, 180)] })),
    ).toBe('not judged'));

  it('whose label decides its life is not judged for it until the label’s life is entered', () => {
    const by = book({ permits: [permit('DOT-SP 14232', 60, 'label')] });
    const bare = 'cylinder C-103: spec DOT-SP 14232, made 2018-05';
    expect([state(bare, REQUALIFICATION, '2022-01-01', by), state(bare, LIFE, '2022-01-01', by)]).toEqual([
      'current',
      'not judged',
    ]);
    expect(dueOn(`${bare}\nalways  amended  lifeLabel_months 360`, LIFE, by)).toBe('2048-05-31');
  });

  it('with a life of its own is not lengthened by a label', () =>
    expect(
      dueOn(
        `${carbon}\nalways  amended  lifeLabel_months 360`,
        LIFE,
        book({ permits: [permit('DOT-SP 10915', 60, 180)] }),
      ),
    ).toBe('2033-05-31'));

  it('without a fixed life has none', () => {
    const by = book({ permits: [permit('DOT-SP 10915', 60, null)] });
    expect(dueOn(carbon, LIFE, by)).toBeUndefined();
  });
});

describe('a cylinder without a specification on file', () => {
  it('goes by its construction: three years hoop, fiberglass and aramid, five carbon, steel and aluminum', () =>
    expect(
      ['hoop', 'fiberglass', 'aramid', 'carbon', 'steel', 'aluminum'].map(c =>
        dueOn(`cylinder C-1: construction ${c}, made 2020-02`, REQUALIFICATION),
      ),
    ).toEqual(['2023-02-28', '2023-02-28', '2023-02-28', '2025-02-28', '2025-02-28', '2025-02-28']));

  it('and without a construction is not judged', () => {
    expect(state('cylinder C-1: made 2020-02', REQUALIFICATION, '2026-01-01')).toBe('not judged');
    expect(state('cylinder C-1: construction foreign, made 2020-02', REQUALIFICATION, '2026-01-01')).toBe(
      'not judged',
    );
  });

  it('without a manufacture month has no date for the first requalification, and its life is not judged', () => {
    const bare = 'cylinder C-1: construction carbon';
    expect([dueOn(bare, REQUALIFICATION), state(bare, REQUALIFICATION, '2026-01-01')]).toEqual([
      null,
      'never done',
    ]);
    expect(state(bare, LIFE, '2026-01-01')).toBe('not judged');
  });
});

describe('the table', () => {
  it('goes before the construction where a specification is on file', () =>
    expect(dueOn('cylinder C-1: spec 3HT, construction carbon, made 2020-02', REQUALIFICATION)).toBe(
      '2023-02-28',
    ));

  it('gives a star ten years on 3A and 3AA, and nothing on others or where it was struck off', () => {
    const star = (spec: string, mark: string) =>
      dueOn(`cylinder C-1: spec ${spec}, star ${mark}, made 2020-02`, REQUALIFICATION);
    expect([star('3A', 'yes'), star('3AA', 'yes'), star('3AA', 'no'), star('3AL', 'yes')]).toEqual([
      '2030-02-28',
      '2030-02-28',
      '2025-02-28',
      '2025-02-28',
    ]);
  });

  it('does not requalify 3E and 4L, and says so', () => {
    expect(dueOn('cylinder C-1: spec 4L, made 2020-02', REQUALIFICATION)).toBeUndefined();
    expect(why('cylinder C-1: spec 4L, made 2020-02', REQUALIFICATION, '2026-01-01').steps).toEqual([
      'Not requalified: Table 1, specification 4L.',
    ]);
  });

  it('condemns 3HT when it is older than 24 years: not on the last day of that month, and on the next day', () => {
    const made = 'cylinder C-1: spec 3HT, made 2000-05';
    expect(['2024-05-31', '2024-06-01'].map(on => state(made, LIFE, on))).toEqual(['due soon', 'life ended']);
  });

  it('gives steel and aluminum no fixed life', () =>
    expect(['3A', '3AA', '3AL'].map(s => dueOn(`cylinder C-1: spec ${s}, made 1970-01`, LIFE))).toEqual([
      undefined,
      undefined,
      undefined,
    ]));
});

describe('a requalification', () => {
  it('counts from the original test month, not from the day it was placed in service', () =>
    expect(dueOn('cylinder C-1: spec 3AA, made 2021-06, inService 2022-02-10', REQUALIFICATION)).toBe(
      '2026-06-30',
    ));

  it('of 6351-T6 is not its crack examination: both are due', () => {
    const alloy = `cylinder C-1: spec 3AL, alloy 6351-T6, made 1990-01
      2024-03-08  passed  requalification
      2021-02-11  passed  crack examination`;
    expect([dueOn(alloy, REQUALIFICATION), dueOn(alloy, 'cylinder.crack-examination')]).toEqual([
      '2029-03-31',
      '2026-02-28',
    ]);
    expect(dueOn('cylinder C-1: spec 3AL, made 1990-01', 'cylinder.crack-examination')).toBeUndefined();
  });
});

describe('a life', () => {
  const carbon = 'cylinder C-1: construction carbon, made 2010-03\n2024-11  passed  requalification';

  it('of fifteen years ends with the last day of its month and has ended the day after', () =>
    expect(['2025-03-31', '2025-04-01'].map(on => state(carbon, LIFE, on))).toEqual([
      'due soon',
      'life ended',
    ]));

  it('by a department that chose so ends before its month begins', () => {
    const by = book({ policies: [{ policy: 'life ends', choice: 'month start', from: null }] });
    expect(['2025-02-28', '2025-03-01'].map(on => state(carbon, LIFE, on, by))).toEqual([
      'due soon',
      'life ended',
    ]);
  });

  it('is lengthened by no requalification, however late', () =>
    expect(dueOn(`${carbon}\n2025-03-30  passed  requalification`, LIFE)).toBe('2025-03-31'));

  it('made in a year of which the month is not known counts from December', () =>
    expect(dueOn('cylinder C-1: construction carbon, made 2010', LIFE)).toBe('2025-12-31'));

  it('that ends earliest is the one that is named', () => {
    const derived = thing(carbon);
    const ends = lifeEndsOn(derived, day('2026-01-01'));
    expect(ends === null ? null : dayText(ends)).toBe('2025-03-31');
    expect(lifeEndsOn(thing('cylinder C-1: spec 3AA, made 2010-03'), day('2026-01-01'))).toBeNull();
    const twoLives = {
      ...derived,
      due: derived.due.flatMap(r => (r.basis === 'life' ? [{ ...r, dueOn: day('2024-01-31') }, r] : [r])),
    };
    expect(lifeEndsOn(twoLives, day('2026-01-01'))).toBe(day('2024-01-31'));
  });
});

describe('several clocks', () => {
  const winners = (text: string, on: string) =>
    why(text, REQUALIFICATION, on).clocks.map(c => `${c.wins ? '*' : ' '} ${c.dueOn} ${c.title}`);

  it('are all shown, the earliest first, and the earliest governs', () =>
    expect(
      winners(
        'cylinder C-1: construction carbon, made 2012-02\n2021-05  passed  requalification',
        '2026-01-01',
      ),
    ).toEqual(['* 2026-05-31 Requalification', '  2027-02-28 End of life']));

  it('that tie govern together', () =>
    expect(
      winners(
        'cylinder C-1: construction carbon, made 2011-05\n2021-05  passed  requalification',
        '2026-01-01',
      ),
    ).toEqual(['* 2026-05-31 Requalification', '* 2026-05-31 End of life']));

  it('without a date are shown first and win nothing', () => {
    const damaged =
      'cylinder C-1: construction carbon, made 2012-02\n2026-01-02  owes  requalification: damage';
    expect(winners(damaged, '2026-01-03')).toEqual(['  null Requalification', '* 2027-02-28 End of life']);
  });
});

describe('facts', () => {
  it('that never say what the thing is derive nothing', () => {
    const [, ...rest] = factsFrom('cylinder C-1: made 2020\n2024-03-08  passed  requalification');
    expect(derive(rest, book())).toBeNull();
  });

  it('of a family whose book is empty owe nothing', () => {
    const derived = thing('equipment X-1: kind saw\n2024-03-08  passed  inspection');
    expect([derived.due, derived.condition, rowOn(derived, 'x', '2026-01-01')]).toEqual([
      [],
      'serviceable',
      undefined,
    ]);
  });
});
