import { useDocumentTitle } from '@mantine/hooks';

export const PARTS = ['places', 'members', 'agencies', 'settings', 'backup', 'export', 'about'] as const;

/** What the address says: which part of the department is shown. */
export interface DepartmentSearch {
  part?: (typeof PARTS)[number];
}

export function readDepartmentSearch(raw: Record<string, unknown>): DepartmentSearch {
  const part = PARTS.find(p => p === raw.part);
  return part ? { part } : {};
}

/** Who and where? */
export function Department(_props: { search: DepartmentSearch }) {
  useDocumentTitle('Department · Baybook');
  return (
    <header>
      <h1>Who and where?</h1>
    </header>
  );
}
