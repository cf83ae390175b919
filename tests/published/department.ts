/** A department on a scratch file, asked and told through the two doors as a host would. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ItemPage, QuestionName, Questions, Trial, TrialRow } from '../../db/api.ts';
import { act } from '../../db/store/act.ts';
import { ask } from '../../db/store/ask.ts';
import type { Clock } from '../../db/store/clock.ts';
import { openForWriting } from '../../db/store/open.ts';
import { dayOf } from '../../domain/calendar/day.ts';
import type { Values } from '../../domain/facts.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';

/** Later than every date in the vectors: the doors refuse what has not happened yet. */
const CLOCK: Clock = { now: () => Date.UTC(2050, 0, 1, 12), today: dayOf(2050, 1, 1) };

/** What a department decides beyond adopting the shipped book. */
export interface Decisions {
  policies?: Readonly<Record<string, string>>;
  permits?: readonly Record<string, unknown>[];
  requirements?: readonly Requirement[];
  /** What the department says of itself: its state, its kind. */
  profile?: Readonly<Record<string, unknown>>;
  clock?: Clock;
}

type Done = {
  activity: string;
  on: string;
  outcome?: 'pass' | 'fail' | 'not completed';
  readings?: Values;
};

export type Department = Awaited<ReturnType<typeof open>>;

const opened = new Map<string, Promise<Department>>();

/** The department with these decisions; one file for each set of them. */
export function departmentWith(decisions: Decisions = {}): Promise<Department> {
  const key = JSON.stringify(decisions);
  let known = opened.get(key);
  if (!known) {
    known = open(decisions);
    opened.set(key, known);
  }
  return known;
}

/** Close and remove every scratch file. */
export async function closeDepartments(): Promise<void> {
  for (const department of opened.values()) (await department).close();
  opened.clear();
}

async function open(decisions: Decisions) {
  const clock = decisions.clock ?? CLOCK;
  const folder = mkdtempSync(join(tmpdir(), 'baybook-published-'));
  const db = openForWriting(join(folder, 'department.baybook'), { create: true });
  const tell = (by: string | null, action: string, body: Record<string, unknown>) => {
    const answer = act(db, clock, { by, deeds: [{ action, body }] });
    if (!answer.ok) throw new Error(`${action}: ${answer.error.message}`);
    const [entry] = answer.value.entries;
    if (entry === undefined) throw new Error(`${action} wrote nothing.`);
    return entry;
  };
  const opening = tell(null, 'department.open', {
    name: 'Larkspur Valley Fire District',
    zone: 'America/Chicago',
    member: { number: '100', name: 'R. Alder' },
  });
  const member = `${opening}.m`;
  for (const [policy, choice] of Object.entries(decisions.policies ?? {}))
    tell(member, 'policy.choose', { policy, choice, from: 'opening' });
  for (const permit of decisions.permits ?? []) tell(member, 'permit.confirm', permit);
  if (decisions.profile) tell(member, 'profile.set', { ...decisions.profile, from: 'opening' });
  if (decisions.requirements)
    tell(member, 'rulebook.adopt', {
      requirements: decisions.requirements,
      from: 'opening',
      reason: 'The published rule.',
      authority: 'The document in hand',
    });

  const answer = async <K extends QuestionName>(name: K, args: Questions[K]['takes']) => {
    const given = await ask(db, clock, name, args);
    if (!given.ok) throw new Error(`${name}: ${given.error.message}`);
    return given.value as Questions[K]['gives'];
  };
  let received = 0;
  return {
    ask: answer,
    /** Do one deed as the administrator. @returns the entry's id */
    act: (action: string, body: Record<string, unknown>) => tell(member, action, body),
    /** The code of the refusal, or null where the deed was done. */
    refusal(action: string, body: Record<string, unknown>): string | null {
      const done = act(db, clock, { by: member, deeds: [{ action, body }] });
      return done.ok ? null : done.error.code;
    },
    /** What the adopted book says of a thing that is not there. */
    trial: (family: string, attributes: Values, history: readonly Done[], on: string): Promise<Trial> =>
      answer('rulebook.trial', {
        family,
        attributes,
        history: history.map(h => ({ outcome: 'pass', ...h })),
        on,
      }),
    /** Receive a thing and record what was done to it. @returns its id */
    receive(family: string, attributes: Values, history: readonly Done[]): string {
      received += 1;
      const item = tell(member, 'item.receive', { family, number: `V-${received}`, attributes });
      for (const { activity, on, outcome = 'pass' } of history)
        tell(member, 'record.add', { item, activity, on, outcome, rin: 'A123' });
      return item;
    },
    page: (item: string, on: string): Promise<ItemPage> => answer('item.page', { item, on }),
    close() {
      db.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** The row of a requirement in a trial, or undefined where it does not concern the thing. */
export function rowOf(trial: Trial, requirement: string): TrialRow | undefined {
  return trial.rows.find(r => r.requirement === requirement);
}
