/** A page of help, as data: what it says can be searched, and checked against the screens. */

export interface HelpPage {
  id: string;
  title: string;
  /** The heading it stands under in the contents. */
  group: string;
  /** The route it is the page of: `/rigs/$rig`. */
  path?: string;
  /** What the screen or the rule is for, in a sentence or two. */
  lead: string;
  sections: readonly HelpSection[];
  /** Where its subject is, as an address of ours. */
  opens?: { hash: string; says: string };
}

export interface HelpSection {
  heading?: string;
  says?: readonly string[];
  /** Things done one after another. */
  steps?: readonly string[];
  list?: readonly string[];
  terms?: readonly { word: string; means: string }[];
  /** Only keys that the screen answers to; the key sheet has them all. */
  keys?: readonly { key: string; does: string }[];
  cautions?: { cautions: readonly string[]; who?: string };
  /** What was not seen in its document and is to be confirmed. */
  unconfirmed?: readonly string[];
}

/** Everything a section says, for searching. */
export function textOf(section: HelpSection): string[] {
  const { heading, says, steps, list, terms, keys, cautions, unconfirmed } = section;
  return [
    ...(heading ? [heading] : []),
    ...(says ?? []),
    ...(steps ?? []),
    ...(list ?? []),
    ...(terms ?? []).map(t => `${t.word}: ${t.means}`),
    ...(keys ?? []).map(k => k.does),
    ...(cautions?.cautions ?? []),
    ...(unconfirmed ?? []),
  ];
}
