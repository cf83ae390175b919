/** The parts of Readiness that can be wrong without anybody seeing it: the order, the last look, the address, the forms. */
import { act, fireEvent, screen, within } from '@testing-library/react';
import { useRef, useState } from 'react';
import { describe, expect, it } from 'vitest';
import type { DepartmentSummary } from '../../db/api.ts';
import type { ChangeLine, DeskQuestions, NoteLine, UnitReadiness } from '../../db/api-desk.ts';
import { isStale } from '../../renderer/api/touched.ts';
import { firstLook, groupChanges, lastLook, markLooked } from '../../renderer/screens/readiness/lastLook.ts';
import { closeNoteForm, writeNoteForm } from '../../renderer/screens/readiness/noteForms.ts';
import { dueWithin, filterOf, readReadinessSearch } from '../../renderer/screens/readiness/search.ts';
import { UnitTable, type UnitTableHandle } from '../../renderer/screens/readiness/UnitTable.tsx';
import { useChanges } from '../../renderer/screens/readiness/useChanges.ts';
import { draw, fakeHost, MEMBERS, TODAY } from './browser.tsx';

const unit = (name: string, more: Partial<UnitReadiness> = {}): UnitReadiness => ({
  unit: name,
  name,
  station: 'Station 31',
  rig: { id: `${name} rig`, name, own: true },
  verdict: 'ready',
  says: 'Nothing is known against it.',
  byEffect: { blocks: 0, limits: 0, notes: 0 },
  reasons: [],
  things: 10,
  lastSeen: TODAY,
  notSeenFor: { days: 30, things: 3 },
  within: { d7: 0, d30: 2, d90: 5 },
  shortestFix: null,
  ...more,
});

const line = (n: number, more: Partial<ChangeLine> = {}): ChangeLine => ({
  entry: `e-${n}`,
  recordedAt: `2026-11-25T0${n}:00:00.000Z`,
  byName: 'A. Brandt',
  what: 'Operational check, passed',
  item: `i-${n}`,
  number: `P-${n}`,
  thing: 'SCBA pack',
  ...more,
});

const SUMMARY: DepartmentSummary = {
  id: 'd1',
  name: 'Larkspur Valley Fire District',
  zone: 'America/Denver',
  state: 'CO',
  measures: 'US',
  today: TODAY,
  entries: 1,
  things: 1,
  stations: [{ id: 's31', name: 'Station 31' }],
  units: [{ id: 'e31', name: 'Engine 31', station: 'Station 31' }],
  rigs: [],
  agencies: [],
  isDemo: false,
};

function Units({ onDue }: { onDue: (unit: string, days: number) => void }) {
  const handle = useRef<UnitTableHandle>(null);
  const [active, setActive] = useState(0);
  const [open, setOpen] = useState<string>();
  const units = [
    unit('Tender 34', { verdict: 'not ready', says: '1 thing blocks.' }),
    unit('Engine 34', { rig: { id: 'r2', name: 'Reserve R-2', own: false } }),
    unit('Brush 32', { verdict: 'not known', rig: null, lastSeen: null }),
  ];
  return (
    <UnitTable
      units={units}
      active={active}
      onActive={setActive}
      onOpen={at => setOpen(units[at]?.unit)}
      openUnit={open}
      onDue={onDue}
      handle={handle}
    />
  );
}

function Look() {
  const changes = useChanges(SUMMARY);
  return (
    <button type="button" onClick={changes.mark}>
      {changes.who} {changes.total}
    </button>
  );
}
describe('the units', () => {
  it('stand in the order they are told, with a rig that is not their own said in words', () => {
    fakeHost({});
    draw(<Units onDue={() => {}} />);
    const [, ...rows] = screen.getAllByRole('row').map(r => r.textContent);
    expect(rows[0]).toMatch(/Tender 34.*Not ready.*1 thing blocks\..*its own rig/);
    expect(rows[1]).toMatch(/Engine 34.*Ready.*Reserve R-2,not its own/);
    expect(rows[2]).toMatch(/Brush 32.*Not known.*no rig known.*never/);
  });

  it('are gone through by arrows and opened by Enter; a count leads to what falls due', () => {
    fakeHost({});
    const asked: unknown[] = [];
    draw(<Units onDue={(...args) => asked.push(args)} />);
    const grid = screen.getByRole('grid');
    expect(document.activeElement).toBe(grid);
    for (const key of ['ArrowDown', 'ArrowDown', 'ArrowDown', 'Enter']) fireEvent.keyDown(grid, { key });
    const row = screen.getByRole('row', { name: /Brush 32/ });
    expect(row.getAttribute('aria-selected')).toBe('true');
    fireEvent.click(within(row).getByLabelText('2 due in 30 days on Brush 32'));
    expect(asked).toEqual([['Brush 32', 30]]);
    expect(dueWithin('e31', 30)).toEqual({ unit: 'e31', within: 30, state: ['due soon', 'current'] });
  });
});

describe('the last look', () => {
  it('is kept for each member and each department apart, and for whoever sits here while nobody acts', () => {
    expect(lastLook('d1', 'm1')).toBeNull();
    markLooked('d1', 'm1', '2026-11-25T06:40:00.000Z', 0);
    markLooked('d1', null, '2026-11-24T06:40:00.000Z', 0);
    expect(lastLook('d1', 'm1')).toBe('2026-11-25T06:40:00.000Z');
    expect(lastLook('d1', null)).toBe('2026-11-24T06:40:00.000Z');
    expect([lastLook('d1', 'm2'), lastLook('d2', 'm1')]).toEqual([null, null]);
  });

  it('moves to the newest deed that was shown, even where its computer ran ahead of this one', () => {
    const behind = Date.parse('2026-11-25T06:00:00Z');
    expect(markLooked('d1', 'm1', '2026-11-25T06:40:00.000Z', behind)).toBe('2026-11-25T06:40:00.000Z');
    expect(markLooked('d1', 'm1', undefined, behind)).toBe('2026-11-25T06:00:00.000Z');
  });

  it('shows the last day at first, also over the end of a month; what cannot be read is no look', () => {
    expect(firstLook('2026-12-01')).toBe('2026-11-30T00:00:00.000Z');
    localStorage.setItem('baybook last look d1 m1', 'yesterday');
    expect(lastLook('d1', 'm1')).toBeNull();
  });

  it('asks since the last look of whoever acts, and since the mark once it is made', async () => {
    sessionStorage.setItem('baybook acting as', MEMBERS[0]?.id ?? '');
    markLooked('d1', MEMBERS[0]?.id ?? '', '2026-11-24T07:00:00.000Z', 0);
    const host = fakeHost({
      'changes.since': ({ since }: DeskQuestions['changes.since']['takes']) => {
        const lines = [line(7), line(6)].filter(l => l.recordedAt > since);
        return { total: lines.length, lines };
      },
    });
    draw(<Look />);
    const button = await screen.findByText('Dana Ruiz 2');
    await act(async () => fireEvent.click(button));
    await screen.findByText('Dana Ruiz 0');
    const asked = host.asked.filter(a => a.question === 'changes.since').map(a => a.args);
    expect(asked).toEqual([
      { since: '2026-11-24T07:00:00.000Z', limit: 1000 },
      { since: '2026-11-25T07:00:00.000Z', limit: 1000 },
    ]);
  });
});

describe('what was done', () => {
  const dayOf = (iso: string) => iso.slice(0, 10);

  it('is one line where one member did the same to several things on one day', () => {
    const groups = groupChanges([line(5), line(4), line(3, { byName: 'V. Petrov' })], dayOf);
    expect(groups.map(g => g.lines.map(l => l.number))).toEqual([['P-5', 'P-4'], ['P-3']]);
  });

  it('keeps a failure, another day and what is no thing apart', () => {
    const failed = line(4, { what: 'Operational check, failed' });
    const before = line(3, { recordedAt: '2026-11-24T03:00:00.000Z' });
    const note = line(2, { item: null, number: null, what: 'Pass-on note closed' });
    expect(groupChanges([line(5), failed, line(6), before, note, note], dayOf)).toHaveLength(6);
  });
});

describe('the forms', () => {
  it('write a note for a unit, a station or everybody', () => {
    const form = writeNoteForm(SUMMARY, 'e31');
    const said = { text: ' Hard to start ', on: '' };
    const bodyFor = (to: string) => form.deeds({ ...said, for: to }, TODAY)[0]?.body;
    expect(bodyFor(form.initial.for ?? '')).toEqual({ text: 'Hard to start', unit: 'e31', on: TODAY });
    expect(bodyFor('station s31')).toEqual({ text: 'Hard to start', station: 's31', on: TODAY });
    expect(bodyFor('all')).toEqual({ text: 'Hard to start', on: TODAY });
  });

  it('close a note with or without a reason', () => {
    const note: NoteLine = {
      id: 'n1',
      text: 'Hard to start',
      unit: null,
      station: null,
      on: TODAY,
      byName: null,
      recordedAt: '',
      closed: null,
    };
    const form = closeNoteForm(note);
    expect(form.deeds({ why: '', on: '' }, TODAY)[0]?.body).toEqual({ note: 'n1', on: TODAY });
    expect(form.deeds({ why: 'Fuel', on: '' }, TODAY)[0]?.body).toEqual({
      note: 'n1',
      why: 'Fuel',
      on: TODAY,
    });
  });
});

it('is asked again when a note, a rig, a thing or a rule was touched, and the deeds after every deed', () => {
  for (const touched of ['notes', 'places', 'items', 'due', 'rulebook'])
    expect(isStale('readiness.now', {}, [touched]), touched).toBe(true);
  expect(isStale('notes.list', {}, ['due'])).toBe(false);
  expect(isStale('changes.since', { since: '2026-11-25T00:00:00Z' }, ['members'])).toBe(true);
});

describe('the address', () => {
  it('keeps what is open and the filter, and leaves out what it does not know', () => {
    const raw = {
      unit: 'e31',
      item: 'i1',
      duty: 'hose.service-test',
      verdict: 'splendid',
      station: 'Station 31',
    };
    expect(readReadinessSearch(raw)).toEqual({
      unit: 'e31',
      item: 'i1',
      duty: 'hose.service-test',
      station: 'Station 31',
    });
    expect(filterOf(readReadinessSearch({ ...raw, verdict: 'not ready' }))).toEqual({
      station: 'Station 31',
      verdict: 'not ready',
    });
  });
});
