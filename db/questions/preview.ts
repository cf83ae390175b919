/** What a change of the book would do, before it is signed. Writes nothing. */
import { z } from 'zod';
import { type Day, dayText, parseDay } from '../../domain/calendar/day.ts';
import { type DueRow, type DueState, stateOn } from '../../domain/derive/due.ts';
import { dueRows, inForce, subjectOf } from '../../domain/derive/thing.ts';
import type { Assignment, MeterFact, OwedFact, RecordFact, Values } from '../../domain/facts.ts';
import { type Book, bookFrom, changedFamilies, fallsAway } from '../../domain/rulebook/book.ts';
import { forceIn, type Profile, profileOn } from '../../domain/rulebook/force.ts';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import { changeOf, differences } from '../../domain/rulebook/strictness.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import { requirementSchema } from '../actions/requirement.ts';
import { profileSet, rulebookAdopt, rulebookEnd } from '../actions/rules.ts';
import type { Action, Refusal } from '../actions/types.ts';
import type { Problem } from '../api.ts';
import type { RulePreview, RuleQuestions } from '../api-rules.ts';
import { nothingTouched, thingKey } from '../caches/apply.ts';
import { type Decisions, decisionsOf, readBook } from '../caches/book.ts';
import { factsOf } from '../caches/facts.ts';
import { lookInto } from '../store/look.ts';
import { type Db, prepared } from '../store/statements.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { type Asking, question } from './types.ts';

type Asked = RuleQuestions['rulebook.preview']['takes'];

/** Changes that are told one by one. */
const SHOWN = 50;
const LATE: ReadonlySet<DueState> = new Set(['overdue', 'never done', 'life ended']);
const LIVING = "i.condition NOT IN ('retired', 'disposed')";

export const rulebookPreview = question({
  name: 'rulebook.preview',
  title:
    'What adopting or ending requirements, or another profile, would do from a day on; nothing is written',
  schema: z.strictObject({
    adopt: z.array(requirementSchema).optional(),
    end: z.array(z.string()).optional(),
    profile: z.unknown().optional(),
    from: z.string(),
    reason: z.string().optional(),
    authority: z.string().optional(),
    on: day.optional(),
  }) as unknown as z.ZodType<Asked>,
  answer(asking, args): RulePreview {
    const from = args.from === 'opening' ? null : parseDay(args.from);
    const problems = problemsOf(asking, args);
    const now = decisionsNow(asking.db);
    const falls = fallsAway(
      now.adoptions,
      new Set([...(args.adopt ?? []).map(r => r.id), ...(args.end ?? [])]),
      from,
    );
    // What falls away would have begun by then, so that its dates are among those that move.
    const on =
      args.on === undefined
        ? (Math.max(from ?? asking.today, asking.today, ...falls.map(f => f.from ?? asking.today)) as Day)
        : dayAsked(asking, args.on);
    const before = readBook(asking.db);
    const after = bookWith(now, args, from, problems);
    const profile = profileOn(after.profiles, on);
    return {
      problems,
      verdicts: (args.adopt ?? []).map(r => verdictOn(r, profile)),
      falls: falls.map(({ requirement, from, ended = false }) => ({
        requirement,
        from: dayText(from as Day),
        ended,
      })),
      on: dayText(on),
      ...compared(asking, before, after, on),
    };
  },
  example: { adopt: [], from: '2026-12-01' },
});

/** Why the deeds would be refused, by the very checks that the act goes through. */
function problemsOf(asking: Asking, args: Asked): Problem[] {
  const look = lookInto(asking.db, asking.today, nothingTouched());
  const said = { from: args.from, reason: args.reason, authority: args.authority, on: dayText(asking.today) };
  const told = (action: Action, body: Record<string, unknown>): Refusal[] => {
    const read = action.schema.safeParse(JSON.parse(JSON.stringify(body)));
    if (read.success) return action.check(look, read.data, { fromSheet: false, by: null });
    const [issue] = read.error.issues;
    const field = issue?.path.join('.') ?? null;
    return [
      {
        code: 'bad field',
        message: `${field ?? 'Something'} ${issue?.message ?? 'is not right.'}`,
        todo: 'Mend it and look again.',
        field,
      },
    ];
  };
  return [
    ...(args.adopt && args.adopt.length > 0
      ? told(rulebookAdopt, { requirements: args.adopt, ...said })
      : []),
    ...(args.end ?? []).flatMap(requirement => told(rulebookEnd, { requirement, ...said })),
    ...(args.profile ? told(profileSet, { ...args.profile, from: args.from, on: said.on }) : []),
  ];
}

function decisionsNow(db: Db): Decisions {
  const key = thingKey(db, 'rulebook');
  return decisionsOf(key === undefined ? [] : factsOf(db, key));
}

/** The book as it would be; what is not well formed is left out, and `problems` says so. */
function bookWith(now: Decisions, args: Asked, from: Day | null, problems: readonly Problem[]): Book {
  const ended = (args.end ?? []).flatMap(id => {
    const known = now.adoptions.findLast(a => a.requirement.id === id);
    return known ? [{ requirement: known.requirement, from, ended: true as const }] : [];
  });
  const isWellFormed = !problems.some(p => p.code === 'bad field');
  return bookFrom(
    [
      ...now.adoptions,
      ...(isWellFormed ? (args.adopt ?? []).map(requirement => ({ requirement, from })) : []),
      ...ended,
    ],
    now.policies,
    now.permits,
    [...now.profiles, ...(args.profile && isWellFormed ? [{ profile: args.profile, from }] : [])],
  );
}

function verdictOn(requirement: Requirement, profile: Profile): RulePreview['verdicts'][number] {
  const shipped = shippedRequirement(requirement.id);
  const found = shipped ? differences(shipped, requirement) : [];
  return {
    requirement: requirement.id,
    change: shipped ? changeOf(found) : 'local',
    differences: found,
    force: forceIn(shipped ?? requirement, profile),
  };
}

interface ThingRow {
  key: number;
  id: string;
  family: string;
  number: string;
  attributes: string;
  assignment: Assignment | null;
  place: string | null;
}

type Compared = Omit<RulePreview, 'problems' | 'verdicts' | 'falls' | 'on'>;

/** Every living thing of the families that change, judged by both books on one day. */
function compared(asking: Asking, before: Book, after: Book, on: Day): Compared {
  const told: Compared = {
    things: 0,
    concerned: { before: 0, after: 0 },
    moved: { earlier: 0, later: 0, gained: 0, lost: 0 },
    becomesLate: 0,
    noLongerLate: 0,
    notJudged: 0,
    months: [],
    changes: [],
  };
  const months = new Map<string, { before: number; after: number }>();
  const late: RulePreview['changes'] = [];
  const other: RulePreview['changes'] = [];
  const count = (dueOn: Day | null, when: 'before' | 'after') => {
    if (dueOn === null) return;
    const month = dayText(dueOn).slice(0, 7);
    const known = months.get(month) ?? { before: 0, after: 0 };
    known[when]++;
    months.set(month, known);
  };
  for (const family of changedFamilies(before, after)) {
    const versions = [before, after].map(b => (b.versions.get(family) ?? []).filter(v => inForce(v, on)));
    const [was = [], becomes = []] = versions;
    const changed = changedRequirements(was, becomes);
    for (const { thing, subject } of thingsOf(asking.db, family)) {
      told.things++;
      const rows = [dueRows(was, subject, before), dueRows(becomes, subject, after)].map(
        // A row that another covers from some day on is left for the days before it.
        list => new Map(list.filter(row => inForce(row, on)).map(row => [row.requirement, row])),
      );
      const [old, now] = rows as [Map<string, DueRow>, Map<string, DueRow>];
      for (const requirement of new Set([...old.keys(), ...now.keys()])) {
        const [a, b] = [old.get(requirement), now.get(requirement)];
        if (changed.has(requirement)) {
          if (a) told.concerned.before++;
          if (b) told.concerned.after++;
        }
        if (b?.basis === 'unjudged' && a?.basis !== 'unjudged') told.notJudged++;
        if (same(a, b)) continue;
        const [state, next] = [stateOf(a, on), stateOf(b, on)];
        if (!a) told.moved.gained++;
        else if (!b) told.moved.lost++;
        else if ((b.dueOn ?? Number.NEGATIVE_INFINITY) < (a.dueOn ?? Number.NEGATIVE_INFINITY))
          told.moved.earlier++;
        else if ((b.dueOn ?? Number.NEGATIVE_INFINITY) > (a.dueOn ?? Number.NEGATIVE_INFINITY))
          told.moved.later++;
        count(a?.dueOn ?? null, 'before');
        count(b?.dueOn ?? null, 'after');
        const becomesLate = LATE.has(next) && !LATE.has(state);
        if (becomesLate) told.becomesLate++;
        if (LATE.has(state) && !LATE.has(next)) told.noLongerLate++;
        const list = becomesLate ? late : other;
        if (list.length < SHOWN)
          list.push({
            item: thing.id,
            number: thing.number,
            place: thing.place,
            requirement,
            was: { state, dueOn: textOrNull(a?.dueOn ?? null) },
            becomes: { state: next, dueOn: textOrNull(b?.dueOn ?? null) },
          });
      }
    }
  }
  told.months = [...months].sort(([a], [b]) => (a < b ? -1 : 1)).map(([month, n]) => ({ month, ...n }));
  told.changes = [...late, ...other].slice(0, SHOWN);
  return told;
}

function changedRequirements(
  was: Book['versions'] extends ReadonlyMap<string, infer V> ? V : never,
  becomes: typeof was,
): Set<string> {
  const texts = (list: typeof was) =>
    new Map(list.map(v => [v.requirement.id, JSON.stringify(v.requirement)]));
  const [a, b] = [texts(was), texts(becomes)];
  return new Set([...a.keys(), ...b.keys()].filter(id => a.get(id) !== b.get(id)));
}

/** Whether two rows say the same of a thing, whatever version says it. */
function same(a: DueRow | undefined, b: DueRow | undefined): boolean {
  if (!a || !b) return a === b;
  return (
    a.basis === b.basis &&
    a.dueOn === b.dueOn &&
    a.dueTo === b.dueTo &&
    a.lateOn === b.lateOn &&
    a.warnOn === b.warnOn
  );
}

function stateOf(row: DueRow | undefined, on: Day): DueState {
  return row ? stateOn(row, on) : 'not applicable';
}

/** The living things of a family with what their due rows need, in one sweep over their facts. */
function* thingsOf(
  db: Db,
  family: string,
): Generator<{ thing: ThingRow; subject: ReturnType<typeof subjectOf> }> {
  type Fact = RecordFact | OwedFact | MeterFact;
  const facts = new Map<number, Fact[]>();
  for (const row of prepared(
    db,
    `SELECT f.thing, f.id, f.n, f.kind, f.effective, f.clock, f.device, f.recorded_at AS recordedAt, f."values"
     FROM items i JOIN facts f ON f.thing = i.key
     WHERE i.family = ? AND ${LIVING} AND f.voided_at IS NULL AND f.kind IN ('record', 'owed', 'meter')`,
  ).iterate(family) as Iterable<{ thing: number; values: string }>) {
    const { thing, values, ...rest } = row;
    const fact = { ...rest, values: JSON.parse(values) } as unknown as Fact;
    const known = facts.get(thing);
    if (known) known.push(fact);
    else facts.set(thing, [fact]);
  }
  for (const thing of prepared(
    db,
    `SELECT i.key, t.id, i.family, i.number, i.attributes, i.assignment, p.path AS place
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     WHERE i.family = ? AND ${LIVING} ORDER BY i.number_sort`,
  ).iterate(family) as Iterable<ThingRow>) {
    const attributes = JSON.parse(thing.attributes) as Values;
    yield { thing, subject: subjectOf(attributes, thing.assignment, facts.get(thing.key) ?? []) };
  }
}
