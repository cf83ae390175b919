/**
 * A requirement in plain words, from its data alone: what it counts from, when it is on time, whom it concerns, what
 * settles it, by what authority. Screens, paper, help and the why of a date say it with these.
 */
import { parseDay } from '../calendar/day.ts';
import { showDay } from '../calendar/show.ts';
import { capital } from '../capital.ts';
import { spanText } from '../derive/clocks/count.ts';
import type { Condition, Every, Family, OwnVersion, Requirement, Source, WhenLate } from './types.ts';

/** `an inspection`, `a service test`. */
export function withArticle(words: string): string {
  return `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;
}

/** `NFPA 1962 (4.8; first test 4.1.3)`, `49 CFR 180.205(c)`, `WAC 296-305-06003(1)`. */
export function cited({ document, section }: Source): string {
  if (section === '' || section.startsWith('(')) return document + section;
  return /^\d+ CFR$/.test(document) ? `${document} ${section}` : `${document} (${section})`;
}

/** `month`, `12 months`: what stands after "every". */
export function everyText(every: Every): string {
  return spanText(every).replace(/^1 /, '');
}

/** What stands after "the force of". */
export const FORCE_WORDS: Readonly<Record<Requirement['force'], string>> = {
  law: 'law',
  standard: 'a standard',
  manufacturer: 'the manufacturer’s word',
  practice: 'practice',
};

/** How a version of the department's own stands to the shipped one. */
export const OWN_WORDS: Readonly<Record<OwnVersion['change'], string>> = {
  stricter: 'It is the department’s own, stricter than the book.',
  looser: 'It is the department’s own, LOOSER than the book.',
  other: 'It is the department’s own version of the book’s.',
  local: 'It is a local requirement of the department.',
};

/** A sentence with its full stop, whoever wrote it. */
export function fullStop(said: string): string {
  return /[.!?]$/.test(said) ? said : `${said}.`;
}

/** What stands after "being late". */
export const LATE_WORDS: Readonly<Record<WhenLate, string>> = {
  blocks: 'blocks: the unit is not ready with it.',
  limits: 'limits: the unit is ready with limits.',
  notes: 'is noted and stops nothing.',
};

/** How a value was seen, as a sentence; nothing where it was read in the document itself. */
export const SEEN_WORDS: Readonly<Record<Source['confidence'], string>> = {
  read: '',
  'read second-hand': 'Read second-hand.',
  memory: 'From memory: confirm it.',
  'common practice': 'Common practice.',
};

/** What to do about a value that was not read in the document itself. */
export function confidenceSentence(source: Source): string {
  return source.confidence === 'memory' || source.confidence === 'common practice'
    ? `Its source was not seen (${source.confidence}); check it against the document in hand.`
    : 'Its source was read second-hand; check it against the document in hand.';
}

const SURENESS: readonly Source['confidence'][] = ['read', 'read second-hand', 'memory', 'common practice'];

/** How the least sure of a requirement's sources was seen. */
export function leastSure({ sources }: Pick<Requirement, 'sources'>): Source['confidence'] {
  return SURENESS[Math.max(0, ...sources.map(s => SURENESS.indexOf(s.confidence)))] ?? 'read';
}

/** From when it shows as due soon. */
export function warnWords({ warnDays }: Requirement): string {
  return warnDays === 0
    ? 'Never shown as due soon.'
    : `Shown as due soon from ${spanText({ days: warnDays })} before.`;
}

/** Whom it concerns: `Hose, except where use is occupant use.` */
export function concernsWords({ appliesTo }: Requirement, family: Family | undefined): string {
  const all = family?.plural ?? 'Things of this family';
  if (appliesTo.length === 0) return `All ${midSentence(all)}.`;
  const conditions = appliesTo.map(c => conditionWords(c, family));
  return `${all}, ${conditions.join(', and ')}.`;
}

function conditionWords(condition: Condition, family: Family | undefined): string {
  const title = midSentence(attributeTitle(family, condition.attribute));
  const isDate = family?.attributes.find(a => a.key === condition.attribute)?.type === 'when';
  const dateOf = isDate ? 'the date of ' : '';
  const titled = (values: readonly string[]) =>
    orList(values.map(v => midSentence(choiceTitle(family, condition.attribute, v))));
  if ('known' in condition)
    return condition.known ? `where ${dateOf}“${title}” is on file` : `where no “${title}” is on file`;
  if ('is' in condition) return condition.is ? `with ${title}` : `without ${title}`;
  if ('in' in condition) return `where ${title} is ${titled(condition.in)}`;
  if ('notIn' in condition) return `except where ${title} is ${titled(condition.notIn)}`;
  if ('matches' in condition) return `where ${title} is ${orList(condition.matches)}`;
  if ('atLeast' in condition) return `where ${title} is ${condition.atLeast} or more`;
  return `where ${title} is under ${condition.below}`;
}

/** What tells two requirements of one title apart, to stand after the title: `, occupant use`; empty where nothing has to. */
export function narrowerWords({ id, title, appliesTo }: Requirement, family: Family | undefined): string {
  if (family && !family.requirements.some(r => r.id !== id && r.title === title)) return '';
  return appliesTo
    .flatMap(condition => {
      if ('matches' in condition) return [`, ${orList(condition.matches)}`];
      if (!('in' in condition) && !('notIn' in condition)) return [];
      const [not, values] = 'in' in condition ? ['', condition.in] : ['not ', condition.notIn];
      if (values.some(v => title.includes(v))) return [];
      return [`, ${not}${orList(values.map(v => midSentence(choiceTitle(family, condition.attribute, v))))}`];
    })
    .join('');
}

/** What settles it, and what else settles it. */
export function settledWords(
  requirement: Requirement,
  titleOf: (id: string) => string | undefined = () => undefined,
): string[] {
  const { clock, satisfiedBy, coveredBy = [] } = requirement;
  if (clock.kind === 'printed date')
    return ['No record settles it: fit a new one and enter the date printed on it.'];
  if (clock.kind === 'reading limit')
    return [
      ...(satisfiedBy.length === 0
        ? []
        : [`${capital(withArticle(orList(satisfiedBy)))} after that reading.`]),
      'A later reading inside the limit settles it as well.',
    ];
  if (satisfiedBy.length === 0)
    return ['No record settles it: it is taken out of service, retired and replaced.'];
  const said = [`${capital(withArticle(orList(satisfiedBy)))} that ${outcomeWords(requirement)}.`];
  const covering = [...new Set(coveredBy.flatMap(id => midSentence(titleOf(id) ?? '') || []))];
  if (covering.length > 0)
    said.push(
      `While the ${orList(covering)} is due no later it settles this too, and this is not listed beside it.`,
    );
  return said;
}

/** `passed`, or `was run, passed or failed`: what counts. */
export function outcomeWords({ countedOutcomes }: Requirement): string {
  return countedOutcomes.includes('fail') ? 'was run, passed or failed' : 'passed';
}

/** `a, b or c`. */
export function orList(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

/** An attribute as its family calls it. */
export function attributeTitle(family: Family | undefined, key: string): string {
  return family?.attributes.find(a => a.key === key)?.title ?? key;
}

function choiceTitle(family: Family | undefined, key: string, value: string): string {
  const choices = family?.attributes.find(a => a.key === key)?.choices;
  return choices?.find(c => c.value === value)?.title ?? value;
}

/** A day of the book as people read it. */
export function showText(day: string): string {
  const known = parseDay(day);
  return known === null ? day : showDay(known);
}

/** As it stands inside a sentence: `hose`, `SCBA packs`. */
export function midSentence(words: string): string {
  return /^[A-Z][a-z]/.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
}
