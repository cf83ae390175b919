/** The writing door: a list of deeds becomes entries, facts and caches in one transaction, or nothing does. */
import { z } from 'zod';
import { dayText } from '../../domain/calendar/day.ts';
import type { When } from '../../domain/calendar/when.ts';
import { type Grant, isEntitled, MAY } from '../../domain/people/entitlements.ts';
import { photosIn } from '../../domain/photos.ts';
import { SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { ACTIONS } from '../actions/index.ts';
import { type Action, type Look, type Refusal, refuse } from '../actions/types.ts';
import type { ActAnswer, ActRequest, Answer, Deed, Problem, Via } from '../api.ts';
import { applyEntry, batchName, nothingTouched, thingKey } from '../caches/apply.ts';
import { forgetBook } from '../caches/book.ts';
import { deriveTouched } from '../caches/derive.ts';
import { factsOf, memberOf } from '../caches/facts.ts';
import { expandCommit, type PreparedCommit, prepareCommit } from '../files/import/commit.ts';
import { SheetError } from '../files/sheet/index.ts';
import { append, readWriting } from '../ledger/append.ts';
import type { Attachment } from '../ledger/attachments.ts';
import { notPortable } from '../ledger/entry.ts';
import { keepPhotos, photosNotHere, readPhotos, withPhotosNamed } from './act-photos.ts';
import { type Clock, dayIn } from './clock.ts';
import { lookInto } from './look.ts';
import { checkPin, countWrongPin, newPinProblem, setPin } from './pins.ts';
import { type Db, one } from './statements.ts';

/** Thrown inside the transaction so that it rolls back whole. */
class Refused extends Error {
  readonly problems: Problem[];
  constructor(problems: Problem[]) {
    super(problems[0]?.message ?? 'Refused.');
    this.problems = problems;
  }
}

/**
 * Do a list of deeds: one transaction, one batch.
 * @returns what was written, or every problem of the first deed that is refused; then nothing was written
 */
export function act(
  db: Db,
  clock: Clock,
  request: Prepared,
  progress?: (done: number, total: number) => void,
): Answer<ActAnswer> {
  try {
    const photos = photosSent(request);
    return { ok: true, value: db.transaction(() => write(db, clock, request, photos, progress)).immediate() };
  } catch (error) {
    forgetBook(db);
    if (error instanceof Refused) {
      const [first, ...rest] = error.problems;
      if (first?.code === 'wrong PIN' && request.by !== null) countWrongPin(db, request.by, clock.now());
      if (first) return { ok: false, error: first, errors: [first, ...rest] };
    }
    throw error;
  }
}

/** An act whose sheet, where it brings one, has been read. */
export interface Prepared extends ActRequest {
  commit?: PreparedCommit;
}

/**
 * Read the sheet of an act that brings one, before its transaction begins.
 * @returns the act ready to be written, or what is wrong with its file
 */
export async function prepare(request: ActRequest): Promise<Answer<Prepared>> {
  const commits = request.deeds.filter(d => d.action === 'import.commit');
  const [commit] = commits;
  if (!commit) return { ok: true, value: request };
  const problem = (code: string, message: string, todo: string, field: string | null): Answer<never> => ({
    ok: false,
    error: { code, message, todo, field, deed: 0 },
  });
  if (request.deeds.length > 1)
    return problem(
      'one at a time',
      'A sheet is brought in by itself.',
      'Send import.commit alone.',
      'action',
    );
  try {
    return { ok: true, value: { ...request, commit: await prepareCommit(commit.body) } };
  } catch (error) {
    if (error instanceof SheetError) return problem('not a sheet', error.wrong, error.todo, 'bytes');
    if (error instanceof z.ZodError) {
      const [first] = schemaRefusals(error);
      return first
        ? problem(first.code, first.message, first.todo, first.field)
        : problem('bad value', 'The deed has another shape.', 'See the help.', null);
    }
    throw error;
  }
}

function photosSent({ attachments = [] }: ActRequest): Attachment[] {
  const { photos, problem } = readPhotos(attachments);
  if (problem) throw new Refused([{ ...problem, deed: 0 }]);
  return photos;
}

function write(
  db: Db,
  clock: Clock,
  request: Prepared,
  photos: readonly Attachment[],
  progress?: (done: number, total: number) => void,
): ActAnswer {
  const now = clock.now();
  const zone = one<{ zone: string }>(db, 'SELECT zone FROM departments')?.zone;
  const [first] = request.deeds;
  const opening = first?.action === 'department.open' ? String(first.body.zone ?? 'UTC') : undefined;
  const today = clock.today ?? dayIn(zone ?? safeZone(opening), now);
  const deeds = request.commit ? expandCommit(db, request.commit, today) : withOpeningBook(request.deeds);
  const touched = nothingTouched();
  const look = lookInto(db, today, touched);
  const shown = identityShown(db, request, now);
  // What an accepted sheet says is told through the sheet, whoever accepted it.
  const via = request.commit ? 'import' : shown;
  const writing = readWriting(db);
  const ids: string[] = [];
  const photosNamed = new Set<string>();
  let by = request.by;
  let batch: string | null = null;
  // Who acts, as known until a deed of the list may have changed it.
  let member: Member | null | undefined;
  deeds.forEach((deed, place) => {
    const fail = (refusals: Refusal[]): never => {
      throw new Refused(refusals.map(r => ({ ...r, deed: place })));
    };
    const known = ACTIONS.get(deed.action) ?? fail(unknownAction(deed.action));
    const told = withPhotosNamed(db, resolveRefs(known, deed.body, ids), photos);
    if (told.refusals.length > 0) fail(told.refusals);
    const parsed = known.schema.safeParse(
      withToday(known, told.body, dayText(today)),
      // A fraction where a whole number is wanted is told from a field that is missing by what came in.
      { reportInput: true },
    );
    const body = afterThatDay(
      known,
      look,
      (parsed.success ? parsed.data : fail(schemaRefusals(parsed.error))) as Record<string, unknown>,
    );
    if (member === undefined) member = memberNamed(db, by);
    const mayNot = entitlementRefusal(by, member, known, known.family?.(look, body) ?? null);
    if (mayNot) fail([mayNot]);
    const refusals = [
      ...known.check(look, body, { fromSheet: via === 'import', by }),
      ...photosNotHere(db, body, photos),
    ];
    if (refusals.length > 0) fail(refusals);
    for (const { sha256 } of photosIn(body)) photosNamed.add(sha256);
    const weak = known.name === 'member.pin' ? newPinProblem(deed.secret) : null;
    if (weak) fail([weak]);
    const unwritable = notPortable(body);
    if (unwritable)
      fail([refuse('bad value', `${unwritable.path} ${unwritable.wrong}`, unwritable.todo, unwritable.path)]);
    const entry = append(
      db,
      writing,
      { by, via, batch, action: known.name, v: known.v, body: known.complete?.(look, body) ?? body },
      now,
    );
    batch ??= entry.id;
    ids.push(entry.id);
    const drafts = applyEntry(db, entry, touched);
    look.changed(drafts);
    if (known.name === 'void' || drafts.some(f => f.thing === by)) member = undefined;
    if (deed.secret !== undefined && known.name === 'member.pin')
      setPin(db, String(body.member), deed.secret);
    // The member that an opening brings acts in what follows it.
    if (known.name === 'department.open') {
      by = `${entry.id}.m`;
      member = undefined;
    }
    if (place % 500 === 499) progress?.(place + 1, deeds.length);
  });
  const left = keepPhotos(db, photos, photosNamed, now);
  if (left) throw new Refused([{ ...left, deed: 0 }]);
  if (batch === null && request.commit) return { batch: '', entries: [], touched: [] };
  if (batch === null)
    throw new Refused([
      { ...refuse('no deed', 'Nothing was asked for.', 'Give at least one deed.'), deed: 0 },
    ]);
  return { batch: batchName(batch), entries: ids, touched: deriveTouched(db, touched) };
}

/**
 * A deed on a thing that names a day alone comes after whatever was told of that thing on that day with a time: nobody
 * brings back in the afternoon for the morning, and a day alone would sort before every time of it.
 */
function afterThatDay(action: Action, look: Look, body: Record<string, unknown>): Record<string, unknown> {
  const { item, on } = body;
  if (action.refs[0] !== 'item' || typeof item !== 'string' || typeof on !== 'string' || on.length !== 10)
    return body;
  const last = look.lastToldOn(item, on as When);
  return last === null ? body : { ...body, on: last };
}

/** Opening a department adopts the shipped book in the same batch, in full, unless it asks for an empty one. */
function withOpeningBook(deeds: readonly Deed[]): readonly Deed[] {
  const [first, ...rest] = deeds;
  if (first?.action !== 'department.open' || first.body.book === 'empty') return deeds;
  const on = first.body.on === undefined ? {} : { on: first.body.on };
  return [
    first,
    { action: 'rulebook.adopt', body: { requirements: SHIPPED_REQUIREMENTS, from: 'opening', ...on } },
    ...rest,
  ];
}

function safeZone(zone: string | undefined): string {
  try {
    new Intl.DateTimeFormat('en-US', { timeZone: zone ?? 'UTC' });
    return zone ?? 'UTC';
  } catch {
    return 'UTC';
  }
}

/** How the member showed who they are; a PIN that is set must be right. */
function identityShown(db: Db, request: Prepared, now: number): Via {
  // Only an accepted sheet is told through a sheet; nobody can claim it.
  const claimed = request.via === 'import' ? 'claimed' : (request.via ?? 'claimed');
  if (request.by === null) return claimed;
  // A draft takes no effect until it is signed; whoever gives a PIN all the same must give the right one.
  const isDraft =
    !request.commit && request.deeds.length > 0 && request.deeds.every(d => ACTIONS.get(d.action)?.isDraft);
  if (isDraft && request.pin === undefined) return claimed === 'PIN' ? 'claimed' : claimed;
  const wrong = checkPin(db, request.by, request.pin, claimed, now);
  if (wrong.problem) throw new Refused([wrong.problem]);
  return wrong.via;
}

type Member = NonNullable<ReturnType<typeof memberOf>>;

function memberNamed(db: Db, id: string | null): Member | null {
  const key = id === null ? undefined : thingKey(db, id);
  return key === undefined ? null : memberOf(factsOf(db, key));
}

function entitlementRefusal(
  by: string | null,
  member: Member | null,
  action: Action,
  family: string | null,
): Refusal | null {
  if (action.name === 'department.open') return null;
  if (by === null)
    return refuse(
      'nobody',
      'Nobody is named who does this.',
      'Say who acts: a member of the department.',
      'by',
    );
  if (!member || !Array.isArray(member.grants))
    return refuse(
      'not a member',
      `${by} is not a member.`,
      'Say who acts: a member of the department.',
      'by',
    );
  if (isEntitled(member.grants as Grant[], action.entitlement, family)) return null;
  return refuse(
    'not entitled',
    `${member.name} may not ${MAY[action.entitlement]}${family === null ? '' : ` for ${family}`}, which this needs (${action.name}).`,
    'Let somebody sign who may, or ask an administrator to allow it.',
    'by',
  );
}

/** Replace `&N` and `&N.suffix` in the fields that name things by the ids of earlier deeds of the list. */
function resolveRefs(
  action: Action,
  body: Record<string, unknown>,
  ids: readonly string[],
): Record<string, unknown> {
  const resolved = { ...body };
  for (const field of action.refs) {
    const value = resolved[field];
    const m = typeof value === 'string' ? /^&(\d+)(\.\w+)?$/.exec(value) : null;
    const id = m ? ids[Number(m[1])] : undefined;
    if (m && id !== undefined) resolved[field] = `${id}${m[2] ?? ''}`;
  }
  return resolved;
}

/** A deed without a date was done today; the ledger says so in full, so that a replay needs no clock. */
function withToday(action: Action, body: Record<string, unknown>, today: string): Record<string, unknown> {
  const shape = (action.schema as unknown as { shape?: Record<string, unknown> }).shape;
  return shape && 'on' in shape && body.on === undefined ? { ...body, on: today } : body;
}

function unknownAction(name: string): Refusal[] {
  return [
    refuse('unknown action', `There is no action ${name}.`, 'See the list of actions in the help.', 'action'),
  ];
}

/** Zod's issues in our words: which field, what is wrong, what to do. */
function schemaRefusals(error: z.ZodError): Refusal[] {
  return error.issues.map(issue => {
    const field = issue.path.join('.') || null;
    if (issue.code === 'unrecognized_keys')
      return refuse(
        'unknown field',
        `There is no field ${issue.keys.join(', ')} here.`,
        'Leave it out, or see the shape in the help.',
        issue.keys[0] ?? field,
      );
    const missing = issue.code === 'invalid_type' && issue.input === undefined;
    return refuse(
      missing ? 'missing' : 'bad value',
      missing
        ? `${field} is missing.`
        : `${field ?? 'The body'} ${issue.message.replace(/^Invalid/, 'has an invalid')}`,
      missing ? 'Fill it in.' : 'Correct it and try again.',
      field,
    );
  });
}
