/** Why: the rule, the records and the arithmetic behind one due row, so that it can be read to an inspector. */
import { type Day, dayText } from '../calendar/day.ts';
import { showDay, showWhen } from '../calendar/show.ts';
import type { Outcome, RecordFact } from '../facts.ts';
import type { Book, RuleVersion } from '../rulebook/book.ts';
import { clockWords } from '../rulebook/clock-words.ts';
import { type BoundForce, forceIn, profileOn } from '../rulebook/force.ts';
import { familyOf } from '../rulebook/index.ts';
import type { Requirement } from '../rulebook/types.ts';
import {
  cited,
  confidenceSentence,
  FORCE_WORDS,
  fullStop,
  midSentence,
  OWN_WORDS,
  withArticle,
} from '../rulebook/words.ts';
import { type DueRow, type DueState, stateOn } from './due.ts';
import {
  comesBy,
  countedRecord,
  coveringRows,
  type Derived,
  dueRow,
  inForce,
  isOf,
  WAITS_IN_STORAGE,
} from './thing.ts';

export interface ToldRecord {
  fact: string;
  activity: string;
  on: string;
  outcome: Outcome;
  by: string | null;
}

export interface Why {
  row: DueRow;
  state: DueState;
  requirement: Requirement;
  inForce: { from: string | null; to: string | null };
  paragraph: string;
  steps: string[];
  counted: ToldRecord[];
  notCounted: (ToldRecord & { why: string })[];
  clocks: {
    requirement: string;
    title: string;
    state: DueState;
    dueOn: string | null;
    wins: boolean;
    listed: boolean;
  }[];
  force: BoundForce;
  wouldChange: string[];
}

/**
 * Explain one requirement of one thing on a day.
 * @returns null where no version of the requirement is in force that day
 */
export function explain(derived: Derived, requirementId: string, book: Book, day: Day): Why | null {
  const versions = (book.versions.get(derived.family) ?? []).filter(v => inForce(v, day));
  const version = versions.find(v => v.requirement.id === requirementId);
  if (!version) return null;
  const { requirement } = version;
  const steps: string[] = [];
  const row = dueRow(version, derived, book, s => steps.push(s));
  const covering = coveringRows(
    requirement,
    row,
    versions,
    versions.map(v => dueRow(v, derived, book)),
  ).at(-1);
  if (covering) {
    const title = versions
      .find(v => v.requirement.id === covering.requirement)
      ?.requirement.title.toLowerCase();
    steps.push(`The ${title} is due no later and settles it too, so it is not listed beside it.`);
  }
  const force = forceIn(requirement, profileOn(book.profiles, day));
  const gone = derived.condition === 'retired' || derived.condition === 'disposed';
  const state: DueState = gone ? 'not applicable' : stateOn(row, day);
  const counted = countedRecord(requirement, derived.records);
  return {
    row,
    state,
    requirement,
    inForce: {
      from: version.from === null ? null : dayText(version.from),
      to: version.to === null ? null : dayText(version.to),
    },
    paragraph: paragraph({ derived, requirement, force, row, state, counted, steps, day, gone }),
    steps,
    counted: counted ? [told(counted)] : [],
    notCounted: derived.records
      .filter(r => r !== counted)
      .reverse()
      .map(r => ({ ...told(r), why: whyNot(requirement, r) })),
    force,
    clocks: gone ? [] : clocksOf(versions, derived, book, day),
    wouldChange: gone ? [] : whatWouldChange(requirement, row, state),
  };
}

/** Why in one line, as a trial prints it. */
export function whyLine(why: Why): string {
  return why.steps.join(' ') || why.paragraph;
}

function told(record: RecordFact): ToldRecord {
  return {
    fact: record.id,
    activity: record.values.activity,
    on: record.effective,
    outcome: record.values.outcome,
    by: record.values.by ?? null,
  };
}

function whyNot(requirement: Requirement, record: RecordFact): string {
  if (!isOf(requirement, record))
    return `${withArticle(record.values.activity)} does not satisfy the ${requirement.title.toLowerCase()}`;
  if (record.values.outcome === 'not completed') return 'it was not completed: a stopped test is not a pass';
  if (!(requirement.countedOutcomes as readonly string[]).includes(record.values.outcome))
    return 'it failed: a failure restarts no clock';
  return 'a later one counts';
}

/** Every clock of the thing on that day, the earliest first; all that tie for the earliest govern together. */
function clocksOf(versions: readonly RuleVersion[], derived: Derived, book: Book, day: Day): Why['clocks'] {
  const all = versions.map(v => dueRow(v, derived, book));
  const rows = versions.flatMap(({ requirement }, i) => {
    const row = all[i];
    return row && row.basis !== 'none'
      ? [{ requirement, row, listed: coveringRows(requirement, row, versions, all).length === 0 }]
      : [];
  });
  const dates = rows.flatMap(({ row, listed }) => (row.dueOn === null || !listed ? [] : [row.dueOn]));
  const first = dates.length > 0 ? Math.min(...dates) : null;
  return rows
    .sort((a, b) => comesBy(a.row) - comesBy(b.row))
    .map(({ requirement, row, listed }) => ({
      requirement: requirement.id,
      title: requirement.title,
      state: stateOn(row, day),
      dueOn: row.dueOn === null ? null : dayText(row.dueOn),
      wins: listed && row.dueOn !== null && row.dueOn === first,
      listed,
    }));
}

function whatWouldChange(requirement: Requirement, row: DueRow, state: DueState): string[] {
  const changes: string[] = [];
  if (requirement.satisfiedBy.length > 0 && state !== 'not applicable')
    changes.push(`Recording a passed ${requirement.satisfiedBy.join(' or ')} sets a new date.`);
  if (row.basis === 'first' || requirement.clock.kind === 'made before')
    changes.push('Correcting the manufacture date or the day it was placed in service moves the first date.');
  if (row.basis === 'unjudged') changes.push('Confirming the missing value lets it be judged.');
  if (requirement.clock.kind === 'printed date')
    changes.push(
      requirement.clock.plus
        ? 'A new one, entered with the date printed on it, moves it.'
        : 'A new label with a later printed date, entered as an amendment, moves it.',
    );
  if (requirement.clock.kind === 'meter' || row.basis === 'projected')
    changes.push('Reading the meter moves the range, or shows that the mark is passed.');
  if (requirement.inStorage === 'waits') changes.push('Taking it out of storage sets it going again.');
  if (row.basis === 'life') changes.push('Nothing restores a life that has ended; retire it and replace it.');
  return changes;
}

interface Told {
  derived: Derived;
  requirement: Requirement;
  force: BoundForce;
  row: DueRow;
  state: DueState;
  counted: RecordFact | null;
  steps: readonly string[];
  day: Day;
  gone: boolean;
}

function paragraph(all: Told): string {
  const { derived, requirement, row, state, counted, steps, day, gone } = all;
  const family = familyOf(derived.family);
  const thing = `${family?.title ?? derived.family} ${derived.number}`;
  const title = requirement.title.toLowerCase();
  if (gone) return `${thing} is ${derived.condition} and owes nothing.`;
  const parts = [
    steps.includes(WAITS_IN_STORAGE)
      ? `The ${title} of ${thing} waits while it is in storage.`
      : headline(thing, title, row, state, day),
  ];
  if (counted && row.basis !== 'retest')
    parts.push(
      `The ${counted.values.activity} of ${showWhen(counted.effective)} ${
        counted.values.outcome === 'pass' ? 'passed' : 'was run'
      } and counts.`,
    );
  // Where something is owed now, the date it would otherwise have had is no part of the reason.
  parts.push(...(row.basis === 'retest' ? steps.slice(-1) : steps));
  parts.push(...ruleSentences(requirement, all.force));
  const [source] = requirement.sources;
  if (source && source.confidence !== 'read') parts.push(confidenceSentence(source));
  if (derived.condition === 'held for investigation')
    parts.push('It is held for investigation: this is what it will owe once it is released.');
  return parts.join(' ');
}

function headline(thing: string, title: string, row: DueRow, state: DueState, day: Day): string {
  const date = row.dueOn === null ? '' : showDay(row.dueOn);
  const days = row.dueOn === null ? 0 : Math.abs(row.dueOn - day);
  const count = `${days} ${days === 1 ? 'day' : 'days'}`;
  switch (state) {
    case 'overdue':
      return `${thing} is overdue for its ${title}: it was due ${date}, ${count} ago.`;
    case 'never done':
      return row.dueOn === null
        ? `${thing} has no ${title} on record.`
        : `${thing} has no ${title} on record; the first was due ${date}, ${count} ago.`;
    case 'retest owed':
      return `${thing} owes ${withArticle(title)} before it may be returned.`;
    case 'life ended':
      return `${thing} reached its end of life on ${date}, ${count} ago.`;
    case 'due soon':
      if (row.basis === 'projected')
        return `${thing} is likely due for its ${title} from ${date} on; a reading decides.`;
      return row.basis === 'life'
        ? `${thing} reaches its end of life on ${date}, in ${count}.`
        : `${thing} is due for its ${title} by ${date}, in ${count}.`;
    case 'current':
      if (row.basis === 'projected')
        return row.dueOn === null
          ? `${thing} is current for its ${title} by its last reading.`
          : `${thing} is current for its ${title} by its last reading; it is likely due from ${date} on.`;
      return row.basis === 'life'
        ? `${thing} has life until ${date}, ${count} from now.`
        : `${thing} is current for its ${title} until ${date}, ${count} from now.`;
    case 'not judged':
      if (row.basis === 'projected')
        return `${thing} is not judged for its ${title}: it was likely reached by ${row.dueTo === null ? date : showDay(row.dueTo)}, and the meter was not read since.`;
      return `${thing} is not judged for its ${title}.`;
    case 'not applicable':
      return `The ${title} does not concern ${thing}.`;
  }
}

/** The rule as adopted, by what authority, with what force here, and whether it is the department's own version. */
function ruleSentences(requirement: Requirement, force: BoundForce): string[] {
  const sources = requirement.sources
    .map(cited)
    .filter(t => t !== '')
    .join(' and ');
  const clock = midSentence(clockWords(requirement, familyOf(requirement.family)));
  const said = [
    `The rule: ${clock}${sources === '' ? '' : `, by ${sources}`}. It has the force of ${FORCE_WORDS[force.force]}${
      requirement.bindings ? `. ${force.says}` : `; where it binds: ${midSentence(requirement.binds)}`
    }`,
  ];
  const { own } = requirement;
  if (own) said.push(OWN_WORDS[own.change]);
  if (own?.reason)
    said.push(`${own.authority ? `On the authority of ${own.authority}: ` : ''}${fullStop(own.reason)}`);
  if (requirement.confirmed) said.push(`The department confirmed it from ${fullStop(requirement.confirmed)}`);
  return said;
}
