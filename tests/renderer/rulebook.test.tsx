/** The rule book's screen: what it lists, what it sends, what it tries. Rules of this program, no source outside. */

import { createMemoryHistory, createRootRoute, createRouter, RouterProvider } from '@tanstack/react-router';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import type { RuleLine, RulePreview } from '../../db/api-rules.ts';
import { parseWhen } from '../../domain/calendar/when.ts';
import { UNKNOWN_PROFILE } from '../../domain/rulebook/force.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { POLICIES } from '../../domain/rulebook/policies.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import { DeedDialog } from '../../renderer/parts/deeds/DeedDialog.tsx';
import {
  adoptedWords,
  type Entry,
  entriesOf,
  forceHere,
  linesOf,
} from '../../renderer/screens/rulebook/entries.ts';
import { exampleOf } from '../../renderer/screens/rulebook/examples.ts';
import { changeForm } from '../../renderer/screens/rulebook/forms/changeForm.ts';
import { localForm } from '../../renderer/screens/rulebook/forms/localForm.ts';
import { policyForm } from '../../renderer/screens/rulebook/forms/policyForm.ts';
import { confirmForm } from '../../renderer/screens/rulebook/forms/takeForms.ts';
import { offeredLine } from '../../renderer/screens/rulebook/offeredLine.ts';
import { inOrder } from '../../renderer/screens/rulebook/Permits.tsx';
import { readRuleSearch } from '../../renderer/screens/rulebook/search.ts';
import { TryIt } from '../../renderer/screens/rulebook/TryIt.tsx';
import { draw, fakeHost, TODAY } from './browser.tsx';

const shipped = (id: string) => {
  const known = SHIPPED_REQUIREMENTS.find(r => r.id === id);
  if (!known) throw new Error(`No requirement ${id} is shipped.`);
  return known;
};
const BOOK: RuleLine[] = SHIPPED_REQUIREMENTS.map(r => ({ ...offeredLine(r), adopted: true }));
const ENTRIES = entriesOf(BOOK, TODAY);
const entryOf = (id: string): Entry => {
  const entry = ENTRIES.find(e => e.requirement.id === id);
  if (!entry) throw new Error(`No entry ${id}.`);
  return entry;
};
/** A preview of what moves nothing. */
const NO_CHANGE: RulePreview = {
  problems: [],
  verdicts: [],
  things: 0,
  concerned: { before: 0, after: 0 },
  moved: { earlier: 0, later: 0, gained: 0, lost: 0 },
  becomesLate: 0,
  noLongerLate: 0,
  notJudged: 0,
  months: [],
  falls: [],
  on: '2026-11-25',
  changes: [],
};
const titles = (search: Parameters<typeof linesOf>[2]) =>
  linesOf(ENTRIES, FAMILIES, search).map(l => (l.heading === null ? l.entry.requirement.id : l.heading));

describe('the list', () => {
  const hose = shipped('hose.service-test');
  const versions: RuleLine[] = [
    { ...offeredLine(hose), to: '2026-06-01', adopted: true },
    { ...offeredLine({ ...hose, warnDays: 30 }), from: '2026-06-01', to: '2027-01-01', adopted: true },
    { ...offeredLine({ ...hose, warnDays: 90 }), from: '2027-01-01', adopted: true },
  ];
  const warnOn = (day: string) => entriesOf(versions, day).map(e => e.requirement.warnDays);

  it('shows one line a requirement, the version in force that day', () => {
    expect(['2026-05-31', '2026-06-01', '2026-12-31', '2027-01-01'].map(warnOn)).toEqual([
      [60],
      [30],
      [30],
      [90],
    ]);
    expect(entriesOf(versions, TODAY)[0]?.versions).toHaveLength(3);
  });

  it('says from when, that it will change, and what is only offered', () => {
    const [entry] = entriesOf(versions, TODAY);
    expect(entry && adoptedWords(entry, TODAY)).toBe('From 1 Jun 2026; changes 1 Jan 2027');
    expect(adoptedWords(entryOf('hose.service-test'), TODAY)).toBe('From the opening');
    const [offered] = entriesOf([offeredLine(hose)], TODAY);
    expect(offered && adoptedWords(offered, TODAY)).toBe('Offered only');
  });

  it('stands under families, or under every document it rests on', () => {
    const byFamily = titles({});
    for (const family of FAMILIES.filter(f => f.requirements.length > 0))
      expect(byFamily).toContain(family.plural);
    const bySource = titles({ by: 'source' });
    // The hose inspection rests on 29 CFR 1910.156 and on NFPA 1962, and stands under both.
    expect(bySource.filter(t => t === 'hose.inspection')).toHaveLength(2);
    expect(titles({ by: 'source', source: 'NFPA 1932' })).toContain('ladder.service-test');
    expect(titles({ by: 'source', source: 'NFPA 1932' })).not.toContain('hose.service-test');
  });

  it('is narrowed by what is typed: a title, a document, a force; and by what was not read first-hand', () => {
    expect(titles({ text: 'flow test', family: 'pack' })).toEqual(['SCBA packs', 'pack.flow-test']);
    expect(titles({ text: '1910 134' })).toContain('pack.inspection');
    expect(titles({ text: 'manufacturer' })).toContain('ladder.heat-label');
    expect(titles({ unsure: true })).not.toContain('ladder.service-test');
    expect(titles({ unsure: true })).toContain('pack.flow-test');
    expect(titles({ text: 'xyzzy' })).toEqual([]);
  });

  it('is narrowed by what asks something of the department', () => {
    expect(titles({ only: 'to confirm' })).toContain('harness.end-of-life');
    expect(titles({ only: 'to confirm' })).not.toContain('hose.service-test');
    expect(titles({ text: 'to confirm' })).toContain('harness.end-of-life');
  });

  it('says the force here: what may be law is asked about, what is law everywhere is not', () => {
    expect(forceHere(entryOf('cylinder.requalification'))).toBe('law');
    expect(forceHere(entryOf('pack.inspection'))).toBe('law?');
  });

  it('reads from the address only what it understands', () =>
    expect(readRuleSearch({ part: 'try', family: 'hose', by: 'color', unsure: 'yes', rule: 7 })).toEqual({
      part: 'try',
      family: 'hose',
    }));
});

describe('making a requirement the department’s own', () => {
  const form = (id: string) => changeForm(entryOf(id), familyOf(id.split('.')[0] ?? ''));
  const adopted = (filled: Record<string, string>, id = 'hose.service-test') => {
    const { initial, deeds } = form(id);
    return deeds({ ...initial, ...filled }, TODAY)[0]?.body as { requirements: Requirement[] };
  };

  it('adopts it in full from a day on, with what was changed and nothing else', () => {
    expect(
      adopted({
        'requirements.0.late': 'limits',
        'requirements.0.warnDays': '90',
        from: '1/15/2027',
        reason: 'Two stations share one machine',
        authority: 'Fire chief',
      }),
    ).toEqual({
      requirements: [{ ...shipped('hose.service-test'), late: 'limits', warnDays: 90 }],
      from: '2027-01-15',
      reason: 'Two stations share one machine',
      authority: 'Fire chief',
    });
    expect(adopted({})).toMatchObject({ from: TODAY, requirements: [shipped('hose.service-test')] });
    expect(adopted({ 'requirements.0.warnDays': 'soon' }).requirements).toMatchObject([{ warnDays: 'soon' }]);
  });

  it('takes another interval, a fixed month that does not drift, days of grace, and storage that waits', () => {
    const [often] = adopted({ 'every.0': '6' }).requirements;
    expect(often?.clock).toMatchObject({ kind: 'since last', every: { months: 6 } });
    const [season] = adopted({ counts: 'month', month: '5', early: '3', atMost: '14' }).requirements;
    expect(season?.clock).toEqual({
      kind: 'fixed month',
      month: 5,
      every_months: 12,
      early_months: 3,
      atMost: { months: 14 },
      first: { counts: 'later of made and in service', plus: { months: 12 } },
    });
    expect(adopted({ 'requirements.0.graceDays': '14' }).requirements[0]?.graceDays).toBe(14);
    expect(adopted({ inStorage: 'yes' }).requirements[0]?.inStorage).toBe('waits');
  });

  it('changes each part of whichever comes first', () => {
    const [service] = adopted(
      { 'every.0': '12', 'every.1': '4000' },
      'apparatus.preventive-service',
    ).requirements;
    expect(service?.clock).toMatchObject({
      kind: 'first of',
      clocks: [
        { every: { months: 12 } },
        { meter: 'miles', every: 4000 },
        { meter: 'engine hours', every: 250 },
      ],
    });
  });

  it('shows what it would do before it is signed, and what the law keeps', () => {
    const { previews, initial, says } = form('cylinder.requalification');
    expect(previews?.({ ...initial, 'requirements.0.late': 'notes' }, TODAY)).toMatchObject({
      adopt: [{ id: 'cylinder.requalification', late: 'notes' }],
      from: TODAY,
    });
    // 49 CFR: it binds everywhere in the United States.
    expect(says?.(initial, TODAY).join(' ')).toMatch(/It is law, .*49 CFR/);
    const hose = form('nozzle.service-test');
    expect(hose.says?.(hose.initial, TODAY).join(' ')).not.toContain('It is law');
  });

  it('confirms from a document in hand what the book has from memory alone', () => {
    const { deeds, initial } = confirmForm([entryOf('harness.end-of-life')], r => familyOf(r.family));
    const [deed] = deeds({ ...initial, confirmed: 'NFPA 1858 in the office' }, TODAY);
    expect(deed?.body.requirements).toMatchObject([
      { id: 'harness.end-of-life', confirmed: 'NFPA 1858 in the office' },
    ]);
  });

  it('makes one of its own beside the book’s, for a make and model', () => {
    const makes = [{ family: 'imager', maker: 'Maker B', model: 'Glow 2', things: 9, requirements: [] }];
    const { deeds, initial } = localForm(FAMILIES, ENTRIES, makes, { family: 'imager' });
    const filled = {
      ...initial,
      title: 'Service by the maker',
      activity: 'service',
      every: '6',
      make: '0',
      reason: 'Manual',
    };
    expect(deeds(filled, TODAY)[0]?.body.requirements).toMatchObject([
      {
        id: 'local.imager-service-by-the-maker',
        besides: 'imager.service',
        force: 'manufacturer',
        appliesTo: [
          { attribute: 'maker', matches: ['Maker B'] },
          { attribute: 'model', matches: ['Glow 2'] },
        ],
        clock: { kind: 'since last', every: { months: 6 } },
      },
    ]);
  });

  it('shows the store’s refusal of a milder effect beside the choice', async () => {
    const problem = {
      code: 'milder than the law',
      message: 'Requalification is law: 49 CFR 180.205(c).',
      todo: 'Choose blocks or what is heavier.',
      field: 'requirements.0.late',
    };
    const host = fakeHost({ 'rulebook.preview': () => NO_CHANGE }, () => ({ ok: false, error: problem }));
    const onClose = vi.fn();
    draw(<DeedDialog form={form('cylinder.requalification')} today={TODAY} onClose={onClose} />);
    fireEvent.click(screen.getByLabelText('Notes'));
    fireEvent.change(screen.getByLabelText('Reason'), { target: { value: 'Too strict' } });
    fireEvent.change(screen.getByLabelText('Signed by', { selector: 'input' }), {
      target: { value: 'Dana' },
    });
    fireEvent.click(await screen.findByRole('option', { name: /Dana/ }));
    fireEvent.click(screen.getByRole('button', { name: /Change it/ }));
    const group = screen.getByRole('group', { name: 'Being late' });
    await waitFor(() => expect(within(group).getByRole('alert').textContent).toContain('49 CFR 180.205(c)'));
    expect(host.acts).toHaveLength(1);
    expect(onClose).not.toHaveBeenCalled();
  });

  it('chooses a setting with the law in sight', () => {
    const [policy] = POLICIES.map(p => ({ ...p, choice: p.offer, adopted: false }));
    if (!policy) throw new Error('No policy is shipped.');
    const { deeds, says } = policyForm(policy);
    expect(says?.({}, TODAY)[0]).toContain(policy.law);
    expect(deeds({ choice: 'not in due month', from: '', reason: 'AHJ' }, TODAY)).toEqual([
      {
        action: 'policy.choose',
        body: { policy: policy.id, choice: 'not in due month', from: TODAY, reason: 'AHJ' },
      },
    ]);
  });

  it('puts permits that are on cylinders and not confirmed first', () => {
    const permit = { construction: 'carbon', months: 60, lifeMonths: 180 } as const;
    const line = (name: string, cylinders: number, isConfirmed: boolean) => ({
      permit: name,
      cylinders,
      offer: null,
      confirmed: isConfirmed ? { permit: name, basis: 'the permit in hand', ...permit } : null,
    });
    const lines = [
      line('DOT-E 1000', 0, false),
      line('DOT-E 2000', 4, true),
      line('DOT-SP 3000', 2, false),
      line('DOT-E 4000', 0, true),
    ];
    expect(inOrder(lines).map(p => p.permit)).toEqual([
      'DOT-SP 3000',
      'DOT-E 2000',
      'DOT-E 1000',
      'DOT-E 4000',
    ]);
  });
});

describe('trying it', () => {
  it.each(FAMILIES.map(f => [f.title, f] as const))(
    'has an example of a %s that could be one',
    (_title, family) => {
      const { attributes, history } = exampleOf(family.id, TODAY);
      for (const [key, value] of Object.entries(attributes)) {
        const attribute = family.attributes.find(a => a.key === key);
        expect(attribute?.key).toBe(key);
        if (attribute?.type === 'when') expect(parseWhen(value)).not.toBeNull();
        if (attribute?.choices) expect(attribute.choices.map(c => c.value)).toContain(value);
      }
      for (const { activity, on } of history) {
        expect(family.activities.map(a => a.id)).toContain(activity);
        expect(on.slice(0, 7) <= TODAY.slice(0, 7)).toBe(true);
        expect(parseWhen(on)).not.toBeNull();
      }
      expect(history.length > 0).toBe(family.requirements.length > 0);
    },
  );

  it('asks anew with every change, shows why, and writes nothing', async () => {
    const onChange = vi.fn();
    const host = fakeHost({
      'rulebook.trial': ({ history }) => ({
        rows: [
          {
            requirement: 'hose.service-test',
            title: 'Service test',
            dueOn: '2027-02-01',
            state: 'current',
            why: `Counted ${history.length}.`,
          },
        ],
        lifeEndsOn: null,
      }),
    });
    drawRouted(
      <TryIt
        search={{ part: 'try', family: 'hose' }}
        book={{ rules: BOOK, permits: [], policies: [], profile: UNKNOWN_PROFILE }}
        entries={ENTRIES}
        families={FAMILIES}
        today={TODAY}
        onChange={onChange}
      />,
    );
    await screen.findByText('Counted 2.');
    fireEvent.keyDown(window, { key: 'a' });
    await screen.findByText('Counted 3.');
    fireEvent.change(screen.getByLabelText('Line 3: outcome'), { target: { value: 'fail' } });
    fireEvent.change(screen.getByLabelText('Made'), { target: { value: '3/2024' } });
    await waitFor(() =>
      expect(host.asked.findLast(a => a.question === 'rulebook.trial')?.args).toMatchObject({
        family: 'hose',
        attributes: { use: 'attack', made: '2024-03' },
        history: [{}, {}, { activity: 'service test', on: TODAY, outcome: 'fail' }],
        on: TODAY,
      }),
    );
    fireEvent.keyDown(window, { key: 'x' });
    await screen.findByText('Counted 2.');
    fireEvent.keyDown(screen.getByText('Service test', { selector: 'td *' }).closest('tr') ?? window, {
      key: 'Enter',
    });
    expect(onChange).toHaveBeenCalledWith({ rule: 'hose.service-test' });
    expect(host.acts).toEqual([]);
  });
});

/** Draws a part that holds links. */
function drawRouted(part: React.ReactNode) {
  const routeTree = createRootRoute({ component: () => part });
  const router = createRouter({ routeTree, history: createMemoryHistory() });
  return draw(<RouterProvider router={router as never} />);
}
