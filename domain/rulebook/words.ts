/**
 * A requirement in plain words, from its data alone: what it counts from, when it is on time, whom it concerns, what
 * settles it, by what authority. Screens, paper, help and the why of a date say it with these.
 */
import { parseDay } from '../calendar/day.ts';
import { showDay } from '../calendar/show.ts';
import { capital } from '../capital.ts';
import { spanText } from '../derive/clocks.ts';
import type { Clock, Condition, Every, Family, Requirement, Source, SpecPeriod, WhenLate } from './types.ts';

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

/** The clock in a few words, as it stands in a list: `Every 12 months`, `Every 3, 5 or 10 years by its marking`. */
export function clockWords({ clock }: Requirement, family: Family | undefined): string {
  switch (clock.kind) {
    case 'since last':
      return `Every ${everyText(clock.every)}`;
    case 'cylinder period':
      return `Every ${spansText(periodMonths(clock))}, by specification or permit`;
    case 'cylinder life':
      return `Life of ${spansText(lifeMonths(clock))} from manufacture, by specification or permit`;
    case 'printed date':
      return `By the printed date: ${midSentence(attributeTitle(family, clock.attribute))}`;
    case 'made before':
      return `Ended if made before ${showText(clock.day)}`;
  }
}

/** What the clock counts from, and what the first one counts from: a sentence each. */
export function countsFromWords(requirement: Requirement): string[] {
  const { clock, satisfiedBy } = requirement;
  switch (clock.kind) {
    case 'since last':
      return [
        `Counts from the last ${orList(satisfiedBy)} that ${outcomeWords(requirement)}.`,
        firstWords(clock),
      ];
    case 'cylinder period':
      return [
        `Counts from the last ${orList(satisfiedBy)} that ${outcomeWords(requirement)}.`,
        'The first counts from the original test month marked on the cylinder, not from purchase.',
      ];
    case 'cylinder life':
      return ['Counts from the manufacture month. No test lengthens it.'];
    case 'printed date':
      return ['Counts from nothing: the date printed on it is the date.'];
    case 'made before':
      return [`What was made before ${showText(clock.day)} is at its end; no test restores it.`];
  }
}

function firstWords({ first }: Clock & { kind: 'since last' }): string {
  const span = spanText(first.plus);
  const isAtOnce = ('months' in first.plus ? first.plus.months : first.plus.days) === 0;
  switch (first.counts) {
    case 'made':
      return `The first is due ${span} after manufacture.`;
    case 'later of made and in service':
      return `The first is due at the later of ${span} after manufacture and the day it was placed in service.`;
    case 'in service':
      return isAtOnce
        ? 'The first is due before use: by the day it is placed in service.'
        : `The first is due ${span} after it was placed in service.`;
  }
}

/** Through when it is on time. */
export function onTimeWords({ clock, dueAt }: Requirement): string {
  if (clock.kind === 'made before') return `Due since ${showText(clock.day)}.`;
  if (clock.kind === 'printed date')
    return 'On time through the last day of what is printed: a month through its last day.';
  const isInDays = clock.kind === 'since last' && 'days' in clock.every;
  if (isInDays || dueAt === 'day')
    return 'On time through the due day. Where only the month was written down, it counts from that month’s last day.';
  return dueAt === 'month end'
    ? 'On time through the last day of the month it falls in.'
    : 'On time only before the month it falls in begins.';
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
  const titled = (values: readonly string[]) =>
    orList(values.map(v => midSentence(choiceTitle(family, condition.attribute, v))));
  if ('known' in condition) return `where the date of “${title}” is on file`;
  if ('in' in condition) return `where ${title} is ${titled(condition.in)}`;
  return `except where ${title} is ${titled(condition.notIn)}`;
}

/** What tells two requirements of one title apart, to stand after the title: `, occupant use`; empty where nothing has to. */
export function narrowerWords({ title, appliesTo }: Requirement, family: Family | undefined): string {
  return appliesTo
    .flatMap(condition => {
      if ('known' in condition) return [];
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

function outcomeWords({ countedOutcomes }: Requirement): string {
  return countedOutcomes.includes('fail') ? 'was run, passed or failed' : 'passed';
}

/** One period of a table and what it holds for. */
export interface PeriodLine {
  span: string;
  holdsFor: string[];
}

/**
 * The table of a cylinder's clock by its spans, the shortest first, specifications and then constructions; what has
 * none comes last.
 * @returns null for every other clock
 */
export function periodLines(clock: Clock): { bySpec: PeriodLine[]; byConstruction: PeriodLine[] } | null {
  if (clock.kind !== 'cylinder period' && clock.kind !== 'cylinder life') return null;
  const isPeriod = clock.kind === 'cylinder period';
  const marked = (s: SpecPeriod) =>
    isPeriod && s.unless ? [{ months: s.unless.months, name: `${s.spec} (${unlessWords(s.unless)})` }] : [];
  const specs = clock.specs.flatMap(s => [
    { months: isPeriod ? s.months : s.lifeMonths, name: s.spec },
    ...marked(s),
  ]);
  const constructions = clock.constructions.map(c => ({
    months: isPeriod ? c.months : c.lifeMonths,
    name: c.construction,
  }));
  const none = isPeriod ? 'Not requalified' : 'No fixed life';
  return { bySpec: bySpan(specs, none), byConstruction: bySpan(constructions, none) };
}

function unlessWords({ attribute, is }: NonNullable<SpecPeriod['unless']>): string {
  if (is === true) return `${attribute} mark`;
  return String(is);
}

function bySpan(lines: readonly { months: number | null; name: string }[], none: string): PeriodLine[] {
  const spans = [...new Set(lines.map(l => l.months))].sort((a, b) => (a ?? 1e9) - (b ?? 1e9));
  return spans.map(months => ({
    span: months === null ? none : spanText({ months }),
    holdsFor: lines.filter(l => l.months === months).map(l => l.name),
  }));
}

/** Which attributes of a thing its date or its concern depends on, by their keys. */
export function attributesRead({ appliesTo, clock }: Requirement): string[] {
  const read = appliesTo.map(c => c.attribute);
  switch (clock.kind) {
    case 'since last':
      if (clock.first.counts !== 'in service') read.push('made');
      if (clock.first.counts !== 'made') read.push('inService');
      break;
    case 'cylinder period':
      read.push('spec', 'construction', 'made', ...clock.specs.flatMap(s => s.unless?.attribute ?? []));
      break;
    case 'cylinder life':
      read.push('spec', 'construction', 'made', 'lifeLabel_months');
      break;
    case 'printed date':
      read.push(clock.attribute);
      break;
    case 'made before':
      read.push('made');
  }
  return [...new Set(read)];
}

function periodMonths(clock: Clock & { kind: 'cylinder period' }): number[] {
  return [
    ...clock.specs.flatMap(s => [s.months, s.unless?.months]),
    ...clock.constructions.map(c => c.months),
  ].filter(m => typeof m === 'number');
}

function lifeMonths(clock: Clock & { kind: 'cylinder life' }): number[] {
  return [...clock.specs, ...clock.constructions].flatMap(l => l.lifeMonths ?? []);
}

/** `3, 5 or 10 years`. */
function spansText(months: readonly number[]): string {
  const spans = [...new Set(months)].sort((a, b) => a - b);
  const isInYears = spans.every(m => m >= 24 && m % 12 === 0);
  if (!isInYears) return orList(spans.map(m => spanText({ months: m })));
  return `${orList(spans.map(m => String(m / 12)))} years`;
}

function orList(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

function attributeTitle(family: Family | undefined, key: string): string {
  return family?.attributes.find(a => a.key === key)?.title ?? key;
}

function choiceTitle(family: Family | undefined, key: string, value: string): string {
  const choices = family?.attributes.find(a => a.key === key)?.choices;
  return choices?.find(c => c.value === value)?.title ?? value;
}

function showText(day: string): string {
  const known = parseDay(day);
  return known === null ? day : showDay(known);
}

/** As it stands inside a sentence: `hose`, `SCBA packs`. */
export function midSentence(words: string): string {
  return /^[A-Z][a-z]/.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
}
