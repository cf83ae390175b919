import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import { FAMILIES, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { DeedDialog } from '../../renderer/parts/deeds/DeedDialog.tsx';
import type { ThingRef, Vocabulary } from '../../renderer/parts/deeds/deedForm.ts';
import { deedsIn, THING_DEEDS } from '../../renderer/parts/deeds/deeds.ts';
import { recordForm } from '../../renderer/parts/deeds/recordForm.ts';
import { offeredLine } from '../../renderer/screens/rulebook/offeredLine.ts';
import { draw, fakeHost, TODAY } from './browser.tsx';

const HOSE: ThingRef = { item: 'k3f9a-2', number: '31-107', family: 'hose', condition: 'serviceable' };
const CYLINDER: ThingRef = { item: 'k3f9a-3', number: 'C-114', family: 'cylinder', condition: 'serviceable' };
const VOCABULARY: Vocabulary = {
  families: FAMILIES,
  assignments: [],
  members: [],
  permits: [],
  rules: SHIPPED_REQUIREMENTS.map(r => ({ ...offeredLine(r), adopted: true })),
  summary: {
    id: 'd1',
    name: '',
    zone: '',
    state: null,
    measures: 'US',
    today: TODAY,
    entries: 0,
    things: 0,
    stations: [],
    units: [],
    rigs: [],
    agencies: [{ id: 'a1', name: 'Valley Cylinder Test', rin: 'B456' }],
    isDemo: false,
  },
};

function drawRecord(thing: ThingRef, activity?: string) {
  const onClose = vi.fn();
  draw(<DeedDialog form={recordForm(thing, VOCABULARY, activity)} today={TODAY} onClose={onClose} />);
  return onClose;
}
const field = (label: string) => screen.getByLabelText(label, { selector: 'input' });
const enter = (label: string, value: string) => fireEvent.change(field(label), { target: { value } });
const submit = () => fireEvent.click(screen.getByRole('button', { name: /^Record/ }));
async function sign(name: string) {
  enter('Signed by', name);
  fireEvent.click(await screen.findByRole('option', { name: new RegExp(name) }));
}

describe('recording a test', () => {
  it('is today and passed unless something else is said', async () => {
    const host = fakeHost({});
    const onClose = drawRecord(HOSE, 'service test');
    await sign('Dana');
    submit();
    await waitFor(() => expect(onClose).toHaveBeenCalled());
    expect(host.acts).toEqual([
      {
        by: 'm1',
        deeds: [
          {
            action: 'record.add',
            body: { item: 'k3f9a-2', activity: 'service test', on: TODAY, outcome: 'pass' },
          },
        ],
      },
    ]);
  });

  it('sends whole readings as numbers, and what is no number as it was typed', async () => {
    const host = fakeHost({});
    drawRecord(HOSE, 'service test');
    enter('Test pressure, psi', '1,300');
    enter('Held, s', 'five minutes');
    await sign('Dana');
    submit();
    await waitFor(() => expect(host.acts).toHaveLength(1));
    expect(host.acts[0]?.deeds[0]?.body.readings).toEqual({ testPressure_psi: 1300, held_s: 'five minutes' });
  });

  it('shows what the store refuses beside the field it concerns, and stays open', async () => {
    fakeHost({}, () => ({
      ok: false,
      error: {
        code: 'bad date',
        message: 'Test date 30 Feb 2026 does not exist.',
        todo: 'Enter the day the hold was finished.',
        field: 'on',
      },
      errors: [
        {
          code: 'bad date',
          message: 'Test date 30 Feb 2026 does not exist.',
          todo: 'Enter the day the hold was finished.',
          field: 'on',
        },
        {
          code: 'bad reading',
          message: 'Held is five minutes, not a whole number.',
          todo: 'Enter it in whole s.',
          field: 'readings.held_s',
        },
        {
          code: 'frozen',
          message: '31-107 is held for investigation.',
          todo: 'Release it first.',
          field: 'item',
        },
      ],
    }));
    const onClose = drawRecord(HOSE, 'service test');
    enter('Date it was done', '30 Feb 2026');
    await sign('Dana');
    submit();
    await screen.findByText('Test date 30 Feb 2026 does not exist.');
    const date = field('Date it was done');
    expect(date.getAttribute('aria-invalid')).toBe('true');
    expect(describedBy(date)).toContain('Enter the day the hold was finished.');
    expect(describedBy(field('Held, s'))).toContain('Enter it in whole s.');
    // What concerns no field of the form stands over it.
    expect(screen.getAllByRole('alert').some(a => a.textContent?.includes('Release it first.'))).toBe(true);
    expect(onClose).not.toHaveBeenCalled();
  });

  it('asks for a PIN where the member has one, and for a name before anything is sent', async () => {
    const host = fakeHost({});
    drawRecord(HOSE, 'service test');
    submit();
    await screen.findByText('Nobody has signed.');
    expect(host.acts).toHaveLength(0);
    await sign('Maya');
    enter('PIN', '1234');
    submit();
    await waitFor(() => expect(host.acts[0]).toMatchObject({ by: 'm2', pin: '1234' }));
  });

  it('tags out what failed, in the same act', async () => {
    const host = fakeHost({});
    drawRecord(HOSE, 'service test');
    fireEvent.click(screen.getByLabelText('Fail'));
    await sign('Dana');
    submit();
    await waitFor(() => expect(host.acts).toHaveLength(1));
    expect(host.acts[0]?.deeds.map(d => d.action)).toEqual(['record.add', 'item.tagOut']);
    expect(host.acts[0]?.deeds[1]?.body).toMatchObject({ reason: 'Failed service test', on: TODAY });
  });

  it('asks who did what only an outside agency may do', async () => {
    const host = fakeHost({});
    drawRecord(CYLINDER, 'requalification');
    await sign('Dana');
    submit();
    await screen.findByText('Agency that did it is empty.');
    expect(host.acts).toHaveLength(0);
  });
});

describe('before you start', () => {
  it('stands over a test that can hurt someone, and names the manufacturer, the standard and the AHJ', () => {
    fakeHost({});
    drawRecord(HOSE, 'service test');
    const box = within(screen.getByRole('region', { name: 'Before you start' }));
    expect(box.getByText(/Bleed all air before raising pressure/)).toBeTruthy();
    expect(box.getByText(/Follow the manufacturer, the current standard and your AHJ/)).toBeTruthy();
  });

  it('is not there where the work has no cautions', () => {
    fakeHost({});
    drawRecord(HOSE, 'inspection');
    expect(screen.queryByRole('region', { name: 'Before you start' })).toBeNull();
  });
});

describe('what is offered on a thing', () => {
  it('freezes what is held for investigation: no record, no repair, no move', () => {
    const ids = deedsIn({ condition: 'held for investigation', family: 'hose' }).map(d => d.id);
    expect(ids).toContain('release');
    expect(ids.filter(id => ['record', 'repaired', 'move', 'send to repair', 'return'].includes(id))).toEqual(
      [],
    );
  });

  it('gives every deed a key of its own', () => {
    const keys = THING_DEEDS.map(d => d.key);
    expect(new Set(keys).size).toBe(keys.length);
  });
});

function describedBy(element: Element): string {
  const ids = element.getAttribute('aria-describedby')?.split(' ') ?? [];
  return ids.map(id => document.getElementById(id)?.textContent ?? '').join(' ');
}
