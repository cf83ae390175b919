/** A swap on the screen: the list by keys, what speaks against a spare, and one act that holds both moves. */
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import type { SpareLine, Spares } from '../../db/api-desk.ts';
import { swapForm } from '../../renderer/parts/deeds/swapForm.ts';
import { Swap } from '../../renderer/screens/rigs/Swap.tsx';
import { draw, fakeHost, TODAY } from './browser.tsx';

const line = (number: string, more: Partial<SpareLine> = {}): SpareLine => ({
  item: `id-${number}`,
  number,
  what: '1¾ in attack hose, 50 ft',
  condition: 'serviceable',
  assignment: 'ready spare',
  state: 'current',
  place: 'Station 31, hose rack',
  placeId: 'rack',
  rig: null,
  against: [],
  ...more,
});
const CURRENT = line('31-107', {
  assignment: 'first line',
  state: 'overdue',
  place: 'Engine 31, crosslay 2',
  placeId: 'crosslay2',
  rig: 'Engine 31',
});
const SPARES: Spares = {
  total: 2,
  current: CURRENT,
  spares: [
    line('31-104'),
    line('33-12', { condition: 'tagged out', against: ['worse than what is there', 'tagged out'] }),
  ],
};
const FILLED = { where: 'there', to: '', how: 'number read', on: '', forGood: '' };
const moved = (item: string, to: string, note: string) => ({
  action: 'item.move',
  body: { item, to, how: 'number read', note, on: TODAY },
});

describe('the deeds of a swap', () => {
  const form = swapForm(CURRENT, line('31-104'));

  it('put the spare in the place and the thing where the spare was', () => {
    expect(form.deeds(FILLED, TODAY)).toEqual([
      moved('id-31-104', 'crosslay2', 'Swapped with 31-107'),
      moved('id-31-107', 'rack', 'Swapped with 31-104'),
    ]);
  });

  it('put the thing into another place where one is chosen', () => {
    const deeds = form.deeds({ ...FILLED, where: 'elsewhere', to: 'bench' }, TODAY);
    expect(deeds.map(d => d.body.to)).toEqual(['crosslay2', 'bench']);
  });

  it('trade the assignments only where the swap is for good', () => {
    const sound = swapForm(line('31-107', { ...CURRENT, state: 'current' }), line('31-104'));
    expect(sound.deeds({ ...FILLED, forGood: 'yes' }, TODAY).slice(2)).toEqual([
      { action: 'item.assign', body: { item: 'id-31-104', assignment: 'first line', on: TODAY } },
      { action: 'item.assign', body: { item: 'id-31-107', assignment: 'ready spare', on: TODAY } },
    ]);
  });

  it('make no ready spare of what is overdue: it goes into storage', () => {
    expect(
      form
        .deeds({ ...FILLED, forGood: 'yes' }, TODAY)
        .slice(2)
        .map(d => d.body.assignment),
    ).toEqual(['first line', 'storage']);
  });

  it('are for good from the start where a screen says so', () =>
    expect(swapForm(CURRENT, line('31-104'), true).initial.forGood).toBe('yes'));

  it.each(['missing', 'held for investigation'] as const)(
    'leave a thing that is %s where it is',
    condition => {
      const alone = swapForm(line('C-187', { ...CURRENT, item: 'id-C-187', condition }), line('C-157'), true);
      expect(alone.deeds(alone.initial, TODAY).map(d => d.body.item)).toEqual(['id-C-157', 'id-C-157']);
    },
  );

  it('ask where the thing goes where the spare is in no place', () => {
    const nowhere = swapForm(CURRENT, line('31-104', { place: null, placeId: null }));
    const asked = nowhere.rows(nowhere.initial).flat();
    expect(asked.find(f => f.key === 'to')).toMatchObject({ kind: 'place', required: true });
    expect(
      form
        .rows(form.initial)
        .flat()
        .some(f => f.key === 'to'),
    ).toBe(false);
  });
});

describe('choosing what to swap with', () => {
  it('leads by keys from the box through the list to one signed act', async () => {
    const host = fakeHost({ 'item.spares': () => SPARES });
    const onClose = vi.fn();
    draw(<Swap item={CURRENT} today={TODAY} onClose={onClose} />);
    const list = await screen.findByRole('grid', { name: 'What it can be swapped with' });
    expect(within(list).getByText('worse than what is there, tagged out')).toBeTruthy();

    fireEvent.keyDown(screen.getByLabelText(/^Narrow by/), { key: 'ArrowDown' });
    expect(document.activeElement?.textContent).toContain('31-104');
    fireEvent.keyDown(document.activeElement as Element, { key: 'ArrowDown' });
    expect(document.activeElement?.textContent).toContain('33-12');
    fireEvent.keyDown(document.activeElement as Element, { key: 'Enter' });
    await screen.findByText('Swap 31-107 with 33-12');

    const signed = screen.getByRole('combobox', { name: 'Signed by', hidden: true });
    fireEvent.change(signed, { target: { value: 'ruiz' } });
    fireEvent.click(await screen.findByRole('option', { name: /Ruiz/, hidden: true }));
    fireEvent.submit(signed.closest('form') as HTMLFormElement);
    await waitFor(() => expect(host.acts).toHaveLength(1));
    expect(host.acts[0]).toEqual({
      by: 'm1',
      deeds: [
        moved('id-33-12', 'crosslay2', 'Swapped with 31-107'),
        moved('id-31-107', 'rack', 'Swapped with 33-12'),
      ],
    });
    await waitFor(() => expect(onClose).toHaveBeenCalled());
  });

  it('says so where there is nothing to swap with', async () => {
    fakeHost({ 'item.spares': () => ({ total: 0, current: CURRENT, spares: [] }) });
    draw(<Swap item={CURRENT} today={TODAY} onClose={() => {}} />);
    expect(await screen.findByText('There is no other of its family elsewhere.')).toBeTruthy();
  });
});
