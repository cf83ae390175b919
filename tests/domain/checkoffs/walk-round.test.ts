/**
 * What a walk-round does to a rig. Figures from a public quiz on a local policy citing NFPA 1911 (2007), read
 * second-hand; leak classes from a public local policy, read; the rest as each test says.
 */
import { describe, expect, it } from 'vitest';
import { CRITERIA } from '../../../domain/checkoffs/criteria.ts';
import type { Criterion } from '../../../domain/checkoffs/criterion.ts';
import { judgeRig } from '../../../domain/checkoffs/walk-round.ts';

/** What one answer does: the first finding's list and its sentence. */
function does(criterion: string, answer: string, among: readonly Criterion[] = CRITERIA): string {
  const { out, limited, notes, notJudged } = judgeRig({ [criterion]: answer }, among);
  const told = Object.entries({ out, limited, notes, notJudged }).flatMap(([list, found]) =>
    found.map(f => `${list} | ${f.text}`),
  );
  return told.join(' / ') || 'nothing';
}
const list = (criterion: string, answer: string) => does(criterion, answer).split(' | ')[0];
const lists = (criterion: string, answers: readonly string[]) => answers.map(a => list(criterion, a));

describe('tire tread, 49 CFR 393.75(b) and (c)', () => {
  it('is out on the steering axle under 4/32 in, and not at it', () => {
    expect(does('tires.steering-tread', '3')).toBe(
      'out | Tire tread 3/32 in on the steering axle, under 4/32 in: out of service (49 CFR 393.75(b), read second-hand)',
    );
    expect(lists('tires.steering-tread', ['4', '4.0', '3.99', '0'])).toEqual([
      'nothing',
      'nothing',
      'out',
      'out',
    ]);
  });

  it('is out elsewhere under 2/32 in', () =>
    expect(lists('tires.other-tread', ['1.5', '2', '3'])).toEqual(['out', 'nothing', 'nothing']));
});

describe('air brakes, NFPA 1911 (2007)', () => {
  it('are out that lose over 2 psi in a minute, released', () => {
    expect(lists('brakes.air-loss-released', ['2', '2.0', '2.1'])).toEqual(['nothing', 'nothing', 'out']);
    expect(does('brakes.air-loss-released', '2.5')).toBe(
      'out | Air loss with the brakes released 2.5 psi in 1 minute, over 2 psi: out of service (NFPA 1911 (ch. 6, out-of-service criteria), 2007; carried into NFPA 1910 (2024), read second-hand)',
    );
  });

  it('are out that take over 45 s from 85 to 100 psi', () =>
    expect(lists('brakes.buildup', ['45', '46'])).toEqual(['nothing', 'out']));

  it('are out that do not hold 80 psi at idle', () =>
    expect(lists('brakes.idle-pressure', ['80', '79.9', '90', '95'])).toEqual([
      'nothing',
      'out',
      'nothing',
      'nothing',
    ]));

  it('applied, over 3 psi in a minute, is from memory and judges nothing', () => {
    expect(lists('brakes.air-loss-applied', ['3', '3.5'])).toEqual(['nothing', 'notJudged']);
    expect(does('brakes.air-loss-applied', '4')).toBe(
      'notJudged | Air loss with the brakes applied 4 psi in 1 minute, over 3 psi: not judged, confirm whether it is out of service (Commercial license test practice, from memory)',
    );
  });

  it('applied, is judged once the department has confirmed it, and says from what', () => {
    const mine = CRITERIA.map(c =>
      c.id === 'brakes.air-loss-applied' ? { ...c, confirmed: 'the state’s test manual' } : c,
    );
    expect(does('brakes.air-loss-applied', '4', mine)).toBe(
      'out | Air loss with the brakes applied 4 psi in 1 minute, over 3 psi: out of service (Commercial license test practice, from memory, confirmed: the state’s test manual)',
    );
  });

  it('are not asked of a rig that has none', () =>
    expect(does('brakes.air-loss-released', 'not fitted')).toBe('nothing'));
});

describe('fluid leaks, by a local out-of-service policy', () => {
  const CLASSES = ['none', 'class 1', 'class 2', 'class 3'];

  it.each(['leak.engine-oil', 'leak.transmission'])('puts a rig out at class 3: %s', id =>
    expect(lists(id, CLASSES)).toEqual(['nothing', 'notes', 'notes', 'out']),
  );

  it('notes a lesser leak by practice, and does not lay that on the policy', () =>
    expect(does('leak.engine-oil', 'class 2')).toBe(
      'notes | Engine oil leak of class 2, drops that do not fall: noted (common practice, no source)',
    ));

  it('puts a rig out at any leak of fuel', () => {
    expect(lists('leak.fuel', CLASSES)).toEqual(['nothing', 'out', 'out', 'out']);
    expect(does('leak.fuel', 'class 1')).toBe(
      'out | Fuel leak of class 1, seepage without drops: out of service at any leak (Local out-of-service policy (fluid-leak classes))',
    );
  });

  it.each(['leak.coolant', 'leak.hydraulic'])(
    'names no class for it, so that practice limits at class 3: %s',
    id => {
      expect(lists(id, CLASSES)).toEqual(['nothing', 'notes', 'notes', 'limited']);
      expect(does(id, 'class 3')).toMatch(
        /: in service with limits from class 3 on \(common practice, no source\)$/,
      );
    },
  );
});

describe('departments’ out-of-service procedures', () => {
  it.each([
    ['brakes.parking', 'does not hold', 'Parking brake does not hold'],
    ['brakes.audible-leak', 'heard', 'Air leak of the brakes heard'],
    ['electrical.charging', 'does not charge', 'The electrical system does not charge'],
    ['lights.headlights', 'both out', 'Headlights: both out'],
  ])('put a rig out: %s %s', (id, answer, told) =>
    expect(does(id, answer)).toBe(`out | ${told}: out of service (Departments’ out-of-service procedures)`),
  );

  it('put a rig out with more than three warning lights out', () =>
    expect(lists('lights.warning', ['0', '1', '3', '4'])).toEqual(['nothing', 'notes', 'notes', 'out']));

  it('say nothing of one headlight: it is noted', () =>
    expect(list('lights.headlights', 'one out')).toBe('notes'));
});

describe('the daily walk-round', () => {
  it('notes fuel under three quarters, and stops nothing by it', () =>
    expect(does('fluids.fuel', 'under three quarters')).toBe(
      'notes | Fuel under three quarters: noted (Departments’ daily check procedures)',
    ));

  it('limits a pump that does not hold 150 psi for 30 s: one guideline’s figure, the effect by practice', () => {
    expect(lists('pump.pressure', ['150', '149', 'not fitted'])).toEqual(['nothing', 'limited', 'nothing']);
    expect(does('pump.pressure', '140')).toBe(
      'limited | Pump holds 140 psi for 30 s, under 150 psi: in service with limits (Departments’ daily check procedures, common practice)',
    );
  });

  it('judges nothing by what is only remembered: steering, damaged tires, brake fluid', () =>
    expect([
      list('steering.play', 'loose or binding'),
      list('tires.condition', 'flat, bulging or cut'),
      list('leak.brake-fluid', 'class 1'),
    ]).toEqual(['notJudged', 'notJudged', 'notJudged']));
});

describe('an answer', () => {
  it('that is missing or blank is unanswered, never good', () => {
    expect(judgeRig({}).unanswered).toEqual(CRITERIA.map(c => c.id));
    expect(judgeRig({ 'fluids.fuel': '  ' }).unanswered).toContain('fluids.fuel');
    expect(judgeRig({ 'fluids.fuel': 'three quarters or more' }).unanswered).not.toContain('fluids.fuel');
  });

  it('that cannot be read is not judged', () => {
    for (const answer of ['abc', '-1', '3/32', '1,000', '.5', 'not fitted'])
      expect(does('tires.steering-tread', answer)).toBe(
        `notJudged | Steering tires: tread: “${answer}” is not a reading: not judged`,
      );
    expect(does('fluids.fuel', 'half')).toBe('notJudged | Fuel: “half” is none of its answers: not judged');
  });

  it('to what is no criterion here is not swallowed', () =>
    expect(does('lights.unknown', 'out')).toBe(
      'notJudged | “lights.unknown” is no criterion here: not judged',
    ));

  it('is told as it was written, whatever it holds', () =>
    expect(does('x', '$&', [odd()])).toBe('notes | Said $& there: noted (common practice, no source)'));
});

function odd(): Criterion {
  const [one] = CRITERIA.filter(c => c.id === 'lights.other');
  if (!one) throw new Error('It is gone.');
  return {
    ...one,
    id: 'x',
    told: 'Said # there',
    answer: { kind: 'choice', values: [{ value: '$&', title: '$&' }] },
    noted: { is: ['$&'] },
  };
}
