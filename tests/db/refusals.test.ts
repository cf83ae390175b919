import { describe, expect, it } from 'vitest';
import { familyOf } from '../../domain/rulebook/index.ts';
import { aHose, departmentInMemory } from './kit/department.ts';

function ready() {
  const { d, g } = departmentInMemory();
  return { d, g, hose: aHose(d, '31-107', { place: g.bed }) };
}

/** Every deed on a thing that says when it was done, with what it needs besides the thing. */
const ON_A_THING: Record<string, Record<string, unknown>> = {
  'item.assign': { assignment: 'reserve' },
  'item.tagOut': { reason: 'Cut' },
  'item.limit': { reason: 'Training ground only' },
  'item.sendToRepair': {},
  'item.repaired': { kind: 'recoupled' },
  'item.oweRetest': { trigger: 'suspected damage' },
  'item.return': {},
  'item.hold': { reason: 'Burst' },
  'item.missing': {},
  'item.retire': { reason: 'Worn' },
  'item.dispose': { how: 'Cut up' },
  'record.add': { activity: 'inspection', outcome: 'pass' },
};

describe('a deed on a thing', () => {
  it.each(Object.entries(ON_A_THING))('%s is refused for tomorrow and taken for today', (action, more) => {
    const { d, hose } = ready();
    const [problem] = d.refused(action, { item: hose, ...more, on: '2026-11-26' });
    expect(problem).toMatchObject({ code: 'future date', field: 'on' });
    expect(problem?.message).toContain('26 Nov 2026 is after today, 25 Nov 2026');
    expect(d.codes(action, { item: hose, ...more, on: '2026-12' })).toContain('future date');
    expect(d.codes(action, { item: hose, ...more, on: '2027' })).toContain('future date');
    // This month and this year have begun: what happened in them may have been.
    d.must(action, { item: hose, ...more, on: '2026-11-25' });
  });

  it.each(Object.entries(ON_A_THING))('%s is refused before the thing was made', (action, more) => {
    const { d, hose } = ready();
    for (const on of ['2021-08-31', '2021-08', '2020'])
      expect(d.codes(action, { item: hose, ...more, on })).toContain('before made');
    // Made in September 2021: a deed of that month or year can have come after.
    d.must(action, { item: hose, ...more, on: '2021-09' });
  });

  it.each(Object.entries(ON_A_THING))('%s is refused where no thing has the id', (action, more) => {
    const { d, g } = ready();
    expect(d.codes(action, { item: 'nothing-1', ...more })).toContain('not found');
    expect(d.codes(action, { item: g.bed, ...more })).toContain('not found');
  });

  it('is refused once it was disposed of', () => {
    const { d, g, hose } = ready();
    d.must('item.dispose', { item: hose, how: 'Cut up', on: '2026-05-01' });
    const deeds = { ...ON_A_THING, 'item.move': { to: g.rack } };
    for (const [action, more] of Object.entries(deeds)) {
      const [problem] = d.refused(action, { item: hose, ...more });
      expect(problem?.code, action).toBe('disposed');
      expect(problem?.todo).toContain('void the disposal');
    }
  });

  it('is refused while it is held for investigation where it would change, test or use the thing', () => {
    for (const [action, more] of Object.entries(ON_A_THING)) {
      const { d, hose } = ready();
      d.must('item.hold', { item: hose, reason: 'Burst at a working fire' });
      // What is said of it without a hand laid on it: where it is counted, that it is gone, what it will owe.
      if (['item.assign', 'item.missing', 'item.oweRetest'].includes(action))
        d.must(action, { item: hose, ...more });
      else expect(d.codes(action, { item: hose, ...more }), action).toContain('held');
    }
    const { d, g, hose } = ready();
    d.must('item.hold', { item: hose, reason: 'Burst' });
    d.must('item.move', { item: hose, to: g.rack });
    d.must('item.release', { item: hose, note: 'Investigator done' });
    expect(d.conditionOf(hose)).toBe('tagged out');
    expect(d.codes('item.release', { item: hose, note: 'Again' })).toEqual(['not held']);
  });

  it('that moves it is refused where the place is none, or the thing is no thing', () => {
    const { d, g, hose } = ready();
    expect(d.codes('item.move', { item: hose, to: hose })).toEqual(['not found']);
    expect(d.codes('item.move', { item: hose, to: g.unit })).toEqual(['not found']);
    expect(d.codes('item.move', { item: hose, to: g.rack, on: '2026-11-26' })).toEqual(['future date']);
  });

  it('that finds it is refused where it was not missing', () => {
    const { d, g, hose } = ready();
    expect(d.codes('item.found', { item: hose, place: g.rack })).toEqual(['not missing']);
    d.must('item.missing', { item: hose });
    d.must('item.found', { item: hose, place: g.rack });
    // Nobody knows what it went through: it waits for somebody entitled to return it.
    expect(d.conditionOf(hose)).toBe('tagged out');
  });
});

describe('a record', () => {
  it('of an activity the family has not is refused with those it has', () => {
    const { d, hose } = ready();
    for (const family of ['hose', 'ladder', 'cylinder', 'pack', 'equipment']) {
      const item = family === 'hose' ? hose : d.must('item.receive', { family, number: `${family}-1` });
      const [problem] = d.refused('record.add', { item, activity: 'waxing', outcome: 'pass' });
      expect(problem).toMatchObject({ code: 'unknown activity', field: 'activity' });
      expect(problem?.todo).toBe(
        `Use one of: ${familyOf(family)
          ?.activities.map(a => a.id)
          .join(', ')}.`,
      );
    }
  });

  it('of a requalification without a RIN is refused: 49 CFR 180.205(b)', () => {
    const { d, g } = ready();
    const item = d.must('item.receive', {
      family: 'cylinder',
      number: 'C-1',
      attributes: { made: '2020-01' },
    });
    const record = { item, activity: 'requalification', outcome: 'pass' };
    const [problem] = d.refused('record.add', record);
    expect(problem).toMatchObject({ code: 'RIN owed', field: 'agency' });
    expect(problem?.message).toContain('49 CFR 180.205(b)');
    const shop = d.must('agency.add', { name: 'A shop without a RIN' });
    expect(d.codes('record.add', { ...record, agency: shop })).toEqual(['RIN owed']);
    expect(d.codes('record.add', { ...record, agency: 'nobody-1' })).toContain('not found');
    d.must('record.add', { ...record, agency: g.agency });
    d.must('record.add', { ...record, rin: 'B456' });
  });

  it('with a reading the activity has not, or of another kind, is refused by name', () => {
    const { d, hose } = ready();
    const record = { item: hose, activity: 'service test', outcome: 'pass' };
    const [unknown] = d.refused('record.add', { ...record, readings: { volts: 12 } });
    expect(unknown).toMatchObject({ code: 'bad reading', field: 'readings.volts' });
    expect(unknown?.todo).toContain('testPressure_psi');
    const [wrong] = d.refused('record.add', { ...record, readings: { testPressure_psi: 'high' } });
    expect(wrong).toMatchObject({ code: 'bad reading', field: 'readings.testPressure_psi' });
    expect(d.codes('record.add', { ...record, outcome: 'good' })).toEqual(['bad value']);
  });
});

describe('a return to service', () => {
  it('is refused while a retest is owed, and says which, since when and why', () => {
    const { d, hose } = ready();
    d.must('record.add', { item: hose, activity: 'service test', outcome: 'fail', on: '2026-06-14' });
    const [problem] = d.refused('item.return', { item: hose });
    expect(problem).toMatchObject({ code: 'retest owed', field: 'item' });
    expect(problem?.message).toBe('31-107 owes a service test since 14 Jun 2026: failed.');
    d.must('record.add', {
      item: hose,
      activity: 'service test',
      outcome: 'not completed',
      on: '2026-06-15',
    });
    expect(d.codes('item.return', { item: hose })).toEqual(['retest owed']);
    d.must('record.add', { item: hose, activity: 'service test', outcome: 'pass', on: '2026-06-16' });
    d.must('item.return', { item: hose });
  });

  it('is refused by every activity that a repair owes, until each has passed', () => {
    const { d } = ready();
    const ladder = d.must('item.receive', { family: 'ladder', number: 'L-1', attributes: { type: 'roof' } });
    const kind = familyOf('ladder')?.repairs.find(r => r.owes.length > 0);
    if (!kind) throw new Error('No ladder repair owes anything.');
    d.must('item.repaired', { item: ladder, kind: kind.kind, on: '2026-06-14' });
    expect(d.codes('item.return', { item: ladder })).toEqual(kind.owes.map(() => 'retest owed'));
    for (const activity of kind.owes)
      d.must('record.add', { item: ladder, activity, outcome: 'pass', on: '2026-06-15' });
    d.must('item.return', { item: ladder });
  });

  it('is refused of a retired thing, whose retirement is voided if it was a mistake', () => {
    const { d, hose } = ready();
    const retired = d.must('item.retire', { item: hose, reason: 'Worn' });
    expect(d.codes('item.return', { item: hose })).toEqual(['retired']);
    d.must('void', { target: retired, why: 'Another hose' });
    d.must('item.return', { item: hose });
  });
});

describe('a repair or a happening', () => {
  it('of a kind the book has not is refused with those it has', () => {
    const { d, hose } = ready();
    const [repair] = d.refused('item.repaired', { item: hose, kind: 'painted' });
    expect(repair).toMatchObject({ code: 'unknown repair', field: 'kind' });
    expect(repair?.todo).toContain('recoupled');
    const [trigger] = d.refused('item.oweRetest', { item: hose, trigger: 'rain' });
    expect(trigger).toMatchObject({ code: 'unknown happening', field: 'trigger' });
    expect(trigger?.todo).toContain('suspected damage');
  });

  it('that found no fault needs a reason', () => {
    const { d, hose } = ready();
    expect(d.codes('item.repaired', { item: hose, kind: 'no fault found' })).toEqual(['reason owed']);
    d.must('item.repaired', { item: hose, kind: 'no fault found', note: 'Couplings spin freely' });
  });

  it('keeps in the ledger what it owed by the book of its day', () => {
    const { d, hose } = ready();
    d.must('item.repaired', { item: hose, kind: 'recoupled' });
    const entry = JSON.parse(d.texts().at(-1)?.text ?? '{}') as { body: { owes: string[] } };
    expect(entry.body.owes).toEqual(['service test']);
  });
});

describe('a receipt or an amendment', () => {
  it('is refused where the number is in use, unless it says so; then both are shown as a clash', async () => {
    const { d, hose } = ready();
    const again = { family: 'hose', number: '31-107' };
    expect(d.codes('item.receive', again)).toEqual(['number in use']);
    // The number of another family's thing is another number.
    d.must('item.receive', { ...again, family: 'ladder' });
    const twin = d.must('item.receive', { ...again, evenIfNumberInUse: true });
    const page = await d.ask<{ clashes: string[] }>('item.page', { item: hose });
    expect(page.clashes).toEqual([twin]);
    expect(d.codes('item.amend', { item: aHose(d, '31-108'), number: '31-107' })).toEqual(['number in use']);
  });

  it('may take the number of a thing that is retired, disposed of, voided or renumbered', () => {
    const { d, hose } = ready();
    d.must('item.retire', { item: hose, reason: 'Worn' });
    const second = d.must('item.receive', { family: 'hose', number: '31-107' });
    d.must('item.dispose', { item: second, how: 'Cut up' });
    const third = d.must('item.receive', { family: 'hose', number: '31-107' });
    d.must('void', { target: third, why: 'Mistake' });
    const fourth = d.must('item.receive', { family: 'hose', number: '31-107' });
    d.must('item.amend', { item: fourth, number: '31-109' });
    d.must('item.receive', { family: 'hose', number: '31-107' });
  });

  it('sees the numbers given earlier in the same act', () => {
    const { d } = ready();
    const receive = (number: string) => ({ action: 'item.receive', body: { family: 'hose', number } });
    expect(d.act([receive('A'), receive('B'), receive('A')])).toMatchObject({
      ok: false,
      error: { code: 'number in use', deed: 2 },
    });
    const renumbered = d.act([
      receive('A'),
      { action: 'item.amend', body: { item: '&0', number: 'B' } },
      receive('A'),
    ]);
    expect(renumbered.ok).toBe(true);
  });

  it('is refused for a family, an attribute or a value the book has not', () => {
    const { d, hose } = ready();
    expect(d.codes('item.receive', { family: 'boat', number: '1' })).toEqual(['unknown family']);
    expect(d.codes('item.receive', { family: 'hose', number: '1', attributes: { color: 'red' } })).toEqual([
      'unknown attribute',
    ]);
    expect(d.codes('item.amend', { item: hose, attributes: { use: 'gardening' } })).toEqual(['bad value']);
    expect(d.codes('item.amend', { item: hose, attributes: { made: '2026-12' } })).toEqual(['bad value']);
    expect(d.codes('item.amend', { item: hose })).toEqual(['nothing to amend']);
    expect(d.codes('item.receive', { family: 'hose', number: '1', on: '2027' })).toEqual(['future date']);
    expect(d.codes('item.receive', { family: 'hose', number: '1', place: 'nowhere' })).toEqual(['not found']);
  });
});

describe('who and where', () => {
  it('is refused a second time under one name', () => {
    const { d, g } = ready();
    expect(d.codes('station.add', { name: 'station 31' })).toEqual(['name in use']);
    expect(d.codes('rig.add', { name: 'Engine 31' })).toEqual(['name in use']);
    expect(d.codes('unit.add', { name: 'Engine 32', rig: { name: 'ENGINE 31' } })).toEqual(['name in use']);
    expect(d.codes('place.add', { name: 'Hose Rack', kind: 'rack', under: g.station })).toEqual([
      'name in use',
    ]);
    d.must('place.add', { name: 'Hose Rack', kind: 'rack', under: g.rig });
    expect(d.codes('member.add', { number: '100', name: 'X', position: 'driver' })).toEqual([
      'number in use',
    ]);
    const twice = d.act([
      { action: 'place.add', body: { name: 'Tray', kind: 'tray', under: g.rig } },
      { action: 'place.add', body: { name: 'tray', kind: 'tray', under: g.rig } },
    ]);
    expect(twice).toMatchObject({ ok: false, error: { code: 'name in use', deed: 1 } });
  });

  it('is refused with a position, a zone, a RIN or a permit that is none', () => {
    const { d, g } = ready();
    expect(d.codes('member.add', { number: '7', name: 'X', position: 'pilot' })).toEqual(['bad value']);
    expect(d.codes('member.add', { number: '7', name: 'X' })).toEqual(['no entitlement']);
    expect(d.codes('member.entitle', { member: g.station, position: 'driver' })).toEqual(['not found']);
    expect(d.codes('agency.add', { name: 'X', rin: '12' })).toEqual(['bad value']);
    expect(d.codes('policy.choose', { policy: 'tea', choice: 'pull' })).toEqual(['unknown policy']);
    expect(d.codes('policy.choose', { policy: 'charged past due', choice: 'maybe' })).toEqual([
      'unknown choice',
    ]);
    const permit = { construction: 'carbon', months: 60, lifeMonths: 180, basis: 'paper' };
    expect(d.codes('permit.confirm', { permit: 'SP 1', ...permit })).toEqual(['bad value']);
  });
});
