import { useDocumentTitle } from '@mantine/hooks';

/** What the address says: which part of the book, which family or source, which requirement is open. */
export interface RuleSearch {
  part?: 'rules' | 'policies' | 'permits' | 'try';
  family?: string;
  source?: string;
  rule?: string;
}

const PARTS = ['rules', 'policies', 'permits', 'try'] as const;

export function readRuleSearch(raw: Record<string, unknown>): RuleSearch {
  const said: RuleSearch = {};
  const part = PARTS.find(p => p === raw.part);
  if (part) said.part = part;
  if (typeof raw.family === 'string') said.family = raw.family;
  if (typeof raw.source === 'string') said.source = raw.source;
  if (typeof raw.rule === 'string') said.rule = raw.rule;
  return said;
}

/** By what rule? */
export function RuleBook(_props: { search: RuleSearch }) {
  useDocumentTitle('Rule book · Baybook');
  return (
    <header>
      <h1>By what rule?</h1>
    </header>
  );
}
