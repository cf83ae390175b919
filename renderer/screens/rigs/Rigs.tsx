import { useDocumentTitle } from '@mantine/hooks';

/** What rides where? */
export function Rigs() {
  useDocumentTitle('Rigs · Baybook');
  return (
    <header>
      <h1>What rides where?</h1>
    </header>
  );
}
