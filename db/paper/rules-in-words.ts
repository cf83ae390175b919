/** A requirement's clock, sources and effect in words, as a rule sheet prints them. */

import { parseDay } from '../../domain/calendar/day.ts';
import { showDay } from '../../domain/calendar/show.ts';
import { spanText } from '../../domain/derive/clocks.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type {
  Clock,
  Condition,
  ConstructionPeriod,
  Requirement,
  Source,
  SpecPeriod,
} from '../../domain/rulebook/types.ts';

/** When it falls due, in sentences. */
export function clockWords(requirement: Requirement): string[] {
  const { clock } = requirement;
  switch (clock.kind) {
    case 'since last':
      return [
        `Every ${spanText(clock.every).replace(/^1 /, '')} from the last ${requirement.satisfiedBy.join(' or ')} that ${
          requirement.countedOutcomes.includes('fail') ? 'was finished' : 'passed'
        }${dueAtWords(requirement)}.`,
        `The first: ${firstWords(clock.first)}.`,
      ];
    case 'cylinder period':
      return [
        `From the last ${requirement.satisfiedBy.join(' or ')} that passed, else from the original test month marked on it${dueAtWords(requirement)}.`,
        ...periodWords(clock.specs, clock.constructions),
        'A permit that the department has confirmed decides for its own cylinders.',
      ];
    case 'cylinder life':
      return [
        `Its life counts from the month of manufacture${dueAtWords(requirement)}.`,
        ...lifeWords(clock.specs, clock.constructions),
        'Where a permit leaves it to the label, the life printed on the label.',
      ];
    case 'printed date':
      return [`Good through the ${attributeWords(requirement, clock.attribute)} that is printed on it.`];
    case 'made before': {
      const day = parseDay(clock.day);
      return [`Made before ${day === null ? clock.day : showDay(day)}: removed; no test restores it.`];
    }
  }
}

function dueAtWords({ dueAt }: Requirement): string {
  return {
    day: '; on time through the day it falls due',
    'month end': '; on time through the last day of the month it falls due in',
    'month start': '; only before the month it falls due in begins',
  }[dueAt];
}

function firstWords(first: Extract<Clock, { kind: 'since last' }>['first']): string {
  const none = 'months' in first.plus ? first.plus.months === 0 : first.plus.days === 0;
  const plus = spanText(first.plus);
  switch (first.counts) {
    case 'made':
      return `${plus} after manufacture`;
    case 'in service':
      return none ? 'before it is first placed in service' : `${plus} after it was placed in service`;
    case 'later of made and in service':
      return `the later of ${plus} after manufacture and the day it was placed in service`;
  }
}

/** `3 years: 3HT; hoop, fiberglass, aramid.`, one line for each length. */
function periodWords(specs: readonly SpecPeriod[], constructions: readonly ConstructionPeriod[]): string[] {
  const byMonths = new Map<number, string[]>();
  const add = (months: number, what: string) => byMonths.set(months, [...(byMonths.get(months) ?? []), what]);
  for (const { spec, months } of specs) if (months !== null) add(months, spec);
  for (const { construction, months } of constructions) add(months, `${construction} (by construction)`);
  const never = specs.filter(s => s.months === null).map(s => s.spec);
  const marks = specs.flatMap(s =>
    s.unless ? [`${s.spec} ${spanText({ months: s.unless.months })} (${s.unless.clause})`] : [],
  );
  return [
    ...[...byMonths]
      .sort(([a], [b]) => a - b)
      .map(([months, what]) => `${spanText({ months })}: ${what.join(', ')}.`),
    ...(marks.length > 0 ? [`By another mark: ${marks.join('; ')}.`] : []),
    ...(never.length > 0 ? [`Not requalified: ${never.join(', ')}.`] : []),
  ];
}

function lifeWords(specs: readonly SpecPeriod[], constructions: readonly ConstructionPeriod[]): string[] {
  const lives = [
    ...specs.map(s => ({ what: s.spec, months: s.lifeMonths })),
    ...constructions.map(c => ({ what: `${c.construction} (by construction)`, months: c.lifeMonths })),
  ].filter((l): l is { what: string; months: number } => l.months !== null);
  return [...Map.groupBy(lives, l => l.months)]
    .sort(([a], [b]) => a - b)
    .map(([months, list]) => `${spanText({ months })}: ${list.map(l => l.what).join(', ')}.`);
}

/** Which things it concerns, or null where it is every one of the family. */
export function concernsWords(requirement: Requirement): string | null {
  const words = requirement.appliesTo.map(c => conditionWords(requirement, c));
  return words.length === 0 ? null : `Where ${words.join(' and ')}.`;
}

function conditionWords(requirement: Requirement, condition: Condition): string {
  const { attribute } = condition;
  const name = attributeWords(requirement, attribute);
  if ('known' in condition) return `its ${name} is known`;
  const choices = familyOf(requirement.family)?.attributes.find(a => a.key === attribute)?.choices;
  const said = (values: readonly string[]) =>
    values.map(v => choices?.find(c => c.value === v)?.title.toLowerCase() ?? v).join(' or ');
  return 'in' in condition
    ? `its ${name} is ${said(condition.in)}`
    : `its ${name} is not ${said(condition.notIn)}`;
}

function attributeWords(requirement: Requirement, key: string): string {
  const attribute = familyOf(requirement.family)?.attributes.find(a => a.key === key);
  return (attribute?.title ?? key).toLowerCase();
}

/** `NFPA 1962, 4.8 (2018 edition)`, and how far to trust it. */
export function sourceWords({ document, section, edition, confidence, note }: Source): string {
  const where = cited(document, section);
  const named = where === '' ? '' : `${where}${edition === '' ? '' : ` (${edition})`}. `;
  return `${named}${SEEN[confidence]}${note ? ` ${note}` : ''}`;
}

/** `NFPA 1962, 4.8`, `49 CFR 180.205(c)`, `WAC 296-305-06003(1)`. */
function cited(document: string, section: string): string {
  if (section === '' || section.startsWith('(')) return document + section;
  return /^\d+ CFR$/.test(document) ? `${document} ${section}` : `${document}, ${section}`;
}

const SEEN: Readonly<Record<Source['confidence'], string>> = {
  read: 'The source was read.',
  'read second-hand': 'Read second-hand: check it against the document in hand.',
  memory: 'From memory, not seen: confirm it before relying on it.',
  'common practice': 'Common practice.',
};

export const FORCE_WORDS: Readonly<Record<Requirement['force'], string>> = {
  law: 'Law',
  standard: 'A standard',
  manufacturer: 'The manufacturer’s word',
  practice: 'Practice',
};

export const LATE_WORDS: Readonly<Record<Requirement['late'], string>> = {
  blocks: 'Blocks: the unit is not ready with it.',
  limits: 'Limits: the unit is ready with limits.',
  notes: 'Is noted and stops nothing.',
};
