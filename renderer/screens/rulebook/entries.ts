/** The book as a list: one entry a requirement, with the version that is in force and the others beside it. */
import type { RuleLine } from '../../../db/api-rules.ts';
import { clockWords } from '../../../domain/rulebook/clock-words.ts';
import type { Family, Requirement } from '../../../domain/rulebook/types.ts';
import { cited, leastSure } from '../../../domain/rulebook/words.ts';
import { narrow } from '../../parts/picker/narrow.ts';
import { dateText } from '../../parts/words/dates.tsx';
import type { RuleSearch } from './search.ts';

export interface Entry {
  requirement: Requirement;
  /** False: the program offers it, the department has not adopted it, and nothing is judged by it. */
  adopted: boolean;
  /** From when the version shown is in force; null: from the opening on. */
  from: string | null;
  /** The version shown as the store tells it: its force here, whether it waits for a word. */
  line: RuleLine;
  /** Every version, in the order of the days it is in force. */
  versions: readonly RuleLine[];
}

/** A line of the table: a group's heading, or an entry in it. */
export type Line =
  | { key: string; heading: string; count: number }
  | { key: string; heading: null; entry: Entry };

/** One entry a requirement: the version in force on a day, else the next one to be. */
export function entriesOf(rules: readonly RuleLine[], today: string): Entry[] {
  const versions = new Map<string, RuleLine[]>();
  for (const line of rules)
    versions.set(line.requirement.id, [...(versions.get(line.requirement.id) ?? []), line]);
  return [...versions.values()].flatMap(lines => {
    const shown =
      lines.find(l => (l.from === null || l.from <= today) && (l.to === null || today < l.to)) ?? lines[0];
    if (!shown) return [];
    const { requirement, adopted, from } = shown;
    return [{ requirement, adopted, from, line: shown, versions: lines }];
  });
}

/** Entries under their families, or under every document that is a source of them. */
export function linesOf(entries: readonly Entry[], families: readonly Family[], search: RuleSearch): Line[] {
  const familyOf = (entry: Entry) => families.find(f => f.id === entry.requirement.family);
  const shown = entries.filter(e => fits(e, familyOf(e), search));
  const groups = new Map<string, Entry[]>();
  const put = (group: string, entry: Entry) => groups.set(group, [...(groups.get(group) ?? []), entry]);
  if (search.by === 'source') {
    const documents = shown.flatMap(e => e.requirement.sources.map(s => s.document));
    for (const document of [...new Set(documents)].sort((a, b) =>
      a.localeCompare(b, 'en', { numeric: true }),
    ))
      for (const entry of shown)
        if (
          entry.requirement.sources.some(s => s.document === document) &&
          (search.source === undefined || search.source === document)
        )
          put(document, entry);
  } else for (const entry of shown) put(familyOf(entry)?.plural ?? entry.requirement.family, entry);
  return [...groups].flatMap(([heading, members]): Line[] => [
    { key: heading, heading, count: members.length },
    ...members.map(entry => ({ key: `${heading} ${entry.requirement.id}`, heading: null, entry })),
  ]);
}

/** What is asked of the department, or what it has made its own: how an entry stands beside the book. */
export const STANDINGS = ['to confirm', 'offered', 'newer text', 'looser', 'ours', 'rests here'] as const;
export type StandingBeside = (typeof STANDINGS)[number];

/** How it stands beside the book; empty where it is adopted as it ships. */
export function standingsOf({ line, requirement }: Pick<Entry, 'line' | 'requirement'>): StandingBeside[] {
  const change = requirement.own?.change;
  return [
    ...(line.toConfirm ? (['to confirm'] as const) : []),
    ...(line.adopted ? [] : (['offered'] as const)),
    ...(line.hasNewer ? (['newer text'] as const) : []),
    ...(change === 'looser' ? (['looser'] as const) : []),
    ...(change === undefined ? [] : (['ours'] as const)),
    ...(line.isJudgedHere ? [] : (['rests here'] as const)),
  ];
}

/** The force a requirement has here, in one word: what is law elsewhere is a benchmark. */
export function forceHere({ line, requirement }: Pick<Entry, 'line' | 'requirement'>): string {
  const { force, certain } = line.force;
  if (requirement.force === 'law' && force !== 'law') return 'benchmark';
  return certain ? force : `${force}?`;
}

function fits(entry: Entry, family: Family | undefined, search: RuleSearch): boolean {
  const { requirement } = entry;
  if (search.only !== undefined && !standingsOf(entry).includes(search.only)) return false;
  if (search.family !== undefined && requirement.family !== search.family) return false;
  if (search.source !== undefined && !requirement.sources.some(s => s.document === search.source))
    return false;
  if (search.unsure && leastSure(requirement) === 'read') return false;
  if (search.text === undefined) return true;
  const option = {
    value: requirement.id,
    label: requirement.title,
    detail: [family?.title, family?.plural, requirement.id].join(' '),
    also: [
      ...requirement.sources.map(s => `${cited(s)} ${s.edition}`),
      requirement.force,
      forceHere(entry),
      ...standingsOf(entry),
      requirement.late,
      clockWords(requirement, family),
    ].join(' '),
  };
  return narrow([option], search.text).length > 0;
}

/** Whether it is adopted, and from when. */
export function adoptedWords({ adopted, from, versions }: Entry, today: string): string {
  if (!adopted) return 'Offered only';
  const next = versions.find(v => v.from !== null && v.from > today && v.from !== from);
  const since = from === null ? 'From the opening' : `From ${dateText(from)}`;
  return next?.from ? `${since}; changes ${dateText(next.from)}` : since;
}
