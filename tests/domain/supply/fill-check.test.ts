/**
 * What speaks against filling a bottle. The law: 49 CFR 180.205(c) and (d), 180.203, 173.302a(b) and the interpretations
 * 09-0148, 11-0131 and 19-0079 (public texts, 2015 annual edition; read). Conditions are the department's own word.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeFill } from '../../../domain/acceptance/cylinder.ts';
import { cylinderDates, cylinderPolicies } from '../../../domain/acceptance/cylinder-dates.ts';
import { dayText } from '../../../domain/calendar/day.ts';
import type { When } from '../../../domain/calendar/when.ts';
import { UNKNOWN_PROFILE } from '../../../domain/rulebook/force.ts';
import { againstWords, fillVerdict, pullWords } from '../../../domain/supply/fill-against.ts';
import { againstFilling } from '../../../domain/supply/fill-check.ts';
import { againstForeign } from '../../../domain/supply/fill-foreign.ts';
import { againstStation } from '../../../domain/supply/fill-station.ts';
import { book, day, SHIPPED, thing } from '../notation.ts';

const BOTTLE = 'cylinder C-208: spec 3AL, servicePressure_psi 4500, made 2016-02';
const TESTED = `${BOTTLE}\n2021-09  passed  requalification`;

interface Said {
  to_psi?: number;
  hydroDate?: string;
  isAir?: boolean;
  by?: ReturnType<typeof book>;
}

const against = (text: string, on: string, { to_psi, hydroDate, isAir = true, by = SHIPPED }: Said = {}) =>
  againstFilling(thing(text, by), by, {
    on: day(on),
    to_psi: to_psi ?? null,
    hydroDate: (hydroDate ?? null) as When | null,
    isAir,
  });
const verdict = (...asked: Parameters<typeof against>) => fillVerdict(against(...asked));
const first = (...asked: Parameters<typeof against>) => against(...asked)[0];

describe('a bottle that is due for requalification', () => {
  it('is filled through the last day of its due month, and not the day after: 49 CFR 180.205(c)', () => {
    expect(verdict(TESTED, '2026-09-30')).toBe('fill');
    expect(first(TESTED, '2026-10-01')).toEqual({
      what: 'examination overdue',
      says: 'Its requalification was due by 30 Sep 2026: it is not filled, nor topped off, until that is done.',
      clause: '49 CFR 180.205(c)',
      confidence: 'read',
      force: 'law',
      effect: 'do not fill',
      pulls: true,
    });
  });

  it('is not filled inside its due month where the department has chosen so, by practice and not by law', () => {
    const strict = book({
      policies: [{ policy: 'fill in due month', choice: 'not in due month', from: null }],
    });
    expect(verdict(TESTED, '2026-08-31', { by: strict })).toBe('fill');
    expect(first(TESTED, '2026-09-01', { by: strict })).toMatchObject({
      what: 'due month',
      force: 'practice',
      effect: 'do not fill',
      pulls: false,
    });
  });

  it('is no matter of that law outside the United States, and is told all the same', () => {
    const abroad = {
      ...SHIPPED,
      profiles: [{ profile: { ...UNKNOWN_PROFILE, country: 'other' as const }, from: null }],
    };
    expect(first(TESTED, '2026-10-01', { by: abroad })).toMatchObject({
      force: 'standard',
      effect: 'do not fill',
    });
  });
});

describe('a bottle that is out by law whatever its mark', () => {
  it('is one whose life has ended, with a current test: interpretation 11-0131', () => {
    const carbon =
      'cylinder C-101: construction carbon, servicePressure_psi 4500, made 2010-03\n2022-05  passed  requalification';
    expect(verdict(carbon, '2025-03-31')).toBe('fill');
    expect(first(carbon, '2025-06-01')).toMatchObject({
      what: 'life ended',
      says: 'Its life ended 31 Mar 2025: it is never filled again, whatever its test mark.',
      clause: '49 CFR 180.205(c)',
      pulls: true,
    });
  });

  it('is one that was damaged, until it is requalified: 180.205(d)', () => {
    const gouged = `${TESTED}\n2026-01-05  owes  requalification: damage or accident`;
    expect(first(gouged, '2026-02-01')).toMatchObject({
      what: 'examination owed',
      clause: '49 CFR 180.205(d)',
      pulls: true,
    });
    expect(verdict(`${gouged}\n2026-01-20  passed  requalification`, '2026-02-01')).toBe('fill');
  });

  it('is over-heated aluminum, which is condemned: 180.205(i)(1)(viii)', () => {
    const burned = `${TESTED}\n2026-01-05  owes  condemnation: overheated aluminum`;
    expect(first(burned, '2026-02-01')?.what).toBe('condemned');
  });
});

describe('a bottle that owes what no law asks for', () => {
  it('is not filled before its inspection after a valve repair: common practice', () => {
    const repaired = `${TESTED}\n2026-01-05  owes  inspection: repaired, valve or gauge`;
    expect(first(repaired, '2026-02-01')).toMatchObject({
      what: 'test owed',
      clause: null,
      force: 'practice',
    });
  });
});

describe('the condition of a bottle', () => {
  it.each([
    ['held for investigation', false],
    ['tagged out', false],
    ['at repair', false],
    ['retired', false],
    ['disposed', false],
    // It has turned up, and nobody knows what it went through.
    ['missing', true],
  ])('%s: it is not filled', (condition, pulls) => {
    const matter = against(`${TESTED}\n2026-01-05  is  ${condition}`, '2026-02-01').find(
      a => a.what === 'condition',
    );
    expect(matter).toMatchObject({ effect: 'do not fill', pulls });
    expect(matter?.says).toContain(`It is ${condition} since 5 Jan 2026`);
  });

  it('limited use is to be known and stops nobody', () => {
    expect(verdict(`${TESTED}\n2026-01-05  is  limited use`, '2026-02-01')).toBe('fill');
  });
});

describe('the pressure', () => {
  it('over the service pressure is let cool and bled, and only over a tenth more is the bottle pulled: 173.302a(b)', () => {
    const at = (to_psi: number) =>
      against(TESTED, '2026-01-01', { to_psi }).map(a => [a.what, a.pulls, a.confidence]);
    expect(at(4500)).toEqual([]);
    expect(at(4501)).toEqual([['pressure', false, 'memory']]);
    expect(at(4950)).toEqual([['pressure', false, 'memory']]);
    expect(at(4951)).toEqual([['pressure', true, 'read']]);
  });

  it('is not judged where the service pressure is not on file', () => {
    const bare = 'cylinder C-1: spec 3AL, made 2016-02\n2021-09  passed  requalification';
    expect(verdict(bare, '2026-01-01', { to_psi: 4500 })).toBe('not judged');
  });
});

describe('the mark that is read on the bottle', () => {
  it('and agrees with the file by its month says nothing', () => {
    for (const hydroDate of ['2021-09', '2021-09-14', '2021'])
      expect(against(TESTED, '2026-01-01', { hydroDate }), hydroDate).toEqual([]);
  });

  it('governs, where it is older than the file: it may have run out (interpretation 19-0079)', () => {
    expect(first(TESTED, '2026-01-01', { hydroDate: '2020-12' })).toMatchObject({
      what: 'mark read',
      effect: 'do not fill',
      pulls: true,
    });
    // Still inside its five years, so nothing has run out; but one of the two is wrong.
    expect(verdict(TESTED, '2026-01-01', { hydroDate: '2021-03' })).toBe('not judged');
  });

  it('governs, where it is newer: the file is behind, and the bottle is not pulled', () => {
    const told = against(TESTED, '2026-11-25', { hydroDate: '2026-05' });
    expect(fillVerdict(told)).toBe('not judged');
    expect(told.some(a => a.pulls)).toBe(false);
    expect(told.map(a => a.says).join(' ')).toContain('Record that test.');
  });
});

describe('a permit that nobody has confirmed', () => {
  it('is not judged, and pulls nothing', () => {
    const [matter] = against(
      'cylinder C-331: spec DOT-SP 14232, servicePressure_psi 4500, made 2024-01',
      '2026-01-01',
    );
    expect(matter).toMatchObject({ what: 'not confirmed', effect: 'not judged', pulls: false });
  });
});

describe('what is told against a bottle', () => {
  it('is by law what judgeFill forbids by law, for any history', () => {
    const month = fc
      .integer({ min: 0, max: 240 })
      .map(n => `${2008 + Math.floor(n / 12)}-${String((n % 12) + 1).padStart(2, '0')}`);
    fc.assert(
      fc.property(
        fc.constantFrom(
          'spec 3AL',
          'spec 3HT',
          'construction carbon',
          'construction hoop',
          'spec DOT-SP 14232',
          'alloy 6351-T6, spec 3AL',
        ),
        month,
        fc.array(month, { maxLength: 3 }),
        fc.option(fc.constantFrom('requalification', 'condemnation', 'inspection'), { nil: null }),
        fc.integer({ min: 0, max: 7000 }),
        (kind, made, tests, owed, later) => {
          const text = [
            `cylinder C-1: ${kind}, servicePressure_psi 4500, made ${made}`,
            ...[...tests].sort().map(t => `${t}  passed  requalification`),
            ...(owed ? [`2020-06-01  owes  ${owed}: some happening`] : []),
          ].join('\n');
          const on = dayText((day('2012-01-01') + later) as ReturnType<typeof day>);
          const derived = thing(text);
          const { law, policy } = judgeFill(
            cylinderDates(derived, SHIPPED, day(on)),
            day(on),
            cylinderPolicies(SHIPPED, day(on)),
          );
          const told = against(text, on);
          expect(told.some(a => a.force === 'law' && a.effect === 'do not fill')).toBe(law.allowed === false);
          if (law.allowed === null) expect(fillVerdict(told)).not.toBe('fill');
          if (law.allowed === true) expect(fillVerdict(told) === 'fill').toBe(policy.allowed);
          // Whatever is forbidden by law, and was filled all the same, is pulled.
          if (law.allowed === false) expect(pullWords(told, '2026-11-25T03:10' as When)).not.toBeNull();
        },
      ),
      { numRuns: 300 },
    );
  });

  it('is what its tag says, where it is pulled', () => {
    expect(pullWords(against(TESTED, '2026-11-23'), '2026-11-23T03:10' as When)).toBe(
      'Filled on 23 Nov 2026 03:10 all the same. Its requalification was due by 30 Sep 2026: it is not filled, nor topped off, until that is done (49 CFR 180.205(c)).',
    );
    expect(pullWords(against(TESTED, '2026-01-01'), '2026-01-01' as When)).toBeNull();
  });
});

describe('a bottle of another gas', () => {
  it('is not filled at a breathing-air compressor', () => {
    const oxygen =
      'cylinder O-1: spec 3AL, servicePressure_psi 2015, gas oxygen, made 2016-02\n2021-09  passed  requalification';
    expect(first(oxygen, '2026-01-01')).toMatchObject({ what: 'gas', pulls: true });
    expect(verdict(oxygen, '2026-01-01', { isAir: false })).toBe('fill');
  });
});

describe('the compressor', () => {
  const CMP = `compressor CMP-1: kind compressor and fill station, lubrication oil, filterDue 2027-01, inService 2024-01-10
    2026-11-01  passed  alarm test
    2026-11-01  passed  inspection
    2026-11-01  passed  service
    2026-11-01  passed  filter change`;
  const told = (lines: string, on = '2026-11-25') =>
    againstStation(thing(`${CMP}\n${lines}`), SHIPPED, day(on));

  it('whose air was sampled within three months says nothing: NFPA 1989', () => {
    expect(told('2026-10-01  passed  air sample').filter(a => a.effect !== 'note')).toEqual([]);
  });

  it('whose sample is late is not filled at, and what was filled is not pulled for it', () => {
    const [late] = told('2026-07-01  passed  air sample');
    expect(late).toMatchObject({ what: 'air', force: 'standard', effect: 'do not fill', pulls: false });
    expect(late?.says).toMatch(/^CMP-1: air sample overdue since 1 Oct 2026/);
  });

  it('whose sample failed, or held more carbon monoxide than Grade D allows, pulls what was filled there: 29 CFR 1910.134(i)', () => {
    expect(told('2026-11-20  failed  air sample').filter(a => a.pulls).length).toBeGreaterThan(0);
    const over = told('2026-11-20  passed  air sample: carbonMonoxide_ppm 12').find(a => a.pulls);
    expect(againstWords(over ?? { says: '', clause: null })).toContain(
      '29 CFR 1910.134(i)(1)(ii) and (i)(4)(iii)',
    );
    // 10 ppm is itself still Grade D; NFPA 1989 allows 5.
    const ten = told('2026-11-20  passed  air sample: carbonMonoxide_ppm 10');
    expect(ten.map(a => a.clause)).toEqual(['NFPA 1989']);
  });

  it('that is tagged out is not filled at', () => {
    const [out] = told('2026-10-01  passed  air sample\n2026-11-20  is  tagged out');
    expect(out).toMatchObject({ what: 'fill station', effect: 'do not fill' });
  });
});

describe('a bottle that is not ours', () => {
  const foreign = (hydroDate: string | null, on = '2026-11-25', servicePressure_psi: number | null = 4500) =>
    againstForeign(
      { hydroDate: hydroDate as When | null, servicePressure_psi },
      { on: day(on), to_psi: 4500 },
      UNKNOWN_PROFILE,
    );

  it('is in date by any construction within three years, by some within five, by none but a star after that', () => {
    expect(fillVerdict(foreign('2023-11'))).toBe('fill');
    expect(fillVerdict(foreign('2023-10'))).toBe('not judged');
    expect(fillVerdict(foreign('2021-11'))).toBe('not judged');
    expect(foreign('2021-10')[0]).toMatchObject({
      effect: 'do not fill',
      clause: '49 CFR 180.205(c)',
      force: 'law',
    });
  });

  it('of which no mark or pressure was read is not judged', () => {
    expect(fillVerdict(foreign(null))).toBe('not judged');
    expect(fillVerdict(foreign('2025-01', '2026-11-25', null))).toBe('not judged');
  });
});
