/** What may be adopted: the law stays, a standard is loosened with a reason, what is local says who decided it. */
import { type Day, parseDay } from '../../domain/calendar/day.ts';
import { attributesRead } from '../../domain/rulebook/clock-words.ts';
import { type BoundForce, forceIn, type Profile, profileOn } from '../../domain/rulebook/force.ts';
import { familyOf, shippedRequirement } from '../../domain/rulebook/index.ts';
import { changeOf, type Difference, differences } from '../../domain/rulebook/strictness.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import { cited } from '../../domain/rulebook/words.ts';
import { type Look, type Refusal, refuse } from './types.ts';

/** The latest version of a requirement that the department has adopted, or undefined. */
export function adoptedRequirement(look: Look, id: string): Requirement | undefined {
  return [...look.book.versions.values()].flat().findLast(v => v.requirement.id === id)?.requirement;
}

/** What the department is on the day from which something is to hold. */
export function profileFor(look: Look, from: string): Profile {
  const day = from === 'opening' ? look.today : (parseDay(from) ?? look.today);
  return profileOn(look.book.profiles, Math.max(day, look.today) as Day);
}

/** The refusal of something that law does not allow, with its clause. */
export function refusedAsLaw(
  requirement: Requirement,
  force: BoundForce,
  what: string,
  field: string | null,
): Refusal {
  const [source] = requirement.sources;
  const clause = force.clause ?? (source ? cited(source) : 'the book');
  return refuse(
    'the law',
    `${requirement.title} is law: ${clause}. ${what}`,
    force.certain
      ? 'What is stricter may be adopted; what is looser may not.'
      : 'If it does not bind the department, say so in its profile first; what is stricter may always be adopted.',
    field,
  );
}

/** What the department has loosened and would be law for it under another profile: it is tightened first. */
export function looserThanLaw(look: Look, profile: Profile): Refusal[] {
  const loosened = [...look.book.versions.values()]
    .flat()
    .map(v => v.requirement)
    .filter(r => r.own?.change === 'looser' && isLawIn(r.id, profile));
  return [...new Map(loosened.map(r => [r.id, r])).values()].map(r =>
    refuse(
      'the law',
      `${r.title} (${r.family}) would be law there, and the department has made it looser.`,
      'Adopt it as the book has it first, from the same day on.',
      'state',
    ),
  );
}

function isLawIn(id: string, profile: Profile): boolean {
  const shipped = shippedRequirement(id);
  return shipped !== undefined && forceIn(shipped, profile).force === 'law';
}

/** Fields in which a version may differ without anyone being named for it. */
const LIGHT: ReadonlySet<Difference['field']> = new Set(['warnDays', 'late', 'words', 'sources']);

/**
 * Why a requirement may not be adopted as it is; empty where it may.
 * @param field where it stands in the deed
 */
export function adoptionProblems(
  look: Look,
  requirement: Requirement,
  said: { from: string; reason?: string | undefined; authority?: string | undefined },
  field: string,
): Refusal[] {
  const shipped = shippedRequirement(requirement.id);
  if (!shipped)
    return [
      ...localProblems(look, requirement),
      ...owedWords(requirement, said, 'It is a local requirement'),
    ];
  if (requirement.family !== shipped.family)
    return [
      refuse(
        'another family',
        `${requirement.id} is of ${shipped.family}.`,
        'Give a local requirement an id of its own.',
        field,
      ),
    ];
  const found = differences(shipped, requirement);
  const change = changeOf(found);
  const force = forceIn(shipped, profileFor(look, said.from));
  if (change === 'looser' && force.force === 'law') {
    const looser = found.filter(d => d.effect === 'looser').map(d => d.field);
    return [
      refusedAsLaw(
        shipped,
        force,
        `${capitalWords(looser)} may not be looser than the book has it.`,
        looser.length === 1 ? `${field}.${looser[0]}` : field,
      ),
    ];
  }
  if (change === 'looser')
    return owedWords(requirement, said, `${requirement.title} would be looser than the book has it`);
  return found.every(d => LIGHT.has(d.field))
    ? []
    : owedWords(requirement, said, `${requirement.title} would not be as the book has it`);
}

const FIELD_WORDS: Partial<Record<Difference['field'], string>> = {
  clock: 'its interval',
  late: 'what being late does',
  graceDays: 'its days of grace',
  dueAt: 'the day it is due',
  appliesTo: 'what it concerns',
  satisfiedBy: 'what settles it',
  countedOutcomes: 'what counts',
  coveredBy: 'what else settles it',
  inStorage: 'what storage does',
  activity: 'the activity',
  where: 'where it is judged',
};

function capitalWords(fields: readonly Difference['field'][]): string {
  const words = fields.map(f => FIELD_WORDS[f] ?? f).join(' and ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A version of the department’s own needs a written reason and who has decided it. */
function owedWords(
  requirement: Requirement,
  { reason, authority }: { reason?: string | undefined; authority?: string | undefined },
  what: string,
): Refusal[] {
  const problems: Refusal[] = [];
  if (!reason?.trim())
    problems.push(
      refuse(
        'reason owed',
        `${what}, and no reason is given.`,
        'Write why, so that an auditor can read it.',
        'reason',
      ),
    );
  if (!authority?.trim())
    problems.push(
      refuse(
        'authority owed',
        `${what}, and nobody is named who decided it.`,
        `Name who decided ${requirement.title.toLowerCase()}: the chief, a policy by its number, the manual.`,
        'authority',
      ),
    );
  return problems;
}

/** A local requirement must speak of what its family has. */
function localProblems(look: Look, requirement: Requirement): Refusal[] {
  const family = familyOf(requirement.family);
  if (!family)
    return [
      refuse(
        'unknown family',
        `There is no family ${requirement.family}.`,
        'Use a family of the rule book.',
        null,
      ),
    ];
  const activities = family.activities.map(a => a.id);
  const unknown = [requirement.activity, ...requirement.satisfiedBy].find(
    a => !activities.includes(a) && requirement.satisfiedBy.length > 0,
  );
  if (unknown)
    return [
      refuse(
        'unknown activity',
        `${unknown} is not done to a ${family.title.toLowerCase()}.`,
        `Use one of: ${activities.join(', ')}.`,
      ),
    ];
  const attributes = family.attributes.map(a => a.key);
  const strange = attributesRead(requirement).find(a => !attributes.includes(a));
  if (strange)
    return [
      refuse(
        'unknown attribute',
        `${family.plural} have no attribute ${strange}.`,
        `Use one of: ${attributes.join(', ')}.`,
      ),
    ];
  const { besides } = requirement;
  const beside = besides === undefined ? undefined : adoptedRequirement(look, besides);
  if (besides !== undefined && beside?.family !== requirement.family)
    return [
      refuse(
        'not adopted',
        `${besides} is not adopted for ${family.plural.toLowerCase()}.`,
        'Name a requirement of the same family.',
      ),
    ];
  return [];
}

/** A requirement as it enters the ledger: how it stands to the shipped one is the store’s to say. */
export function asOwn(
  { own: _sent, ...requirement }: Requirement,
  reason: string,
  authority: string,
): Requirement {
  const shipped = shippedRequirement(requirement.id);
  const change = shipped ? changeOf(differences(shipped, requirement)) : 'local';
  // Another warning or other words are no other rule.
  return change === null || change === 'other'
    ? requirement
    : { ...requirement, own: { change, reason, authority } };
}
