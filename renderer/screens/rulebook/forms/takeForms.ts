/** Taking what the book offers: as it stands, in a newer text, under another edition; confirming, and ending. */
import type { Edition } from '../../../../domain/rulebook/editions.ts';
import { shippedRequirement } from '../../../../domain/rulebook/index.ts';
import type { Family, Requirement } from '../../../../domain/rulebook/types.ts';
import { versionChanges } from '../../../../domain/rulebook/version-words.ts';
import { cited } from '../../../../domain/rulebook/words.ts';
import { body, type DeedForm } from '../../../parts/deeds/deedForm.ts';
import type { Entry } from '../entries.ts';
import { DECIDED, decided, previewed, whatOf } from './changeForm.ts';

/** How many are named before the rest is counted. */
const NAMED = 6;

function named(
  requirements: readonly Requirement[],
  familyOf: (r: Requirement) => Family | undefined,
): string {
  const titles = requirements.map(r => whatOf(r, familyOf(r)));
  const rest = titles.length - NAMED;
  return `${titles.slice(0, NAMED).join('; ')}${rest > 0 ? `; and ${rest} more` : ''}.`;
}

type Finder = (r: Requirement) => Family | undefined;

/** Adopt what is offered, or the newer text of what is adopted, as the book has it. */
export function takeForm(entries: readonly Entry[], familyOf: Finder): DeedForm {
  const requirements = entries.flatMap(e => shippedRequirement(e.requirement.id) ?? []);
  const [only] = requirements;
  const one = entries.length === 1 && only ? only : null;
  const adopted = one ? entries[0]?.requirement : undefined;
  const what = one ? whatOf(one, familyOf(one)) : `${requirements.length} requirements`;
  return {
    title: `Adopt ${what} as the book has ${one ? 'it' : 'them'}`,
    verb: 'Adopt',
    initial: { from: '', reason: '' },
    says: () => [
      ...(one ? [] : [named(requirements, familyOf)]),
      ...(one && adopted && entries[0]?.adopted
        ? versionChanges(adopted, one, familyOf(one)).map(c => `${c.what}: ${c.was} → ${c.now}`)
        : []),
    ],
    rows: () => [
      [{ kind: 'date', key: 'from', title: 'From which day on' }],
      [{ kind: 'long', key: 'reason', title: 'Reason' }],
    ],
    previews: (filled, today) => ({ adopt: requirements, ...previewed(filled, today) }),
    deeds: (filled, today) => [
      { action: 'rulebook.adopt', body: body({ requirements, ...decided(filled, today) }) },
    ],
    done: () => `Adopted, ${what}.`,
  };
}

/** Requirements whose sources are all from memory: judged by only once somebody has looked them up. */
export function confirmForm(entries: readonly Entry[], familyOf: Finder): DeedForm {
  const asked = entries.map(e => e.requirement);
  const [only] = asked;
  const what = asked.length === 1 && only ? whatOf(only, familyOf(only)) : `${asked.length} requirements`;
  const confirmed = (basis = '') =>
    asked.map(({ own: _own, ...r }) => ({ ...r, confirmed: basis.trim() || 'the document in hand' }));
  return {
    title: `Confirm ${what}`,
    verb: 'Confirm',
    initial: {
      from: '',
      confirmed: '',
      reason: only?.own?.reason ?? '',
      authority: only?.own?.authority ?? '',
    },
    says: () => [
      'The book has this from memory alone, so nothing is judged by it. Look it up in the edition that your department has adopted; confirm only what you have read there.',
      ...(asked.length === 1 ? [] : [named(asked, familyOf)]),
      ...(only && asked.length === 1
        ? only.sources.map(s => [cited(s), s.edition, s.note].filter(Boolean).join('. '))
        : []),
    ],
    rows: () => [
      [
        {
          kind: 'text',
          key: 'confirmed',
          title: 'Confirmed from',
          required: true,
          note: 'The document, its edition and where it is kept.',
        },
      ],
      // What is the department's own version goes on being so, and by whose word.
      ...(asked.some(r => r.own)
        ? DECIDED
        : ([
            [{ kind: 'date', key: 'from', title: 'From which day on' }],
            [{ kind: 'long', key: 'reason', title: 'Note' }],
          ] as const)),
    ],
    previews: (filled, today) => ({ adopt: confirmed(filled.confirmed), ...previewed(filled, today) }),
    deeds: (filled, today) => [
      {
        action: 'rulebook.adopt',
        body: body({ requirements: confirmed(filled.confirmed), ...decided(filled, today) }),
      },
    ],
    done: () => `Confirmed, ${what}.`,
  };
}

/** No longer judged by it, from a day on; what is law is refused by the store. */
export function endForm(entry: Entry, family: Family | undefined): DeedForm {
  const { requirement } = entry;
  const what = whatOf(requirement, family);
  return {
    title: `End ${what}`,
    verb: 'End it',
    initial: { from: '', reason: '', authority: '' },
    says: () => ['From that day on nothing is judged by it. Days before it are judged as they were.'],
    rows: () => DECIDED,
    previews: (filled, today) => ({ end: [requirement.id], ...previewed(filled, today) }),
    deeds: (filled, today) => [
      { action: 'rulebook.end', body: body({ requirement: requirement.id, ...decided(filled, today) }) },
    ],
    done: () => `Ended, ${what}.`,
  };
}

/** The same rules under the numbers of another edition. */
export function editionForm(
  edition: Edition,
  requirements: readonly Requirement[],
  familyOf: Finder,
): DeedForm {
  return {
    title: `Adopt ${edition.document} (${edition.edition})`,
    verb: 'Adopt the edition',
    initial: { from: '', reason: '', authority: '' },
    says: () => [
      `${requirements.length} requirements are renumbered; their clocks stay. ${edition.note}`,
      named(requirements, familyOf),
    ],
    rows: () => DECIDED,
    previews: (filled, today) => ({ adopt: [...requirements], ...previewed(filled, today) }),
    deeds: (filled, today) => [
      { action: 'rulebook.adopt', body: body({ requirements, ...decided(filled, today) }) },
    ],
    done: () => `${edition.document} (${edition.edition}) is adopted.`,
  };
}
