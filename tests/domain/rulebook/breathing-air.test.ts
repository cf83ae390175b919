/**
 * Packs, facepieces, compressors and what cylinders owe by their use. 29 CFR 1910.134(f), (h) and (i), read; 26 M.R.S.
 * 2105, read; NFPA 1989 (2008) as laboratories print it and NFPA 1852 as summaries do, read second-hand; 49 CFR 180.207
 * and 180.209, read, as far as `cylinder-uses.ts` says.
 */
import { describe, expect, it } from 'vitest';
import { rechargeAt_psi } from '../../../domain/acceptance/cylinder.ts';
import { familyOf, SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { book, day, dueOn, shipped, state, thing } from '../notation.ts';

describe('a pack', () => {
  const pack = (psi: number, rated = 4500) =>
    `pack P-1: servicePressure_psi ${rated}, edition 2018\n2025-06-02  passed  inspection: cylinder_psi ${psi}`;
  const RECHARGE = 'pack.recharge';

  it('is recharged at nine tenths of its pressure, and at no more', () =>
    expect([4051, 4050, 4049].map(psi => state(pack(psi), RECHARGE, '2025-06-03'))).toEqual([
      undefined,
      'retest owed',
      'retest owed',
    ]));

  it('is told the same by the requirement as by the figure that is shown, at every usual pressure', () => {
    for (const rated of [2216, 3000, 4500, 5500]) {
      const at = Math.floor(Number(rechargeAt_psi(rated)));
      expect(state(pack(at, rated), RECHARGE, '2025-06-03')).toBe('retest owed');
      expect(state(pack(at + 1, rated), RECHARGE, '2025-06-03')).toBeUndefined();
    }
  });

  it('is good again once its cylinder is exchanged, or once a full one is read', () => {
    for (const line of ['passed  recharge', 'passed  inspection: cylinder_psi 4500'])
      expect(state(`${pack(3900)}\n2025-06-03  ${line}`, RECHARGE, '2025-06-04')).toBeUndefined();
  });

  it('without its pressure on file is not judged', () =>
    expect(state('pack P-2\n2025-06-02  passed  inspection: cylinder_psi 4000', RECHARGE, '2025-06-03')).toBe(
      'not judged',
    ));

  it('used on air is inspected before it returns', () => {
    const used = `${pack(4500)}\n2025-06-10  owes  inspection: used`;
    expect(thing(used).condition).toBe('retest owed');
    expect(thing(`${used}\n2025-06-11  passed  inspection`).condition).toBe('serviceable');
  });

  it('in Maine is inspected weekly by full-time and combination departments, monthly by volunteers', () => {
    const [weekly, monthly] = ['full-time', 'volunteer'].map(k => shipped(`pack.inspection-maine-${k}`));
    expect([weekly?.clock, monthly?.clock]).toMatchObject([{ every: { days: 7 } }, { every: { months: 1 } }]);
    expect([weekly?.where, monthly?.where]).toEqual([
      { states: ['ME'], kinds: ['career', 'combination'] },
      { states: ['ME'], kinds: ['volunteer'] },
    ]);
  });

  it('of an old edition is retired only where the department confirms that rule, which is from memory', () => {
    const old = 'pack P-3: edition 2002, made 2004-06';
    expect(state(old, 'pack.retirement', '2026-01-01')).toBe('not judged');
    const retirement = { ...shipped('pack.retirement'), confirmed: 'the edition in hand' };
    const confirmed = book({ adoptions: [{ requirement: retirement, from: null }] });
    expect(state(old, 'pack.retirement', '2026-01-01', confirmed)).toBe('life ended');
    expect(state('pack P-4: edition 2013, made 2014-06', 'pack.retirement', '2026-01-01', confirmed)).toBe(
      undefined,
    );
  });
});

describe('a facepiece', () => {
  const mask = (kind: string, factor: number) =>
    `facepiece F-1: ${kind}wearer R. Alder\n2025-06-02  passed  fit test: fitFactor ${factor}`;

  it('fits a full one at 500 and a half one at 100; what kind it is not said to be is held to 500', () => {
    const owed = (kind: string, factor: number) =>
      thing(mask(kind, factor)).due.some(r => r.basis === 'retest');
    expect([owed('kind full, ', 500), owed('kind full, ', 499)]).toEqual([false, true]);
    expect([owed('kind half, ', 100), owed('kind half, ', 99)]).toEqual([false, true]);
    expect([owed('', 500), owed('', 499)]).toEqual([false, true]);
  });

  it('is fitted before it is worn, and every year', () => {
    expect(dueOn('facepiece F-2: inService 2025-03-01', 'facepiece.fit-test')).toBe('2025-03-01');
    expect(dueOn(mask('', 900), 'facepiece.fit-test')).toBe('2026-06-02');
  });

  it('used is cleaned before it returns, and its cleaning is that month’s inspection', () => {
    const used = `${mask('', 900)}\n2025-06-10  owes  cleaning: used`;
    expect(state(used, 'facepiece.cleaning', '2025-06-11')).toBe('retest owed');
    const cleaned = `${used}\n2025-06-11  passed  cleaning`;
    expect(thing(cleaned).condition).toBe('serviceable');
    expect(dueOn(cleaned, 'facepiece.inspection')).toBe('2025-07-11');
  });
});

describe('a compressor', () => {
  const sampled = (readings: string) =>
    `compressor A-1: kind compressor, lubrication oil\n2025-06-02  passed  air sample: ${readings}`;
  const beyond = (readings: string) =>
    thing(sampled(readings))
      .due.filter(r => r.basis === 'retest')
      .map(r => r.requirement);

  it('is sampled before its first fill and every three months', () => {
    const SAMPLE = 'compressor.air-sample';
    expect(dueOn('compressor A-2: inService 2025-03-01', SAMPLE)).toBe('2025-03-01');
    expect(dueOn('compressor A-2\n2023-11-30  passed  air sample', SAMPLE)).toBe('2024-02-29');
    expect(shipped(SAMPLE).late).toBe('blocks');
  });

  it('with a sample at each limit of Grade D and of NFPA 1989 is good', () => {
    expect(
      beyond(
        'carbonMonoxide_ppm 5, carbonDioxide_ppm 1000, oil_mgm3 2, dewPointBelowZero_F 65, water_ppm 24, hydrocarbons_ppm 25, nitrogen_percent 81, oxygen_percent 19.5',
      ),
    ).toEqual([]);
  });

  it('just beyond NFPA 1989 is stopped by the standard, beyond Grade D by the law alone, told once', () => {
    expect(beyond('carbonMonoxide_ppm 5.1')).toEqual(['compressor.carbon-monoxide-1989']);
    expect(beyond('carbonMonoxide_ppm 10.1')).toEqual(['compressor.carbon-monoxide']);
    expect(beyond('dewPointBelowZero_F 60')).toEqual(['compressor.dew-point-1989']);
    expect(beyond('dewPointBelowZero_F 0')).toEqual(['compressor.dew-point']);
  });

  it('that failed warns to stop filling, to quarantine and to resample', () => {
    for (const r of SHIPPED_REQUIREMENTS.filter(
      one => one.family === 'compressor' && one.activity === 'air sample',
    ))
      expect(r.cautions.join(' ')).toMatch(/stop filling at once, quarantine .* and resample/);
  });

  it('has its filter changed by the tag or by hours, whichever comes first, and a fill station has none', () => {
    const FILTER = 'compressor.filter';
    expect(dueOn('compressor A-3: kind compressor, filterDue 2025-09', FILTER)).toBe('2025-09-30');
    expect(state('compressor A-3: kind compressor', FILTER, '2025-06-02')).toBe('not judged');
    expect(dueOn('compressor A-4: kind fill station', FILTER)).toBeUndefined();
    expect(shipped(FILTER).clock).toMatchObject({
      kind: 'first of',
      clocks: [{ attribute: 'filterDue' }, { meter: 'hours' }],
    });
  });

  it('has an alarm to test unless it has no oil', () => {
    const ALARM = 'compressor.alarm-test';
    const tested = (oil: string) => `compressor A-5: ${oil}kind mobile\n2025-06-02  passed  alarm test`;
    expect(dueOn(tested('lubrication oil, '), ALARM)).toBe('2025-09-02');
    expect(dueOn(tested(''), ALARM)).toBe('2025-09-02');
    expect(dueOn(tested('lubrication oil-free, '), ALARM)).toBeUndefined();
  });

  it('moved or altered is sampled before it fills again', () => {
    const owes = Object.fromEntries((familyOf('compressor')?.triggers ?? []).map(t => [t.id, t.owes]));
    expect([owes.relocated, owes.altered]).toEqual(['air sample', 'air sample']);
  });
});

describe('a cylinder by its use', () => {
  it('of an SCBA, and of a use that is not on file, is recharged at 90 %; a storage bank is not', () => {
    const read = (use: string) =>
      `cylinder C-1: spec 3AA, ${use}servicePressure_psi 2216\n2025-06-02  passed  inspection: gauge_psi 1994`;
    const of = (use: string) => state(read(use), 'cylinder.recharge', '2025-06-03');
    expect([of('use SCBA, '), of(''), of('use cascade, ')]).toEqual([
      'retest owed',
      'retest owed',
      undefined,
    ]);
  });

  it('is always under exactly one requalification, whatever paragraph or size is claimed for it', () => {
    for (const spec of ['3AA', '3AL', '3HT', '4BW', '4BA', 'UN seamless', 'foreign'])
      for (const period of ['', 'longerPeriod volumetric, ', 'longerPeriod proof, '])
        for (const dimensions of ['', 'dimensions small, ', 'dimensions ordinary, ']) {
          const rows = thing(`cylinder C-2: spec ${spec}, ${period}${dimensions}made 2015-03`).due;
          const named = rows.filter(r => /requalification|small-inspection/.test(r.requirement));
          expect([spec, period, dimensions, named.length]).toEqual([spec, period, dimensions, 1]);
        }
  });

  it('for UN receptacles goes ten years, with carbon dioxide or a toxic gas five, however the gas is written', () => {
    const REQUALIFICATION = /^cylinder\.requalification/;
    const due = (more: string) => {
      const rows = thing(`cylinder C-3: spec UN seamless, ${more}made 2015-03`).due;
      return rows.filter(r => REQUALIFICATION.test(r.requirement)).map(r => r.dueOn);
    };
    expect(due('gas nitrogen, ')).toEqual([day('2025-03-31')]);
    for (const gas of ['gas CO2, ', 'gas Carbon Dioxide, ', 'gas UN1013, ', 'gas chlorine, toxic yes, '])
      expect(due(gas)).toEqual([day('2020-03-31')]);
  });

  it('binds everywhere by 49 CFR, and no longer period binds less', () => {
    for (const r of SHIPPED_REQUIREMENTS.filter(
      one => one.family === 'cylinder' && one.sources[0]?.document === '49 CFR',
    ))
      expect([r.id, r.force, r.bindings?.[0]?.reach]).toEqual([r.id, 'law', 'everywhere']);
  });
});
