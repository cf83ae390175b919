/**
 * What makes a unit ready: the nearest ready spares, promised to one unit alone, and never taken where another unit
 * needs them. Common practice, no source: a ready spare before a reserve rig's, the own station before another.
 */
import { describe, expect, it } from 'vitest';
import type { Readiness, ReadyFix, UnitReadiness } from '../../db/api-desk.ts';
import { aHose, layGround, newDepartment } from './kit/department.ts';

const TESTED = { activity: 'service test', outcome: 'pass', on: '2026-06-20' };

function department() {
  const d = newDepartment({ book: ['hose'] });
  const g = layGround(d);
  const far = d.must('station.add', { name: 'Station 32', on: '2015-01-01' });
  const farRack = d.must('place.add', { name: 'hose rack', kind: 'rack', under: far, on: '2015-01-01' });
  const reserve = d.must('rig.add', { name: 'Reserve R-1', station: g.station, on: '2015-01-01' });
  const reserveBed = d.must('place.add', {
    name: 'hosebed driver side',
    kind: 'compartment',
    under: reserve,
    on: '2015-01-01',
  });
  const hose = (number: string, place: string, assignment: string) => {
    const item = aHose(d, number, { place, assignment });
    d.must('record.add', { item, ...TESTED });
    return item;
  };
  const carry = (of: string, qty: number, min = qty) =>
    d.must('carry.set', {
      of,
      on: '2026-01-01',
      lines: [
        {
          what: 'Attack hose',
          family: 'hose',
          like: { diameter_in: '1.75' },
          qty,
          min,
          place: 'hosebed driver side',
          critical: true,
        },
      ],
    });
  const told = async (name = 'Engine 31'): Promise<UnitReadiness> => {
    const { units } = await d.ask<Readiness>('readiness.now', { unit: name });
    return units[0] as UnitReadiness;
  };
  const moves = (fix: ReadyFix | null) => fix?.moves.map(m => `${m.number} from ${m.from}`);
  return { d, g, farRack, reserveBed, far, hose, carry, told, moves };
}

describe('the shortest fix', () => {
  it('takes from the own shelf first, then from a reserve rig there, then from another station', async () => {
    const { g, farRack, reserveBed, hose, carry, told, moves } = department();
    carry(g.unit, 3);
    hose('31-1', g.bed, 'first line');
    expect((await told()).shortestFix?.lacking).toEqual([
      'Attack hose: 2 wanted, none is to be had from ready spares and reserve rigs.',
    ]);
    hose('32-1', farRack, 'ready spare');
    hose('32-2', farRack, 'ready spare');
    expect(moves((await told()).shortestFix)).toEqual([
      '32-1 from Station 32, hose rack',
      '32-2 from Station 32, hose rack',
    ]);
    hose('R-1', reserveBed, 'reserve');
    hose('31-9', g.rack, 'ready spare');
    const { verdict, shortestFix } = await told();
    expect([verdict, shortestFix?.ready]).toEqual(['not ready', true]);
    expect(moves(shortestFix)).toEqual([
      '31-9 from Station 31, hose rack',
      'R-1 from Reserve R-1, hosebed driver side',
    ]);
  });

  it('is told where a line is under its least alone, and a critical line alone blocks', async () => {
    const { d, g, hose, carry, told } = department();
    carry(g.unit, 3, 2);
    const first = hose('31-1', g.bed, 'first line');
    hose('31-2', g.bed, 'first line');
    expect([(await told()).verdict, (await told()).says]).toEqual(['ready', '1 thing to note.']);
    d.must('item.missing', { item: first });
    expect((await told()).verdict).toBe('not ready');
  });

  it('never promises one spare to two units: the unit that lacks less is served first', async () => {
    const { d, g, far, hose, carry, told, moves } = department();
    const other = d.must('unit.add', {
      name: 'Engine 32',
      kind: 'engine',
      station: far,
      rig: { name: 'Engine 32' },
      on: '2015-01-01',
    });
    d.must('place.add', {
      name: 'hosebed driver side',
      kind: 'compartment',
      under: `${other}.r`,
      on: '2015-01-01',
    });
    hose('31-1', g.bed, 'first line');
    carry(g.unit, 2);
    carry(other, 2);
    hose('31-9', g.rack, 'ready spare');
    expect(moves((await told()).shortestFix)).toEqual(['31-9 from Station 31, hose rack']);
    expect((await told('Engine 32')).shortestFix).toMatchObject({
      ready: false,
      moves: [],
      lacking: [
        'Attack hose: 2 wanted, 1 is to be had from ready spares and reserve rigs; Engine 31 takes 1.',
      ],
    });
  });

  it('takes no spare that something is known against', async () => {
    const { d, g, carry, hose, told } = department();
    carry(g.unit, 1);
    aHose(d, '31-8', { place: g.rack, assignment: 'ready spare' });
    const cut = hose('31-9', g.rack, 'ready spare');
    d.must('item.tagOut', { item: cut, reason: 'Cut' });
    expect((await told()).shortestFix?.ready).toBe(false);
  });

  it('puts a tested length in for an overdue one, and only takes off what serves no more', async () => {
    const { d, g, carry, hose, told } = department();
    carry(g.unit, 2, 1);
    aHose(d, '31-1', { place: g.bed, assignment: 'first line' });
    const failed = hose('31-2', g.bed, 'first line');
    d.must('record.add', { item: failed, activity: 'service test', outcome: 'fail', on: '2026-11-20' });
    hose('31-9', g.rack, 'ready spare');
    const { shortestFix } = await told();
    expect(shortestFix).toMatchObject({
      ready: true,
      moves: [{ number: '31-9', instead: { number: '31-1' } }],
      off: [{ number: '31-2' }],
    });
  });

  it('says that no spare helps where the rig itself is out, and that counted things are restocked', async () => {
    const { d, g, told } = department();
    d.must('carry.set', {
      of: g.unit,
      on: '2026-01-01',
      lines: [{ what: 'Foam', qty: 4, min: 3, place: 'hosebed driver side', critical: true }],
    });
    hoseSeen(d, g.bed);
    d.must('defect.report', { of: g.unit, line: await lineOf(d), kind: 'short', short: 2, note: 'Used' });
    d.must('rig.takeOut', { rig: g.rig, condition: 'out of service', reason: 'Brakes' });
    const { lacking } = (await told()).shortestFix as ReadyFix;
    expect(lacking).toEqual([
      'The rig itself is out of service: no spare helps. Let somebody entitled return it, or ride a reserve rig.',
      'Foam: 1 more. It is counted and not tracked: restock it, then settle what was found short.',
    ]);
  });
});

type Department = ReturnType<typeof department>['d'];
const hoseSeen = (d: Department, place: string) => {
  const item = aHose(d, '31-1', { place });
  d.must('record.add', { item, ...TESTED });
};
const lineOf = async (d: Department) =>
  (await d.ask<{ lines: { line: string }[] }>('carry.page', { of: 'Engine 31' })).lines[0]?.line;
