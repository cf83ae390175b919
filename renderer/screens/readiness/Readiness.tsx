import { useDocumentTitle } from '@mantine/hooks';

/** What the address says: the unit whose reasons are open, and the reason whose why is. */
export interface ReadinessSearch {
  unit?: string;
  item?: string;
  duty?: string;
}

export function readReadinessSearch(raw: Record<string, unknown>): ReadinessSearch {
  const said: ReadinessSearch = {};
  if (typeof raw.unit === 'string') said.unit = raw.unit;
  if (typeof raw.item === 'string') said.item = raw.item;
  if (typeof raw.duty === 'string') said.duty = raw.duty;
  return said;
}

/** What is known against each unit, and how fresh is it? */
export function Readiness(_props: { search: ReadinessSearch }) {
  useDocumentTitle('Readiness · Baybook');
  return (
    <header>
      <h1>What is known against each unit, and how fresh is it?</h1>
    </header>
  );
}
