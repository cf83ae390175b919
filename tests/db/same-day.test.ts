/**
 * A day without a time, and times of that day: what is told later of a thing comes later, unless a time says otherwise.
 * Nobody brings back in the afternoon for the morning. Common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import type { ItemPage } from '../../db/api.ts';
import { carrying, present } from './kit/carry.ts';
import { aHose, departmentInMemory } from './kit/department.ts';

const TODAY = '2026-11-25';

describe('on one day', () => {
  it('a bottle that was read low in the morning and filled after is full', async () => {
    const { d, g } = departmentInMemory();
    const item = d.must('item.receive', {
      family: 'cylinder',
      number: 'C-208',
      attributes: { spec: '3AL', servicePressure_psi: 4500, made: '2016-02', gas: 'air' },
      place: g.rack,
      on: '2016-03-01',
    });
    const fill = async () => (await d.ask<{ fill: string }>('fill.check', { item })).fill;
    d.must('cylinder.fill', { item, to_psi: 4500, on: `${TODAY}T03:10` });
    // Read after the fill of the night, on a day without a time.
    d.must('record.add', {
      item,
      activity: 'inspection',
      outcome: 'pass',
      readings: { gauge_psi: 2000 },
      on: TODAY,
    });
    expect(await fill()).toBe('to be filled');
    d.must('cylinder.fill', { item, to_psi: 4500, on: TODAY });
    expect(await fill()).toBe('full');
  });

  it('what was tagged out at a time is returned after it', () => {
    const { d, g } = departmentInMemory();
    const hose = aHose(d, '31-107', { place: g.bed });
    d.must('item.tagOut', { item: hose, reason: 'Cut', on: `${TODAY}T10:30` });
    d.must('item.return', { item: hose, on: TODAY });
    expect(d.conditionOf(hose)).toBe('serviceable');
  });

  it('a fact of the night before it that is told late stays before it', () => {
    const { d, g } = departmentInMemory();
    const hose = aHose(d, '31-107', { place: g.bed });
    d.must('item.tagOut', { item: hose, reason: 'Cut', on: `${TODAY}T10:30` });
    d.must('item.return', { item: hose, on: `${TODAY}T03:00` });
    expect(d.conditionOf(hose)).toBe('tagged out');
  });

  it('a thing read in its place at a check-off lies there, whatever was told of the changeover before it', async () => {
    const c = await carrying();
    const { d, g, saw, line } = c;
    d.must('item.move', { item: saw, to: g.bed, how: 'told', on: `${TODAY}T07:00` });
    const checkoff = d.must('checkoff.start', { of: g.unit, started: c.started });
    d.must('checkoff.mark', {
      checkoff,
      marks: [
        present('hosebed driver side', g.bed),
        present('L1', c.l1, {
          operated: [
            { line: line('Chain saw'), item: saw, works: true },
            { line: line('Foam concentrate'), item: null, works: true, reading: '20' },
          ],
        }),
      ],
    });
    d.must('checkoff.sign', { checkoff, finished: c.finished });
    expect((await d.ask<ItemPage>('item.page', { item: saw })).place).toBe('Engine 31, L1');
  });
});
