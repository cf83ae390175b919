import { useDocumentTitle } from '@mantine/hooks';

/** What the address says: the place of the rig that is shown. */
export interface RigSearch {
  place?: string;
}

export function readRigSearch(raw: Record<string, unknown>): RigSearch {
  return typeof raw.place === 'string' ? { place: raw.place } : {};
}

/** What rides where? */
export function RigPage(_props: { rig: string; search: RigSearch }) {
  useDocumentTitle('Rig · Baybook');
  return (
    <header>
      <h1>What rides where?</h1>
    </header>
  );
}
