/** How every department of the tests and the bench is opened. Knows no test runner: the bench weighs its process. */

import type { Deed } from '../../../db/api.ts';
import { type Db, one } from '../../../db/store/statements.ts';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';

/** 11:00 on 25 November 2026 in Denver: the day of the shipped scenario. */
export const NOON = Date.UTC(2026, 10, 25, 18);
export const TODAY = '2026-11-25';

export function openingDeed(book: 'shipped' | 'empty' = 'shipped'): Deed {
  return {
    action: 'department.open',
    body: {
      name: 'Larkspur Valley Fire District',
      zone: 'America/Denver',
      member: { number: '100', name: 'R. Alder' },
      book,
      on: '2015-01-01',
    },
  };
}

/** What the store's tests judge by, unless they ask for more: a rig without a history then stands in no one's way. */
export const TRACKED = ['hose', 'ladder', 'cylinder', 'pack', 'equipment'];

/** What opens a department: by the shipped rules of some families, by the whole book as it ships, or by none. */
export function openingDeeds(book: 'shipped' | 'empty' | readonly string[] = TRACKED): Deed[] {
  if (book === 'shipped' || book === 'empty') return [openingDeed(book)];
  const requirements = SHIPPED_REQUIREMENTS.filter(r => book.includes(r.family));
  return [
    openingDeed('empty'),
    { action: 'rulebook.adopt', body: { requirements, from: 'opening', on: '2015-01-01' } },
  ];
}

/** The member who opened a department; empty where none is open. */
export function adminOf(db: Db): string {
  const sql = "SELECT t.id FROM members m JOIN things t ON t.key = m.key WHERE m.position = 'administrator'";
  return one<{ id: string }>(db, sql)?.id ?? '';
}
