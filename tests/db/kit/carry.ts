/** Engine 31 with a saw, two lengths of hose and a carry list that asks for them. */
import type { CarryPage } from '../../../db/api-checks.ts';
import { aHose, layGround, newDepartment } from './department.ts';

/** A department whose Engine 31 carries what its list asks for. */
export async function carrying(today = '2026-11-25') {
  const d = newDepartment();
  const g = layGround(d);
  const l1 = d.must('place.add', { name: 'L1', kind: 'compartment', under: g.rig, on: '2015-01-01' });
  const hose = ['31-1', '31-2'].map(n => aHose(d, n, { place: g.bed, assignment: 'first line' }));
  const saw = d.must('item.receive', {
    family: 'power-tool',
    number: 'SAW-1',
    attributes: { kind: 'chain saw' },
    place: l1,
    on: '2022-03-01',
  });
  d.must('carry.set', {
    of: g.unit,
    on: '2026-01-01',
    lines: [
      {
        what: '1¾ in attack hose',
        family: 'hose',
        like: { diameter_in: '1.75' },
        qty: 2,
        min: 2,
        place: 'hosebed driver side',
        critical: true,
      },
      { what: 'Spanner wrench', qty: 4, min: 2, place: 'L1', verify: 'count' },
      { what: 'Chain saw', family: 'power-tool', qty: 1, min: 1, place: 'L1', verify: 'operated' },
      {
        what: 'Foam concentrate',
        qty: 4,
        min: 3,
        place: 'L1',
        reading: { title: 'Level', unit: 'gal', atLeast: '15' },
      },
    ],
  });
  const page = (on?: string) => d.ask<CarryPage>('carry.page', { of: 'Engine 31', ...(on ? { on } : {}) });
  const { lines } = await page();
  const line = (what: string) => lines.find(l => l.what === what)?.line ?? '';
  const started = `${today}T07:10`;
  return { d, g, l1, hose, saw, page, line, started, finished: `${today}T07:32` };
}

/** A mark of a place in which everything is present, with what is otherwise. */
export function present(place: string, at: string | null, more: Record<string, unknown> = {}) {
  return { place, at, present: true, exceptions: [], operated: [], seen: [], ...more };
}
