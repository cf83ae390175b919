/**
 * The walk-round of a rig. What puts it out, and by which source, is tested in tests/domain/checkoffs; here, what it
 * does to the rig: a local out-of-service policy that was read (class 3 oil leak, more than three warning lights:
 * out), 49 CFR 393.75(b) (under 4/32 in on the steering axle).
 */
import { describe, expect, it } from 'vitest';
import type { RigPage } from '../../db/api-desk.ts';
import { CRITERIA } from '../../domain/checkoffs/criteria.ts';
import { layGround, newDepartment } from './kit/department.ts';

/** Everything as it should be: the first answer of each choice, and readings that pass. */
const READ: Record<string, string> = { psi: '150', '/32 in': '9', '': '0' };
const fine = (): Record<string, string> =>
  Object.fromEntries(
    CRITERIA.map(c => [
      c.id,
      c.answer.kind === 'choice' ? (c.answer.values[0]?.value ?? '') : (READ[c.answer.unit] ?? '0'),
    ]),
  );

function rig() {
  const d = newDepartment();
  const g = layGround(d);
  const walk = (more: Record<string, string> = {}, request = {}) =>
    d.must('rig.walkRound', { rig: g.rig, answers: { ...sound(), ...more } }, request);
  const page = () => d.ask<RigPage>('rig.page', { rig: 'Engine 31' });
  return { d, g, walk, page };
}

/** Fine, with readings in the units in which air brakes are judged. */
function sound(): Record<string, string> {
  const answers = fine();
  for (const c of CRITERIA)
    if (c.answer.kind === 'reading' && c.group === 'brakes') {
      const limits = [c.out, c.limited].flatMap(r => (r && 'under' in r ? [r.under] : []));
      answers[c.id] = limits[0] ?? '0';
    }
  return answers;
}

describe('a walk-round', () => {
  it('that finds nothing is the day’s operational check, passed, and changes nothing else', async () => {
    const { d, g, walk, page } = rig();
    walk();
    expect((await page()).condition).toBe('in service');
    const history = await d.ask<{ what: string }[]>('item.history', { item: g.rig });
    expect(history.map(h => h.what)).toContain('Operational check, passed');
  });

  it('that finds a class 3 oil leak takes the rig out with the signature of whoever found it', async () => {
    const { d, walk, page } = rig();
    const driver = d.must('member.add', { number: '112', name: 'Ana Ruiz', position: 'driver' });
    walk({ 'leak.engine-oil': 'class 3' }, { by: driver });
    const { condition, conditionReason } = await page();
    expect(condition).toBe('out of service');
    expect(conditionReason).toMatch(
      /^Engine oil leak of class 3, drops that fall: out of service from class 3 on/,
    );
  });

  it('of which a driver took the rig out, only somebody entitled returns it', async () => {
    const { d, g, walk, page } = rig();
    const driver = d.must('member.add', { number: '112', name: 'Ana Ruiz', position: 'driver' });
    walk({ 'tires.steering-tread': '3' }, { by: driver });
    expect((await page()).conditionReason).toContain(
      'Tire tread 3/32 in on the steering axle, under 4/32 in',
    );
    expect(d.codes('rig.return', { rig: g.rig }, { by: driver })).toEqual(['not entitled']);
    d.must('rig.return', { rig: g.rig });
    expect((await page()).condition).toBe('in service');
  });

  it('that limits does not make better what is out already', async () => {
    const { d, g, walk, page } = rig();
    d.must('rig.takeOut', { rig: g.rig, condition: 'out of service', reason: 'Transmission' });
    walk({ 'lights.siren': 'one or both silent' });
    expect((await page()).condition).toBe('out of service');
  });

  it('of which something was not looked at is not a check that was completed', async () => {
    const { d, g } = rig();
    d.must('rig.walkRound', { rig: g.rig, answers: { 'leak.fuel': 'none' } });
    const history = await d.ask<{ what: string }[]>('item.history', { item: g.rig });
    expect(history.map(h => h.what)).toContain('Operational check, not completed');
  });

  it('is refused an answer that is none, and one in which nothing was looked at', () => {
    const { d, g } = rig();
    const codes = (answers: Record<string, string>) => d.codes('rig.walkRound', { rig: g.rig, answers });
    expect(codes({ 'tires.steering-tread': 'deep' })).toEqual(['bad answer']);
    expect(codes({ 'leak.fuel': 'a little' })).toEqual(['bad answer']);
    expect(codes({})).toEqual(['nothing']);
  });
});
