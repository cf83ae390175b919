/** What the address of the rule book says, so that Back undoes the last step. */
import { STANDINGS, type StandingBeside } from './entries.ts';

const PARTS = ['rules', 'policies', 'permits', 'editions', 'try'] as const;
export type RulePart = (typeof PARTS)[number];

/** Which part of the book, which family or source, which requirement is open. */
export interface RuleSearch {
  /** Absent: the requirements. */
  part?: RulePart | undefined;
  family?: string | undefined;
  /** Only what this document is a source of. */
  source?: string | undefined;
  /** The requirement that is open; on `try`, the one that is tried. */
  rule?: string | undefined;
  /** Absent: grouped by family. */
  by?: 'source' | undefined;
  text?: string | undefined;
  /** Only what rests on a source that was not read in the document itself. */
  unsure?: true | undefined;
  /** Only what stands so beside the book. */
  only?: StandingBeside | undefined;
}

export function readRuleSearch(raw: Record<string, unknown>): RuleSearch {
  const said: RuleSearch = {};
  const part = PARTS.find(p => p === raw.part);
  if (part) said.part = part;
  for (const key of ['family', 'source', 'rule', 'text'] as const) {
    const value = raw[key];
    if (typeof value === 'string' && value !== '') said[key] = value;
  }
  if (raw.by === 'source') said.by = 'source';
  if (raw.unsure === true) said.unsure = true;
  const only = STANDINGS.find(s => s === raw.only);
  if (only) said.only = only;
  return said;
}

/** Whether the list shows less than the whole book. */
export const isFiltered = ({ family, source, text, unsure, only }: RuleSearch): boolean =>
  [family, source, text, unsure, only].some(v => v !== undefined);
