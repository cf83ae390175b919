/** The rule book's screen: what it lists, what it sends, what it tries. Rules of this program, no source outside. */

import { createMemoryHistory, createRootRoute, createRouter, RouterProvider } from '@tanstack/react-router';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import type { RuleLine } from '../../db/api-rules.ts';
import { parseWhen } from '../../domain/calendar/when.ts';
import { UNKNOWN_PROFILE } from '../../domain/rulebook/force.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { POLICIES } from '../../domain/rulebook/policies.ts';
import { DeedDialog } from '../../renderer/parts/deeds/DeedDialog.tsx';
import { adoptedWords, type Entry, entriesOf, linesOf } from '../../renderer/screens/rulebook/entries.ts';
import { exampleOf } from '../../renderer/screens/rulebook/examples.ts';
import { adoptForm, policyForm } from '../../renderer/screens/rulebook/forms.ts';
import { offeredLine } from '../../renderer/screens/rulebook/offeredLine.ts';
import { inOrder } from '../../renderer/screens/rulebook/Permits.tsx';
import { readRuleSearch } from '../../renderer/screens/rulebook/search.ts';
import { concernedWords } from '../../renderer/screens/rulebook/standing.tsx';
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
    expect(titles({}).filter(t => FAMILIES.some(f => f.plural === t))).toEqual([
      'Hose',
      'Ground ladders',
      'Cylinders',
      'SCBA packs',
    ]);
    const bySource = titles({ by: 'source' });
    // The hose inspection rests on 29 CFR 1910.156 and on NFPA 1962, and stands under both.
    expect(bySource.filter(t => t === 'hose.inspection')).toHaveLength(2);
    expect(titles({ by: 'source', source: 'NFPA 1932' })).toEqual([
      'NFPA 1932',
      'ladder.service-test',
      'ladder.inspection',
    ]);
  });

  it('is narrowed by what is typed: a title, a document, a force; and by what was not read first-hand', () => {
    expect(titles({ text: 'flow' })).toEqual(['SCBA packs', 'pack.flow-test']);
    expect(titles({ text: '1910 134' })).toEqual(['SCBA packs', 'pack.inspection']);
    expect(titles({ text: 'manufacturer' })).toEqual(['Ground ladders', 'ladder.heat-label']);
    expect(titles({ unsure: true })).not.toContain('ladder.service-test');
    expect(titles({ unsure: true })).toContain('pack.flow-test');
    expect(titles({ text: 'xyzzy' })).toEqual([]);
  });

  it('reads from the address only what it understands', () =>
    expect(readRuleSearch({ part: 'try', family: 'hose', by: 'color', unsure: 'yes', rule: 7 })).toEqual({
      part: 'try',
      family: 'hose',
    }));
});

describe('making a requirement the department’s own', () => {
  const form = (id: string, says?: string) =>
    adoptForm(
      entryOf(id),
      familyOf(id.split('.')[0] ?? ''),
      says === undefined ? undefined : { says, dueSoon: 2, daysLeft: [10, 60, 61, 90, 91], isAll: true },
    );

  it('adopts it in full from a day on, with what was changed and nothing else', () => {
    const { initial, deeds } = form('hose.service-test');
    const filled = {
      ...initial,
      'requirements.0.late': 'limits',
      'requirements.0.warnDays': '90',
      from: '1/15/2027',
      reason: 'Two stations share one machine',
    };
    expect(deeds(filled, TODAY)).toEqual([
      {
        action: 'rulebook.adopt',
        body: {
          requirements: [{ ...shipped('hose.service-test'), late: 'limits', warnDays: 90 }],
          from: '2027-01-15',
          reason: 'Two stations share one machine',
        },
      },
    ]);
    expect(deeds(initial, TODAY)[0]?.body).toMatchObject({ from: TODAY });
    const typed = { ...initial, 'requirements.0.warnDays': 'soon' };
    expect(deeds(typed, TODAY)[0]?.body.requirements).toMatchObject([{ warnDays: 'soon' }]);
  });

  it('says before it is signed how many things it concerns and what the law keeps', () => {
    const said = concernedWords({
      on: TODAY,
      things: 900,
      byState: { overdue: 12, current: 1340, 'not applicable': 9 },
    });
    expect(said).toBe('It concerns 1,352 things today: 12 overdue, 1,340 current.');
    const { says, initial } = form('cylinder.requalification', said);
    const told = says?.(initial, TODAY).join(' ') ?? '';
    expect(told).toContain(said);
    // 49 CFR 180.205(c): a cylinder is not filled after it becomes due.
    expect(told).toMatch(/49 CFR 180\.205\(c\).+is law/);
    expect(form('hose.service-test', said).says?.(initial, TODAY).join(' ')).not.toContain('is law');
  });

  it('says what another warning would show today, on the limit too; and nothing where that is not known', () => {
    const { says, initial } = form('hose.service-test', 'It concerns 5 things today.');
    const told = (days: string) => says?.({ ...initial, 'requirements.0.warnDays': days }, TODAY)[0];
    expect(told('60')).toBe('It concerns 5 things today.');
    expect(told('90')).toContain(
      'From 90 days before, 4 of them would show as due soon today, in place of 2.',
    );
    expect(told('61')).toContain('3 of them');
    expect(told('soon')).toBe('It concerns 5 things today.');
    const far = { says: 'Many.', dueSoon: 2, daysLeft: [10, 60, 61], isAll: false };
    const cut = adoptForm(entryOf('hose.service-test'), familyOf('hose'), far);
    expect(cut.says?.({ ...initial, 'requirements.0.warnDays': '90' }, TODAY)[0]).toBe('Many.');
  });

  it('shows the store’s refusal of a milder effect beside the choice', async () => {
    const problem = {
      code: 'milder than the law',
      message: 'Requalification is law: 49 CFR 180.205(c).',
      todo: 'Choose blocks or what is heavier.',
      field: 'requirements.0.late',
    };
    const host = fakeHost({}, () => ({ ok: false, error: problem }));
    const onClose = vi.fn();
    draw(<DeedDialog form={form('cylinder.requalification', 'x')} today={TODAY} onClose={onClose} />);
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
