/** What the forms of the rule book make of what is filled in. Rules of this program, no source outside. */
import { describe, expect, it } from 'vitest';
import type { RuleLine } from '../../db/api-rules.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import type { Clock, Requirement } from '../../domain/rulebook/types.ts';
import { type Entry, entriesOf } from '../../renderer/screens/rulebook/entries.ts';
import { changeForm } from '../../renderer/screens/rulebook/forms/changeForm.ts';
import { clockInitial, clockOf } from '../../renderer/screens/rulebook/forms/clockFields.ts';
import { localForm } from '../../renderer/screens/rulebook/forms/localForm.ts';
import { confirmForm } from '../../renderer/screens/rulebook/forms/takeForms.ts';
import { offeredLine } from '../../renderer/screens/rulebook/offeredLine.ts';

const TODAY = '2026-11-25';
const bookOf = (...more: Requirement[]): Entry[] =>
  entriesOf(
    [...SHIPPED_REQUIREMENTS, ...more].map((r): RuleLine => ({ ...offeredLine(r), adopted: true })),
    TODAY,
  );
const entryOf = (id: string, entries = bookOf()): Entry => {
  const entry = entries.find(e => e.requirement.id === id);
  if (!entry) throw new Error(`No entry ${id}.`);
  return entry;
};
const sent = (body: unknown) => (body as { requirements: Requirement[] } | undefined)?.requirements[0];

describe('the fields of a clock', () => {
  const month: Clock = {
    kind: 'fixed month',
    month: 5,
    every_months: 12,
    early_months: 3,
    first: { counts: 'made', plus: { months: 12 } },
  };
  const clocks: Clock[] = [
    ...SHIPPED_REQUIREMENTS.map(r => r.clock),
    month,
    { ...month, atMost: { months: 14 } },
    { kind: 'first of', clocks: [month, { kind: 'meter', meter: 'uses', every: 100 }] },
    { kind: 'since last', every: { days: 7 }, first: { counts: 'in service', plus: { days: 7 } } },
  ];

  it('give back every clock that nobody touched', () => {
    for (const clock of clocks) expect(clockOf(clock, clockInitial(clock))).toEqual(clock);
  });
});

describe('a clock that is not filled in whole', () => {
  const form = () => changeForm(entryOf('hose.service-test'), familyOf('hose'));
  const tried = (filled: Record<string, string>) => {
    const { initial, check, previews } = form();
    const all = { ...initial, ...filled };
    return { wrong: check?.(all).map(p => p.field), previewed: previews?.(all, TODAY) !== null };
  };

  it('is told beside its field, and nothing is previewed that nobody meant', () => {
    expect(tried({})).toEqual({ wrong: [], previewed: true });
    for (const every of ['', '0', 'twelve', '-3', '1.5'])
      expect([every, tried({ 'every.0': every })]).toEqual([every, { wrong: ['every.0'], previewed: false }]);
    expect(tried({ counts: 'month', early: '3' })).toEqual({ wrong: ['month'], previewed: false });
    expect(tried({ counts: 'month', month: '5', early: '0', atMost: '' })).toEqual({
      wrong: [],
      previewed: true,
    });
  });
});

describe('confirming what rests on memory', () => {
  it('keeps the reason and the authority of the department’s own version, and asks for them', () => {
    const known = entryOf('harness.end-of-life').requirement;
    const own: Requirement = {
      ...known,
      own: { change: 'stricter', differs: ['clock'], reason: 'Two were found worn', authority: 'Order 9' },
    } as Requirement;
    const form = confirmForm([{ ...entryOf(known.id), requirement: own }], r => familyOf(r.family));
    const keys = form.rows(form.initial).flatMap(row => row.map(f => f.key));
    expect(keys).toContain('authority');
    const [deed] = form.deeds({ ...form.initial, confirmed: 'NFPA 1858, chief’s office' }, TODAY);
    expect(deed?.body).toMatchObject({ reason: 'Two were found worn', authority: 'Order 9' });
    expect(sent(deed?.body)?.confirmed).toBe('NFPA 1858, chief’s office');
  });
});

describe('a requirement of the department’s own', () => {
  const filled = { family: 'turnout', title: 'Advanced inspection', activity: 'advanced inspection' };
  const make = { family: 'turnout', maker: 'Maker D', model: 'Shell 3', things: 4, requirements: [] };
  const made = (entries: Entry[], more: Record<string, string> = {}) => {
    const form = localForm(FAMILIES, entries, [make], {});
    return sent(form.deeds({ ...form.initial, ...filled, ...more }, TODAY)[0]?.body);
  };

  it('never takes the place of another, whatever its title', () => {
    const first = made(bookOf());
    const second = made(bookOf(first as Requirement));
    expect([first?.id, second?.id]).toEqual([
      'local.turnout-advanced-inspection',
      'local.turnout-advanced-inspection-2',
    ]);
  });

  it('of a maker is asked of what the rule beside it is asked of, and waits in storage where that waits', () => {
    const beside = entryOf('turnout.advanced-inspection').requirement;
    const local = made(bookOf(), { make: '0' });
    expect(local).toMatchObject({ besides: beside.id, inStorage: 'waits', force: 'manufacturer' });
    expect(local?.appliesTo).toEqual([
      ...beside.appliesTo,
      { attribute: 'maker', matches: ['Maker D'] },
      { attribute: 'model', matches: ['Shell 3'] },
    ]);
  });
});
