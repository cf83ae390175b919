/**
 * A tag-out is a chain: found → tagged → at repair → repaired → retest owed → passed → returned to service, or gone.
 * One thing has one open chain at a time, for a chain is the stretch of its history in which it is out of service.
 */
import type { Day } from '../calendar/day.ts';
import { lastDay, type When } from '../calendar/when.ts';
import { capital } from '../capital.ts';
import {
  type Condition,
  type ConditionFact,
  type Fact,
  inOrder,
  type OwedFact,
  type RecordFact,
} from '../facts.ts';
import { type Photo, photosOf, photosWords } from '../photos.ts';
import { withArticle } from '../rulebook/words.ts';

export const STAGES = [
  'missing',
  'held for investigation',
  'tagged',
  'at repair',
  'retest owed',
  'to be returned',
  'limited use',
] as const;
/** Where an open chain stands. */
export type Stage = (typeof STAGES)[number];

/** What a chain waits for at most at each stage, in days, before it is told as stuck. Common practice, no source. */
export const STUCK_AFTER_days: Readonly<Record<Stage, number>> = {
  missing: 7,
  'held for investigation': 60,
  tagged: 14,
  'at repair': 30,
  'retest owed': 14,
  'to be returned': 3,
  'limited use': 60,
};

/** Something said of a thing besides its condition while it is out: searched for, handed over, sent, photographed. */
export interface SideFact {
  id: string;
  kind: 'searched' | 'custody' | 'sent' | 'photo';
  effective: When;
  clock: number;
  device: string;
  n: number;
  values: {
    note?: string;
    vendor?: string;
    promised?: string;
    cost_usd?: string;
    where?: string;
    to?: string;
    photos?: readonly Photo[];
  };
}

export interface Step {
  fact: string;
  on: When;
  what: string;
  photos: readonly Photo[];
}

export interface Chain {
  /** The fact with which it began. */
  begun: string;
  from: When;
  /** Null while it is open. */
  until: When | null;
  /** How it ended; null while it is open. */
  ended: 'back in service' | 'retired' | 'disposed' | null;
  stage: Stage | null;
  /** Since when it stands at that stage. */
  stageSince: When | null;
  /** Why the thing went out, as it was said. */
  reason: string | null;
  tag: string | null;
  /** The day a repair was promised for, the latest said. */
  promised: When | null;
  steps: Step[];
}

type Told = ConditionFact | RecordFact | OwedFact | (SideFact & { recordedAt?: number });

const TOLD: ReadonlySet<string> = new Set([
  'condition',
  'record',
  'owed',
  'searched',
  'custody',
  'sent',
  'photo',
]);
const IN_SERVICE: ReadonlySet<Condition> = new Set(['serviceable', 'received', 'on order']);
const GONE: ReadonlySet<Condition> = new Set(['retired', 'disposed']);

/**
 * The chains of one thing, the oldest first; at most the last of them is open.
 * @param facts its facts that count, of any kind, in any order
 */
export function chainsOf(facts: readonly (Fact | SideFact)[]): Chain[] {
  const told = facts.filter((f): f is Told => TOLD.has(f.kind)).sort(inOrder);
  const chains: Chain[] = [];
  let open: Chain | null = null;
  /** Activities that are owed, each by the fact that owes it. */
  const owed = new Map<string, string>();
  let condition: Condition = 'serviceable';
  let repaired = false;
  for (const fact of told) {
    const owedBefore = owed.size;
    note(fact, owed);
    if (fact.kind === 'condition') condition = fact.values.condition;
    if (fact.kind === 'owed' && fact.values.because.startsWith('repaired')) repaired = true;
    const isOut = !IN_SERVICE.has(condition) || owed.size > 0;
    if (!open && isOut && !GONE.has(condition)) {
      open = begin(fact);
      repaired = false;
      chains.push(open);
    } else if (!open) continue;
    open.steps.push({
      fact: fact.id,
      on: fact.effective,
      what: stepWords(fact, owed.size, owedBefore),
      photos: photosOf(fact.values),
    });
    if (fact.kind === 'sent' && fact.values.promised) open.promised = fact.values.promised as When;
    if (fact.kind === 'condition') {
      open.reason ??= fact.values.reason ?? null;
      open.tag = fact.values.tag ?? open.tag;
    }
    if (GONE.has(condition)) {
      finish(open, fact.effective, condition === 'disposed' ? 'disposed' : 'retired');
      open = null;
      owed.clear();
      continue;
    }
    if (!isOut) {
      finish(open, fact.effective, 'back in service');
      open = null;
      continue;
    }
    const stage = stageOf(condition, owed.size > 0, repaired);
    if (stage !== open.stage) {
      open.stage = stage;
      open.stageSince = fact.effective;
    }
  }
  return chains;
}

/** Whether a chain has stood at its stage too long on a day, or a promised day has passed; and for how many days. */
export function stuckFor(
  chain: Pick<Chain, 'stage' | 'stageSince' | 'promised'>,
  today: Day,
): { days: number; stuck: boolean } {
  const since = chain.stageSince === null ? null : lastDay(chain.stageSince);
  const days = since === null ? 0 : Math.max(0, today - since);
  const isLate = chain.stage === 'at repair' && chain.promised !== null && lastDay(chain.promised) < today;
  return { days, stuck: isLate || (chain.stage !== null && days > STUCK_AFTER_days[chain.stage]) };
}

/** What has to be done next, and who may. */
export function nextWords(stage: Stage, owed: readonly string[]): string {
  switch (stage) {
    case 'missing':
      return 'Search for it; report it found, or retire it as written off';
    case 'held for investigation':
      return 'Nothing until it is released by somebody entitled';
    case 'tagged':
      return owed.length > 0
        ? `Repair it, then record ${listOf(owed)}`
        : 'Repair it or send it to repair; return it, or retire it';
    case 'at repair':
      return 'Record the repair when it is done';
    case 'retest owed':
      return `Record ${listOf(owed)} that passes`;
    case 'to be returned':
      return 'Return it to service: somebody entitled';
    case 'limited use':
      return 'Repair it, or lift the limit';
  }
}

const listOf = (owed: readonly string[]): string =>
  owed.length === 0 ? 'what is owed' : owed.map(a => withArticle(a)).join(' and ');

function begin(fact: Told): Chain {
  return {
    begun: fact.id,
    from: fact.effective,
    until: null,
    ended: null,
    stage: null,
    stageSince: null,
    reason: null,
    tag: null,
    promised: null,
    steps: [],
  };
}

function finish(chain: Chain, on: When, ended: NonNullable<Chain['ended']>): void {
  chain.until = on;
  chain.ended = ended;
  chain.stage = null;
  chain.stageSince = null;
}

/** Keep what is owed: a failure and a repair owe, a pass settles. */
function note(fact: Told, owed: Map<string, string>): void {
  if (fact.kind === 'owed') for (const activity of fact.values.activities) owed.set(activity, fact.id);
  if (fact.kind !== 'record' || fact.values.outcome === 'not completed') return;
  if (fact.values.outcome === 'fail') owed.set(fact.values.activity, fact.id);
  else owed.delete(fact.values.activity);
}

function stageOf(condition: Condition, owes: boolean, repaired: boolean): Stage {
  if (condition === 'missing' || condition === 'held for investigation') return condition;
  if (condition === 'limited use') return owes ? 'retest owed' : 'limited use';
  if (condition === 'at repair' && !repaired) return 'at repair';
  if (condition === 'tagged out' && !repaired) return 'tagged';
  if (owes) return 'retest owed';
  return repaired ? 'to be returned' : 'tagged';
}

function stepWords(fact: Told, owes: number, owedBefore: number): string {
  switch (fact.kind) {
    case 'condition':
      return `${word(fact.values.condition)}${fact.values.tag ? `, tag ${fact.values.tag}` : ''}${fact.values.reason ? `: ${fact.values.reason}` : ''}`;
    case 'record': {
      const verdict = { pass: 'passed', fail: 'failed', 'not completed': 'not completed' }[
        fact.values.outcome
      ];
      return `${word(fact.values.activity)} ${verdict}${owedBefore > 0 && owes === 0 ? ': nothing is owed any more' : ''}`;
    }
    case 'owed':
      return `${word(fact.values.because)}${fact.values.activities.length > 0 ? `; owes ${listOf(fact.values.activities)}` : '; owes nothing more'}`;
    case 'searched':
      return `Searched${fact.values.where ? `: ${fact.values.where}` : ''}${fact.values.note ? `: ${fact.values.note}` : ''}`;
    case 'custody':
      return `Handed to ${fact.values.to ?? 'somebody'}${fact.values.note ? `: ${fact.values.note}` : ''}`;
    case 'photo':
      return `${capital(photosWords(photosOf(fact.values).length))}${fact.values.note ? `: ${fact.values.note}` : ''}`;
    case 'sent':
      return `Sent${fact.values.promised ? `, promised for ${fact.values.promised}` : ''}${fact.values.cost_usd ? `, $${fact.values.cost_usd}` : ''}`;
  }
}

function word(text: string): string {
  return text === 'serviceable' ? 'Back in service' : capital(text);
}
