/** A clock in plain words, from its data alone: what it counts from, when it is on time, what it reads of a thing. */
import { MONTH_NAMES } from '../calendar/show.ts';
import { spanText } from '../derive/clocks/count.ts';
import { grouped } from '../units.ts';
import type { Clock, Every, Family, First, ReadingLimit, Requirement, SpecPeriod } from './types.ts';
import { attributeTitle, everyText, midSentence, orList, outcomeWords, showText } from './words.ts';

/** The clock in a few words, as it stands in a list: `Every 12 months`, `Each May`, `Every 250 engine hours or 12 months`. */
export function clockWords({ clock }: Requirement, family: Family | undefined): string {
  return wordsOf(clock, family);
}

function wordsOf(clock: Clock, family: Family | undefined): string {
  switch (clock.kind) {
    case 'since last':
      return `Every ${everyText(clock.every)}`;
    case 'once':
      return isAtOnce(clock.first.plus) ? 'One time, before use' : 'One time';
    case 'fixed month':
      return clock.every_months === 12
        ? `Each ${MONTH_NAMES[clock.month - 1]}`
        : `Every ${everyText({ months: clock.every_months })}, in ${MONTH_NAMES[clock.month - 1]}`;
    case 'meter':
      return `Every ${grouped(clock.every)} ${clock.meter}`;
    case 'first of':
      return `${clock.clocks.map((c, i) => (i === 0 ? wordsOf(c, family) : midSentence(wordsOf(c, family)))).join(' or ')}, whichever comes first`;
    case 'life':
      if (isAtOnce(clock.plus)) return 'At its end, whatever its age';
      return `Life of ${spanText(clock.plus)} from ${clock.counts === 'made' ? 'manufacture' : 'when it was placed in service'}`;
    case 'reading limit':
      return limitWords(clock, family);
    case 'after happenings':
      return 'After each happening, by no date';
    case 'cylinder period':
      return `Every ${spansText(periodMonths(clock))}, by specification or permit`;
    case 'cylinder life':
      return `Life of ${spansText(lifeMonths(clock))} from manufacture, by specification or permit`;
    case 'printed date': {
      const printed = midSentence(attributeTitle(family, clock.attribute));
      return clock.plus ? `${spanText(clock.plus)} after ${printed}` : `By the printed date: ${printed}`;
    }
    case 'made before':
      return `Ended if made before ${showText(clock.day)}`;
  }
}

function limitWords(clock: ReadingLimit, family: Family | undefined): string {
  const reading = family?.activities.flatMap(a => a.readings).find(r => r.key === clock.reading);
  const title = midSentence(reading?.title ?? clock.reading);
  const unit = clock.percentOf === undefined && reading?.unit ? ` ${reading.unit}` : '';
  const share =
    clock.percentOf === undefined ? '' : ` % of ${midSentence(attributeTitle(family, clock.percentOf))}`;
  const lost =
    clock.lostFrom === undefined
      ? title
      : `${midSentence(attributeTitle(family, clock.lostFrom))} less ${title}`;
  return `When ${lost} is ${clock.owedWhen} ${clock.value}${unit}${share}`;
}

/** What the clock counts from, and what the first one counts from: a sentence each. */
export function countsFromWords(requirement: Requirement): string[] {
  return countsFrom(requirement.clock, requirement);
}

function countsFrom(clock: Clock, requirement: Requirement): string[] {
  const last = `Counts from the last ${orList(requirement.satisfiedBy)} that ${outcomeWords(requirement)}.`;
  switch (clock.kind) {
    case 'since last':
      return [last, firstWords(clock.first)];
    case 'once':
      return [firstWords(clock.first), 'Once it is done it is settled for good.'];
    case 'fixed month':
      return [
        `It is due by the end of ${MONTH_NAMES[clock.month - 1]}, and the month does not drift: one done up to ${spanText({ months: clock.early_months })} early counts for that month, and a late one moves nothing.`,
        ...(clock.atMost ? [`Never later than ${spanText(clock.atMost)} after the last one.`] : []),
        firstWords(clock.first),
      ];
    case 'meter':
      return [
        `${last} What the meter read on or before that day is what it counts from; with nothing on record, from new.`,
        'The date is a range, from how fast the meter has risen; a reading decides.',
      ];
    case 'first of':
      return clock.clocks.flatMap(c => countsFrom(c, requirement));
    case 'life':
      return [
        `Counts from ${clock.counts === 'made' ? 'the day it was made' : 'the day it was placed in service'}. No test lengthens it.`,
      ];
    case 'reading limit':
      return ['The last reading decides, whatever the date.'];
    case 'after happenings':
      return ['Counts from nothing: a happening or a repair owes it.'];
    case 'cylinder period':
      return [
        last,
        'The first counts from the original test month marked on the cylinder, not from purchase.',
      ];
    case 'cylinder life':
      return ['Counts from the manufacture month. No test lengthens it.'];
    case 'printed date':
      return clock.plus
        ? ['Counts from the date printed on it, not from the day it was fitted.']
        : ['Counts from nothing: the date printed on it is the date.'];
    case 'made before':
      return [`What was made before ${showText(clock.day)} is at its end; no test restores it.`];
  }
}

function firstWords({ counts, plus }: First): string {
  const span = spanText(plus);
  switch (counts) {
    case 'made':
      return `The first is due ${span} after manufacture.`;
    case 'later of made and in service':
      return `The first is due at the later of ${span} after manufacture and the day it was placed in service.`;
    case 'in service':
      return isAtOnce(plus)
        ? 'The first is due before use: by the day it is placed in service.'
        : `The first is due ${span} after it was placed in service.`;
  }
}

function isAtOnce(plus: Every): boolean {
  return ('months' in plus ? plus.months : plus.days) === 0;
}

/** Through when it is on time. */
export function onTimeWords({ clock, dueAt }: Requirement): string {
  switch (clock.kind) {
    case 'made before':
      return `Due since ${showText(clock.day)}.`;
    case 'printed date':
      return clock.plus
        ? 'On time through the due day. Where only the month is printed, it counts from that month’s last day.'
        : 'On time through the last day of what is printed: a month through its last day.';
    case 'fixed month':
      return 'On time through the last day of that month.';
    case 'meter':
      return 'On time until a reading shows that the mark is passed.';
    case 'reading limit':
    case 'after happenings':
      return 'Owed at once.';
  }
  const isInDays = clock.kind === 'since last' && 'days' in clock.every;
  if (isInDays || dueAt === 'day')
    return 'On time through the due day. Where only the month was written down, it counts from that month’s last day.';
  return dueAt === 'month end'
    ? 'On time through the last day of the month it falls in.'
    : 'On time only before the month it falls in begins.';
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
  return [...new Set([...appliesTo.map(c => c.attribute), ...attributesOf(clock)])];
}

function attributesOf(clock: Clock): string[] {
  const read: string[] = [];
  switch (clock.kind) {
    case 'once':
    case 'fixed month':
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
      break;
    case 'life':
      read.push(clock.counts === 'made' ? 'made' : 'inService');
      break;
    case 'reading limit':
      read.push(...[clock.percentOf, clock.lostFrom].filter(a => a !== undefined));
      break;
    case 'first of':
      read.push(...clock.clocks.flatMap(attributesOf));
  }
  return read;
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
