/**
 * May it be filled, may it stay. 49 CFR 180.205(c) and (d) and PHMSA interpretations 09-0148 and 11-0131 (read);
 * filling inside the due month and pulling a charged cylinder: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import {
  type CylinderDates,
  judgeFill,
  judgeStay,
  rechargeAt_psi,
} from '../../../domain/acceptance/cylinder.ts';
import { day } from '../notation.ts';

const SOUND: CylinderDates = {
  requalifyBy: day('2024-04-30'),
  lifeEnds: day('2025-03-31'),
  unjudged: false,
  examination: 'requalification',
  owed: [],
};
const USUAL = { fillInDueMonth: 'to month end', chargedPastDue: 'pull' } as const;
const STRICT = { fillInDueMonth: 'not in due month', chargedPastDue: 'pull' } as const;
const EMPTIED = { fillInDueMonth: 'to month end', chargedPastDue: 'until emptied' } as const;

const fill = (on: string, dates: Partial<CylinderDates> = {}, by: typeof USUAL | typeof STRICT = USUAL) => {
  const { law, policy } = judgeFill({ ...SOUND, ...dates }, day(on), by);
  return [law.allowed, policy.allowed];
};
const stay = (on: string, dates: Partial<CylinderDates> = {}, by: typeof USUAL | typeof EMPTIED = USUAL) => {
  const { law, policy } = judgeStay({ ...SOUND, ...dates }, day(on), by);
  return [law.allowed, policy.allowed];
};

describe('a fill', () => {
  it('is allowed through the last day of the due month and not on the day after', () => {
    expect(fill('2024-04-30')).toEqual([true, true]);
    expect(fill('2024-05-01')).toEqual([false, false]);
  });

  it('by a stricter department ends with the month before, though the law still lets it', () => {
    expect(fill('2024-03-31', {}, STRICT)).toEqual([true, true]);
    expect(fill('2024-04-01', {}, STRICT)).toEqual([true, false]);
    expect(fill('2024-05-01', {}, STRICT)).toEqual([false, false]);
    const { policy } = judgeFill(SOUND, day('2024-04-15'), STRICT);
    expect(policy.because).toBe(
      'Policy: not filled inside the month it falls due; the last day was 31 Mar 2024.',
    );
  });

  it('by a stricter department in January looks back over the turn of the year', () =>
    expect([
      fill('2023-12-31', { requalifyBy: day('2024-01-31') }, STRICT),
      fill('2024-01-01', { requalifyBy: day('2024-01-31') }, STRICT),
    ]).toEqual([
      [true, true],
      [true, false],
    ]));

  it('is allowed on the last day of a life and never after, whatever the test mark', () => {
    const current = { requalifyBy: day('2027-05-31') };
    expect(fill('2025-03-31', current)).toEqual([true, true]);
    expect(fill('2025-04-01', current)).toEqual([false, false]);
    expect(judgeFill({ ...SOUND, ...current }, day('2025-04-01'), USUAL).law.because).toMatch(
      /^Its life ended 31 Mar 2025/,
    );
  });

  it('is not allowed while a requalification is owed after damage or heat, whatever the date', () => {
    expect(fill('2024-01-01', { owed: ['requalification'] })).toEqual([false, false]);
    expect(
      judgeFill({ ...SOUND, owed: ['requalification'] }, day('2024-01-01'), USUAL).law.because,
    ).toContain('180.205(d)');
  });

  it('is not allowed once the crack examination of 6351-T6 is past due, and says which it was', () =>
    expect(
      judgeFill({ ...SOUND, examination: 'crack examination' }, day('2024-05-01'), USUAL).law,
    ).toMatchObject({ allowed: false, because: expect.stringMatching(/^Its crack examination was due/) }));

  it('is not allowed to over-heated aluminum whatever was tested since: condemned, 180.205(i)(1)(viii)', () =>
    expect(judgeFill({ ...SOUND, owed: ['condemnation'] }, day('2024-01-01'), USUAL).law).toMatchObject({
      allowed: false,
      because: expect.stringContaining('condemned'),
    }));

  it('waits by policy for the inspection a repair owes, with the law saying nothing against it', () =>
    expect(fill('2024-01-01', { owed: ['inspection'] })).toEqual([true, false]));

  it('is not judged where a value is not confirmed, and refused all the same where what is known forbids it', () => {
    expect(fill('2024-01-01', { unjudged: true })).toEqual([null, null]);
    expect(fill('2024-05-01', { unjudged: true })).toEqual([false, false]);
    expect(fill('2024-01-01', { requalifyBy: null, lifeEnds: null, unjudged: true })).toEqual([null, null]);
  });

  it('of a cylinder that is not requalified and has no life is allowed', () =>
    expect(fill('2049-01-01', { requalifyBy: null, lifeEnds: null }, STRICT)).toEqual([true, true]));
});

describe('a charged cylinder', () => {
  it('may stay through the due month', () => expect(stay('2024-04-30')).toEqual([true, true]));

  it('past its date may stay until emptied by the law, and is pulled or not as the department chose', () => {
    expect(stay('2024-05-01')).toEqual([true, false]);
    expect(stay('2024-05-01', {}, EMPTIED)).toEqual([true, true]);
    expect(judgeStay(SOUND, day('2024-05-01'), EMPTIED).policy.because).toMatch(/it is not topped off/);
  });

  it('past its life goes by the same choice', () => {
    const current = { requalifyBy: day('2027-05-31') };
    expect([stay('2025-03-31', current), stay('2025-04-01', current)]).toEqual([
      [true, true],
      [true, false],
    ]);
  });

  it('that was damaged or heated may not stay, by law or policy', () =>
    expect(stay('2024-01-01', { owed: ['requalification'] }, EMPTIED)).toEqual([false, false]));

  it('of which a value is not confirmed is not judged until what is known tells against it', () => {
    expect(stay('2024-01-01', { unjudged: true })).toEqual([null, null]);
    expect(stay('2024-05-01', { unjudged: true })).toEqual([true, false]);
  });
});

describe('the recharge point, 29 CFR 1910.134(h)(3)(iii)', () => {
  it('is nine tenths of the rated pressure to the tenth of a psi', () =>
    expect([2216, 3000, 4500, 5500, 1, 10].map(rechargeAt_psi)).toEqual([
      '1994.4',
      '2700',
      '4050',
      '4950',
      '0.9',
      '9',
    ]));

  it('is nine tenths exactly for every whole pressure up to 10,000 psi', () => {
    for (let psi = 1; psi <= 10_000; psi += 1) {
      const [whole = '', tenth = '0'] = rechargeAt_psi(psi).split('.');
      expect(Number(whole) * 10 + Number(tenth)).toBe(psi * 9);
    }
  });

  it('is not given for a pressure that cannot be', () => {
    for (const psi of [0, -1, 2216.5, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => rechargeAt_psi(psi)).toThrow(RangeError);
  });
});
