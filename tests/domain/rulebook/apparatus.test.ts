/**
 * What a rig owes. The rules are those of NFPA 1911 (now 1910) as trade press, service companies and training texts
 * tell them, and of Washington's WAC 296-305-04505, -04507 and -04510, which were read; beside each check stands which.
 */
import { describe, expect, it } from 'vitest';
import { clockWords } from '../../../domain/rulebook/clock-words.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import { book, dueOn, inForceOn, SHIPPED, shipped, state, thing } from '../notation.ts';

const rig = familyOf('apparatus');

/** The duties that show on a rig, without the family's name. */
const duties = (text: string, by = SHIPPED) =>
  inForceOn(thing(text, by), '2026-11-25').map(r => r.requirement.replace('apparatus.', ''));

/** The shipped book with what is from memory confirmed by the department. */
const CONFIRMED = book({
  adoptions: (rig?.requirements ?? []).map(r => ({
    requirement: { ...r, confirmed: 'the edition in hand' },
    from: null,
  })),
});

const owed = (text: string) => thing(text).owed.map(o => o.activity);

/** Placed in service on 10 Jan 2024: when the first is due, and when the next after one of 4 May 2026. */
const DATES: readonly (readonly [
  duty: string,
  rig: string,
  activity: string,
  first: string,
  next: string,
])[] = [
  // WAC 296-305-04505(1); NFPA 1911, 2007: daily or weekly
  ['daily-check', 'staffed yes', 'operational check', '2024-01-11', '2026-05-05'],
  ['weekly-check', 'staffed no', 'operational check', '2024-01-17', '2026-05-11'],
  // NFPA 1911: twice a year in the summary of 2017; yearly performance tests of chassis and systems
  ['inspection', '', 'inspection', '2024-07-10', '2026-11-04'],
  ['brakes', '', 'brake inspection', '2025-01-10', '2027-05-04'],
  ['low-voltage', '', 'low-voltage test', '2025-01-10', '2027-05-04'],
  ['line-voltage', 'lineVoltage yes', 'line-voltage test', '2025-01-10', '2027-05-04'],
  ['foam-proportioner', 'foamSystem yes', 'foam proportioner test', '2025-01-10', '2027-05-04'],
  ['cafs', 'cafs yes', 'CAFS test', '2025-01-10', '2027-05-04'],
  ['air-system', 'airSystem cascade', 'air system test', '2025-01-10', '2027-05-04'],
  // NFPA 1989: air quarterly; steel storage renewed yearly
  ['air-sample', 'airSystem compressor', 'air sample', '2024-01-10', '2026-08-04'],
  ['stored-air', 'airSystem cascade', 'stored air replacement', '2025-01-10', '2027-05-04'],
  // NFPA 1911: pumps yearly; 19.1 aerials yearly and every five years
  ['pump-test', 'pump_gpm 250', 'pump test', '2025-01-10', '2027-05-04'],
  ['pump-test-unrated', 'kind quint', 'pump test', '2025-01-10', '2027-05-04'],
  ['aerial-test', 'aerial boom', 'aerial test', '2025-01-10', '2027-05-04'],
  ['aerial-test-untold', 'kind ladder', 'aerial test', '2025-01-10', '2027-05-04'],
  ['aerial-ndt', 'aerial water tower', 'aerial NDT', '2029-01-10', '2031-05-04'],
  ['aerial-ndt-untold', 'kind quint', 'aerial NDT', '2029-01-10', '2031-05-04'],
  // Six months, or the meters: common practice, no source
  ['preventive-service', '', 'preventive service', '2024-07-10', '2026-11-04'],
  // From memory, so only as the department confirms them
  ['weighing', '', 'weighing', '2025-01-10', '2027-05-04'],
  ['small-pump-test', 'pump_gpm 249', 'pump test', '2025-01-10', '2027-05-04'],
  ['winch', 'winch yes', 'winch inspection', '2025-01-10', '2027-05-04'],
];

describe('how often', () => {
  it.each(DATES)('%s (%s)', (duty, attributes, activity, first, next) => {
    const one = `apparatus E-1: ${attributes === '' ? '' : `${attributes}, `}inService 2024-01-10`;
    expect(dueOn(one, `apparatus.${duty}`, CONFIRMED)).toBe(first);
    expect(dueOn(`${one}\n2026-05-04  passed  ${activity}`, `apparatus.${duty}`, CONFIRMED)).toBe(next);
  });

  it('is warned of by the length of the interval: 2 days for a week, 60 for up to a year, 180 for five (own rule)', () => {
    const warned = (id: string) => shipped(`apparatus.${id}`).warnDays;
    expect(['weekly-check', 'inspection', 'brakes', 'aerial-ndt'].map(warned)).toEqual([2, 60, 60, 180]);
    expect(['preventive-service', 'state-inspection'].map(warned)).toEqual([60, 60]);
  });
});

describe('what stops a rig', () => {
  it('is what keeps it from water, from height, from breathing or from stopping; the rest limits or is noted', () => {
    const blocking = (rig?.requirements ?? []).filter(r => r.late === 'blocks').map(r => r.id);
    expect(blocking.map(id => id.replace('apparatus.', ''))).toEqual([
      'air-loss',
      'steer-tread',
      'other-tread',
      'pump-test',
      'pump-test-unrated',
      'aerial-test',
      'aerial-test-untold',
      'aerial-ndt',
      'aerial-ndt-untold',
      'air-sample',
    ]);
  });
});

describe('the check of a rig', () => {
  const checked = 'inService 2024-01-10\n2026-11-24  passed  operational check';

  it('is daily where the rig is staffed (WAC 296-305-04505(1)), and the weekly one is not shown beside it', () => {
    const staffed = `apparatus E-1: staffed yes, ${checked}`;
    expect(dueOn(staffed, 'apparatus.daily-check')).toBe('2026-11-25');
    expect(state(staffed, 'apparatus.daily-check', '2026-11-26')).toBe('overdue');
    expect(duties(staffed)).not.toContain('weekly-check');
    expect(shipped('apparatus.daily-check').bindings).toEqual([
      { reach: { states: ['WA'] }, cite: 'WAC 296-305-04505(1)' },
    ]);
  });

  it('is weekly for any other, also where nobody has said whether it is staffed (NFPA 1911: daily or weekly)', () => {
    for (const said of ['', 'staffed no, ']) {
      const other = `apparatus E-9: ${said}${checked}`;
      expect(dueOn(other, 'apparatus.weekly-check')).toBe('2026-12-01');
      expect(duties(other)).not.toContain('daily-check');
    }
  });

  it('is owed again when it comes back from the shop (departments’ procedures), whatever the date', () =>
    expect(rig?.triggers.find(t => t.id === 'back from the shop')?.owes).toBe('operational check'));
});

describe('the inspection of a rig', () => {
  it('is twice a year, the stricter of two editions (2007: annual; summary of 2017: twice a year)', () => {
    const inspected = 'apparatus E-1: inService 2024-01-10\n2026-08-31  passed  inspection';
    expect(dueOn(inspected, 'apparatus.inspection')).toBe('2027-02-28');
    expect(duties(inspected)).not.toContain('annual-inspection');
  });

  it('is law once a year for brigades (29 CFR 1910.156(d)), whatever the department does with the standard', () => {
    const annual = shipped('apparatus.annual-inspection');
    expect([annual.force, annual.bindings]).toEqual(['law', [{ reach: 'osha', cite: '29 CFR 1910.156(d)' }]]);
    expect(annual.clock).toMatchObject({ kind: 'since last', every: { months: 12 } });
  });
});

describe('the pump', () => {
  const pumper = 'apparatus E-1: kind engine, pump_gpm 1500, tank_gal 750, inService 2024-01-10';

  it('is tested every 12 months (NFPA 1911), the first 12 months after it was placed in service', () => {
    expect(dueOn(pumper, 'apparatus.pump-test')).toBe('2025-01-10');
    expect(dueOn(`${pumper}\n2026-05-04  passed  pump test`, 'apparatus.pump-test')).toBe('2027-05-04');
  });

  it('is tested after a repair of pump or engine, and the next yearly one counts from that test', () => {
    const due = rig?.repairs.filter(r => r.owes.includes('pump test')).map(r => r.kind);
    expect(due).toEqual(['pump or pump drive', 'engine, with pump']);
    const repaired = `${pumper}\n2026-05-04  passed  pump test\n2026-09-01  owes  pump test: pump or pump drive`;
    expect(state(repaired, 'apparatus.pump-test', '2026-09-02')).toBe('retest owed');
    expect(dueOn(`${repaired}\n2026-09-03  passed  pump test`, 'apparatus.pump-test')).toBe('2027-09-03');
  });

  it('takes tank-to-pump flow and controls with it, and shows them only where they are owed by themselves', () => {
    const tested = `${pumper}\n2026-05-04  passed  pump test`;
    expect(duties(tested)).not.toContain('tank-to-pump');
    expect(duties(tested)).not.toContain('pump-controls');
    const valve = `${tested}\n2026-09-01  owes  tank-to-pump flow test: tank or tank-to-pump line`;
    expect(state(valve, 'apparatus.tank-to-pump', '2026-09-02')).toBe('retest owed');
    expect(owed(`${valve}\n2026-09-02  passed  tank-to-pump flow test`)).toEqual([]);
  });

  it('of an engine or quint whose rating is not on file is not forgotten', () => {
    for (const kind of ['engine', 'quint'])
      expect(duties(`apparatus E-1: kind ${kind}, inService 2024-01-10`)).toContain('pump-test-unrated');
    expect(duties(pumper)).not.toContain('pump-test-unrated');
    const command = 'apparatus C-1: kind command, inService 2024-01-10';
    expect(duties(command).filter(d => d.includes('pump') || d.includes('priming'))).toEqual([]);
  });

  it('under 250 gpm is tested by its maker’s figures (from memory), not at 150 psi net', () => {
    const brush = 'apparatus B-1: kind brush, pump_gpm 100, tank_gal 200, inService 2024-01-10';
    expect(duties(brush)).toContain('small-pump-test');
    expect(duties(brush)).not.toContain('pump-test');
    const at = (gpm: number) =>
      duties(`apparatus B-1: pump_gpm ${gpm}, inService 2024-01-10`).filter(d => d.endsWith('pump-test'));
    expect([at(0), at(1), at(249), at(250)]).toEqual([
      [],
      ['small-pump-test'],
      ['small-pump-test'],
      ['pump-test'],
    ]);
  });

  it('gives at least 250 gpm from a tank under 500 gal and 500 gpm from a larger one (from memory)', () => {
    const flowed = (tank: number, gpm: number) =>
      duties(
        `apparatus E-1: pump_gpm 1250, tank_gal ${tank}, inService 2024-01-10\n2026-05-04  passed  pump test: tankToPump_gpm ${gpm}`,
        CONFIRMED,
      ).filter(d => d.startsWith('tank-to-pump'));
    expect([flowed(499, 250), flowed(499, 249)]).toEqual([[], ['tank-to-pump-small']]);
    expect([flowed(500, 500), flowed(500, 499)]).toEqual([[], ['tank-to-pump-large']]);
    expect([flowed(499, 200), flowed(500, 200)]).toEqual([['tank-to-pump-small'], ['tank-to-pump-large']]);
  });

  it('has no tank-to-pump test where there is no tank, and no controls to check where there is no pump', () => {
    const owes = (text: string) =>
      duties(
        `apparatus E-1: ${text}, inService 2024-01-10\n2026-05-04  failed  pump controls check\n2026-05-04  failed  tank-to-pump flow test`,
      ).filter(d => ['tank-to-pump', 'pump-controls'].includes(d));
    expect([owes('pump_gpm 0, tank_gal 3000'), owes('pump_gpm 1500, tank_gal 0')]).toEqual([
      [],
      ['pump-controls'],
    ]);
    expect(owes('pump_gpm 1, tank_gal 1')).toEqual(['tank-to-pump', 'pump-controls']);
  });

  it('that primes in over 30 s up to 1,250 gpm, or over 45 s from 1,500 gpm, owes its test again (service company’s list)', () => {
    const primed = (gpm: number, s: number) =>
      duties(
        `apparatus E-1: kind engine, pump_gpm ${gpm}, inService 2024-01-10\n2026-05-04  passed  pump test: prime_s ${s}`,
      ).filter(d => d.startsWith('priming'));
    expect([primed(750, 30), primed(1250, 30), primed(1250, 31)]).toEqual([[], [], ['priming-30']]);
    expect(primed(1250, 60)).toEqual(['priming-30']);
    expect([primed(1500, 31), primed(1500, 45), primed(1500, 46)]).toEqual([[], [], ['priming-45']]);
  });
});

describe('the aerial', () => {
  const ladder = 'apparatus L-1: kind ladder, aerial platform, inService 2020-03-14';

  it('is inspected and tested every year and nondestructively every five (NFPA 1911 19.1; WAC 296-305-04510(3))', () => {
    const tested = `${ladder}\n2025-03-14  passed  aerial test\n2021-08-20  passed  aerial NDT`;
    expect(dueOn(tested, 'apparatus.aerial-test')).toBe('2026-03-14');
    expect(dueOn(tested, 'apparatus.aerial-ndt')).toBe('2026-08-20');
  });

  it('is law for both in Washington, and names who may do the second (ASNT CP-189, Level II)', () => {
    const cites = ['apparatus.aerial-test', 'apparatus.aerial-ndt'].map(id => shipped(id).bindings);
    expect(cites).toEqual([
      [{ reach: { states: ['WA'] }, cite: 'WAC 296-305-04510(3)(a)' }],
      [{ reach: { states: ['WA'] }, cite: 'WAC 296-305-04510(3)(b)' }],
    ]);
    expect(shipped('apparatus.aerial-ndt').asks).toMatch(/Level II.*CP-189/);
  });

  it('has no yearly test settled by the five-year one, nor the other way round', () => {
    expect(shipped('apparatus.aerial-test').satisfiedBy).toEqual(['aerial test']);
    expect(shipped('apparatus.aerial-ndt').satisfiedBy).toEqual(['aerial NDT']);
  });

  it('of a ladder or quint that nobody has described is taken to be there, and is not on a rig that has none', () => {
    expect(duties('apparatus Q-1: kind quint, inService 2020-03-14')).toEqual(
      expect.arrayContaining(['aerial-test-untold', 'aerial-ndt-untold']),
    );
    expect(
      duties('apparatus Q-1: kind quint, aerial none, inService 2020-03-14').filter(d =>
        d.startsWith('aerial'),
      ),
    ).toEqual([]);
    expect(duties(ladder).filter(d => d.endsWith('untold'))).toEqual([]);
    expect(
      duties('apparatus E-1: kind engine, inService 2020-03-14').filter(d => d.startsWith('aerial')),
    ).toEqual([]);
  });
});

describe('tires', () => {
  const rolling = 'apparatus E-1: inService 2019-01-10, steerTiresMade 2018-06-04, otherTiresMade 2020-09';

  it('are replaced seven years after the date code (NFPA 1911 8.3.6; contested)', () => {
    expect(dueOn(rolling, 'apparatus.steer-tire-age')).toBe('2025-06-04');
    expect(dueOn(rolling, 'apparatus.other-tire-age')).toBe('2027-09-30');
    expect(state('apparatus E-1: inService 2019-01-10', 'apparatus.steer-tire-age', '2026-11-25')).toBe(
      'not judged',
    );
  });

  it('start again with what is fitted', () =>
    expect(dueOn(`${rolling}\nalways  amended  steerTiresMade 2025-03`, 'apparatus.steer-tire-age')).toBe(
      '2032-03-31',
    ));

  it('under 4/32 in on a steering axle or under 2/32 in elsewhere are owed until replaced (NFPA 1911, 2007; 49 CFR 393.75)', () => {
    const tread = (figures: string) =>
      duties(`${rolling}\n2026-11-01  passed  inspection: ${figures}`).filter(d => d.includes('tread'));
    expect(tread('steerTread_32nds 4, otherTread_32nds 2')).toEqual([]);
    expect(tread('steerTread_32nds 3.5, otherTread_32nds 6')).toEqual(['steer-tread']);
    expect(tread('steerTread_32nds 8, otherTread_32nds 1')).toEqual(['other-tread']);
    expect(shipped('apparatus.steer-tread').late).toBe('blocks');
  });
});

describe('brakes and weight', () => {
  it('lose at most 2 psi of air in a minute (NFPA 1911, 2007, out-of-service criteria)', () => {
    const lost = (psi: string) =>
      duties(
        `apparatus E-1: inService 2024-01-10\n2026-11-01  passed  brake inspection: airLoss_psi_per_min ${psi}`,
      ).includes('air-loss');
    expect([lost('0.5'), lost('2'), lost('2.1')]).toEqual([false, false, true]);
  });

  it('fails an axle over its rating though the total is within (from memory)', () => {
    const weighed = (front: number, rear: number) =>
      duties(
        `apparatus E-1: inService 2024-01-10, gawrFront_lb 20000, gawrRear_lb 27000, gvwr_lb 47000
        2026-11-01  passed  weighing: frontAxle_lb ${front}, rearAxle_lb ${rear}, total_lb ${front + rear}`,
        CONFIRMED,
      ).filter(d => d.startsWith('weight'));
    expect([weighed(19800, 26500), weighed(20150, 26000)]).toEqual([[], ['weight-front']]);
    expect(weighed(20000, 27001)).toEqual(['weight-rear', 'weight-total']);
  });

  it('is not shown as unjudged where nothing was weighed', () =>
    expect(
      duties('apparatus E-1: inService 2026-10-10, gvwr_lb 47000').filter(d => d.startsWith('weight')),
    ).toEqual([]));

  it('waits for the department’s word on weights, since nobody has seen the clause', () =>
    expect(
      state(
        'apparatus E-1: inService 2024-01-10, gvwr_lb 47000\n2026-11-01  passed  weighing: total_lb 50000',
        'apparatus.weight-total',
        '2026-11-25',
      ),
    ).toBe('not judged'));
});

describe('the systems a rig carries', () => {
  const SYSTEMS = [
    'line-voltage',
    'foam-proportioner',
    'cafs',
    'air-sample',
    'air-system',
    'stored-air',
    'winch',
    'waterway',
  ];
  const on = (text: string) =>
    duties(`apparatus R-1: inService 2026-10-01, ${text}`).filter(d => SYSTEMS.includes(d));

  it('owe their tests only where they are there', () => {
    expect(on('kind rescue')).toEqual([]);
    expect(on('lineVoltage yes, winch yes')).toEqual(['line-voltage', 'winch']);
    expect(on('foamSystem yes, cafs yes')).toEqual(['foam-proportioner', 'cafs']);
    expect(on('airSystem cascade')).toEqual(['air-system', 'stored-air']);
    expect(on('airSystem both')).toEqual(['air-sample', 'air-system', 'stored-air']);
    expect(on('airSystem none, winch no')).toEqual([]);
  });

  it('breathe air sampled every quarter and before first use (NFPA 1989), and after repair', () => {
    const truck = 'apparatus A-1: airSystem compressor, inService 2026-01-10';
    expect(dueOn(truck, 'apparatus.air-sample')).toBe('2026-01-10');
    expect(dueOn(`${truck}\n2026-11-30  passed  air sample`, 'apparatus.air-sample')).toBe('2027-02-28');
    expect(rig?.repairs.find(r => r.kind === 'breathing-air system')?.owes).toEqual(['air sample']);
  });
});

describe('service, age and what is from memory', () => {
  it('is serviced by months, miles or engine hours, whichever comes first (common practice, no source)', () => {
    const { clock } = shipped('apparatus.preventive-service');
    const kinds =
      clock.kind === 'first of' ? clock.clocks.map(c => (c.kind === 'meter' ? c.meter : c.kind)) : [];
    expect(kinds).toEqual(['since last', 'miles', 'engine hours']);
    expect(clockWords(shipped('apparatus.preventive-service'), rig)).toBe(
      'Every 6 months or every 5,000 miles or every 250 engine hours, whichever comes first',
    );
    for (const meter of kinds.slice(1)) expect(rig?.meters).toContain(meter);
  });

  it('is evaluated once at 15 years and retired at 25, as an annex recommends: noted, never blocking', () => {
    const old = 'apparatus E-9: made 2005-06, inService 2006-01-10';
    expect(dueOn(old, 'apparatus.service-age')).toBe('2020-06-30');
    expect(duties(`${old}\n2021-02-01  passed  service-age evaluation`)).not.toContain('service-age');
    expect(dueOn(old, 'apparatus.retirement-age')).toBe('2030-06-30');
    expect([shipped('apparatus.service-age').late, shipped('apparatus.retirement-age').late]).toEqual([
      'notes',
      'notes',
    ]);
  });

  it('leaves weights, tank-to-pump figures, waterway and winch to the department’s own edition', () => {
    const unseen = (rig?.requirements ?? [])
      .filter(r => r.sources.every(s => s.confidence === 'memory'))
      .map(r => r.id.replace('apparatus.', ''));
    expect(unseen).toEqual([
      'weighing',
      'weight-front',
      'weight-rear',
      'weight-total',
      'small-pump-test',
      'tank-to-pump-small',
      'tank-to-pump-large',
      'waterway',
      'winch',
    ]);
  });

  it('is inspected by the state where its sticker says so, and not where it has none', () => {
    expect(dueOn('apparatus E-1: stateInspectionExpires 2027-03', 'apparatus.state-inspection')).toBe(
      '2027-03-31',
    );
    expect(shipped('apparatus.state-inspection').appliesTo).toEqual([
      { attribute: 'stateInspectionExpires', known: true },
    ]);
  });

  it('owes no pump test to a rig that has none after work on its engine', () =>
    expect(rig?.repairs.find(r => r.kind === 'engine, no pump')?.owes).not.toContain('pump test'));
});
