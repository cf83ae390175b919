/** What requirements of gear and tools have in common, so that each family's file says only what is its own. */
import { BRIGADE_RULE } from './brigade.ts';
import type {
  Attribute,
  Binding,
  Choice,
  Clock,
  Every,
  First,
  RepairKind,
  Requirement,
  Source,
  Trigger,
} from './types.ts';
import { WARN_LIFE_DAYS, warnDaysFor } from './warnings.ts';

/** An activity that nobody can record: the thing is taken out of service for good and destroyed. */
export const DESTRUCTION = 'destruction';

/** Common practice of the trade, with no document behind it. */
export const practice = (note = 'Common practice, no source.'): Source => ({
  document: 'Trade practice',
  section: '',
  edition: '',
  confidence: 'common practice',
  note,
});

/** What makers' instructions commonly ask for; the maker's own were not seen. */
export const maker = (note: string): Source => ({
  document: 'Maker’s instructions',
  section: '',
  edition: '',
  confidence: 'common practice',
  note: `${note} The maker’s own instructions were not seen: set the interval they give.`,
});

/** A date that the maker prints on the thing: the thing itself is the source, and whoever enters the date has seen it. */
export const printed = (note: string): Source => ({
  document: 'The date printed on it',
  section: '',
  edition: '',
  confidence: 'common practice',
  note,
});

/** The duty of brigades to maintain and inspect fire fighting equipment at least once a year, federal and as a state prints it. */
export const YEARLY_BY_LAW: readonly Source[] = [
  BRIGADE_RULE,
  {
    document: 'Mich. Admin. Code R 408.17312',
    section: '(1) and (2)',
    edition: 'Michigan, effective 23 October 2023',
    confidence: 'read',
    note: 'The same duty for fire brigades, not for municipal departments; inspection records are kept at least 24 months.',
  },
];

/** Whom general federal rules of occupational safety bind. */
const EMPLOYERS =
  'Private employers; public departments in State-Plan states. Elsewhere an adopted benchmark.';

/** A federal occupational safety rule, and where it reaches. */
export const osha = (cite: string): readonly Binding[] => [{ reach: 'osha', cite }];

/** The rule of one state. */
export const stateLaw = (state: string, cite: string): readonly Binding[] => [
  { reach: { states: [state] }, cite },
];

const BINDS: Readonly<Record<Requirement['force'], string>> = {
  law: EMPLOYERS,
  standard: 'Where the department has adopted the standard.',
  manufacturer: 'Where the maker’s instructions ask for it; the stricter of the two governs.',
  practice: 'Where the department has adopted it; practice, not law.',
};

/** So often since the last one; the first one as long after it was placed in service, unless told otherwise. */
export const every = (span: Every, first: First = { counts: 'in service', plus: span }): Clock => ({
  kind: 'since last',
  every: span,
  first,
});

/** The first one is owed before it is placed in service. */
export const BEFORE_USE: First = { counts: 'in service', plus: { months: 0 } };

/** An end of life so many years after it was made. */
export const lifeFromMade = (years: number): Clock => ({
  kind: 'life',
  counts: 'made',
  plus: { months: years * 12 },
});

type Said = Pick<Requirement, 'id' | 'title' | 'activity' | 'clock' | 'sources' | 'late' | 'who'> &
  Partial<Requirement>;

/**
 * A requirement from what it says of its own. What it does not say is usual: it concerns the whole family, counts
 * days, is settled by a pass of its activity, is practice, and warns by its interval.
 */
export function duty(said: Said): Requirement {
  const isSettled = isSettledByRecord(said.clock);
  return {
    family: said.id.split('.')[0] ?? '',
    appliesTo: [],
    dueAt: 'day',
    warnDays: warnDaysOf(said.clock),
    satisfiedBy: isSettled ? [said.activity] : [],
    countedOutcomes: isSettled ? ['pass'] : [],
    force: 'practice',
    binds: BINDS[said.force ?? 'practice'],
    cautions: [],
    ...said,
  };
}

/** An end of life, a printed date and a bad reading of what cannot be mended are settled by no record. */
function isSettledByRecord({ kind }: Clock): boolean {
  return kind !== 'life' && kind !== 'printed date' && kind !== 'made before' && kind !== 'reading limit';
}

function warnDaysOf(clock: Clock): number {
  switch (clock.kind) {
    case 'since last':
      return warnDaysFor(clock.every);
    case 'life':
      return WARN_LIFE_DAYS;
    case 'printed date':
    case 'meter':
      return warnDaysFor({ months: 12 });
    case 'first of':
      return Math.min(...clock.clocks.map(warnDaysOf));
    default:
      return 0;
  }
}

/** A happening after which something is owed whatever the date. */
export const happening = (id: string, title: string, owes: string, source: Source = practice()): Trigger => ({
  id,
  title,
  owes,
  source,
});

/** A repair and what it owes before the thing may be returned. */
export const repair = (
  kind: string,
  title: string,
  owes: readonly string[],
  source: Source = practice(),
): RepairKind => ({ kind, title, owes, source });

export const NO_FAULT_FOUND: RepairKind = repair(
  'no fault found',
  'No fault found',
  [],
  practice('Common practice, no source; the reason is kept.'),
);

/** Choices from their plain words: `pike pole` is shown as `Pike pole`. */
export const choices = (...words: readonly string[]): readonly Choice[] =>
  words.map(value => ({ value, title: value.charAt(0).toUpperCase() + value.slice(1) }));

export const kind = (...words: readonly string[]): Attribute => ({
  key: 'kind',
  title: 'Kind',
  type: 'choice',
  choices: choices(...words),
});

/** What is known of most things: who made it and when, and since when it serves. */
export const MADE_AND_IN_SERVICE: readonly Attribute[] = [
  { key: 'maker', title: 'Maker', type: 'text' },
  { key: 'model', title: 'Model', type: 'text' },
  { key: 'made', title: 'Made', type: 'when' },
  { key: 'inService', title: 'In service', type: 'when' },
  { key: 'remarks', title: 'Remarks', type: 'text' },
];

/** The last day of its life as the maker's label or instructions print it. */
export const RETIRE_BY: Attribute = {
  key: 'retireBy',
  title: 'Retire by',
  type: 'when',
  note: 'As printed on the label or in the maker’s instructions.',
};

/**
 * Wisconsin's monthly inspection of all equipment of a fire department, beside a requirement of the same duty that
 * comes round less often.
 * @param others activities that are such an inspection as well
 */
export const monthlyInWisconsin = (besides: string, activity: string, others: readonly string[] = []) =>
  duty({
    id: `${besides.split('.')[0]}.monthly-inspection`,
    title: 'Monthly inspection',
    activity,
    clock: every({ months: 1 }),
    satisfiedBy: [activity, ...others],
    sources: [
      {
        document: 'Wis. Admin. Code SPS 330.09',
        section: '(1)(d)1.',
        edition: 'Wisconsin, through August 2024',
        confidence: 'read',
        note: 'All fire apparatus and equipment is inspected at least monthly, and within 24 hours after any use.',
      },
    ],
    force: 'law',
    bindings: stateLaw('WI', 'SPS 330.09(1)(d)1.'),
    binds: 'Law in Wisconsin for public fire departments.',
    where: { states: ['WI'] },
    besides,
    late: 'limits',
    who: 'Trained members.',
  });

/** The maker's own end of life, where one is printed. */
export const retireBy = (family: string, late: Requirement['late']): Requirement =>
  duty({
    id: `${family}.retire-by`,
    title: 'Printed end of life',
    activity: 'retirement',
    clock: { kind: 'printed date', attribute: 'retireBy' },
    warnDays: WARN_LIFE_DAYS,
    sources: [printed('The life that the maker prints is the longest there is.')],
    force: 'manufacturer',
    late,
    who: 'The officer in charge takes it out of service.',
  });
