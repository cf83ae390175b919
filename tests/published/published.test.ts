/** Every published vector of these families, run through the store's doors or the function it is about. */
import { afterAll, describe, expect, it } from 'vitest';
import { AIR_CHECKS } from './checks/air.ts';
import { CALENDAR_CHECKS } from './checks/calendar.ts';
import { CYLINDER_USE_CHECKS } from './checks/cylinder-uses.ts';
import { DUE_DATE_CHECKS } from './checks/due-dates.ts';
import { EXTINGUISHER_CHECKS } from './checks/extinguishers.ts';
import { FILLING_CHECKS } from './checks/filling.ts';
import { GEAR_CHECKS } from './checks/gear.ts';
import { HOSE_AND_LADDER_CHECKS } from './checks/hose-and-ladder.ts';
import { PACK_CHECKS } from './checks/pack.ts';
import { PERIOD_CHECKS } from './checks/periods.ts';
import { RIG_CHECKS } from './checks/rigs.ts';
import { closeDepartments } from './department.ts';
import { titleOf, VECTORS } from './vectors.ts';

const CHECKS = [
  ...CALENDAR_CHECKS,
  ...DUE_DATE_CHECKS,
  ...PERIOD_CHECKS,
  ...FILLING_CHECKS,
  ...HOSE_AND_LADDER_CHECKS,
  ...PACK_CHECKS,
  ...RIG_CHECKS,
  ...GEAR_CHECKS,
  ...CYLINDER_USE_CHECKS,
  ...AIR_CHECKS,
  ...EXTINGUISHER_CHECKS,
];

afterAll(closeDepartments);

describe('the published vectors', () => {
  it('are all here, each once', () => {
    const ids = VECTORS.map(v => v.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBe(265);
  });

  it('each have exactly one check', () => {
    const checked = VECTORS.map(v => [v.id, CHECKS.filter(c => c.ids.test(v.id)).length]);
    expect(checked.filter(([, checks]) => checks !== 1)).toEqual([]);
  });

  it('leave no check without a vector', () => {
    const idle = CHECKS.filter(c => !VECTORS.some(v => c.ids.test(v.id))).map(c => c.ids.source);
    expect(idle).toEqual([]);
  });

  for (const vector of VECTORS)
    it(titleOf(vector), async () => {
      expect.hasAssertions();
      const check = CHECKS.find(c => c.ids.test(vector.id));
      if (!check) throw new Error(`${vector.id} has no check.`);
      await check.run(vector);
    });
});
