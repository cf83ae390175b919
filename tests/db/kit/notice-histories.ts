/** Steps of random histories on recalls and stop-use notices. */
import type { Deed } from '../../../db/api.ts';
import { factsOf } from '../../../db/caches/facts.ts';
import { expectedOf, heldAgainst, noticeOf } from '../../../db/caches/notices.ts';
import { all, type Db } from '../../../db/store/statements.ts';
import { contradiction, SETTLED_HOW } from '../../../domain/chains/settled.ts';

type Kind = 'notice' | 'settle' | 'expect' | 'closeNotice';

const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];

/**
 * A deed of one of these kinds against the department as it is. Where there is nothing to do it on, what comes before it
 * is done: a notice is issued, a thing is settled.
 */
export function noticeDeedOf(db: Db, kind: Kind, s: { a: number; b: number; c: number }, on: string): Deed {
  const deed = (action: string, body: Record<string, unknown>): Deed => ({ action, body });
  const issue = deed('notice.issue', {
    title: `Notice ${s.a % 9}`,
    kind: s.b % 2 === 0 ? 'recall' : 'stop use',
    family: s.c % 3 === 0 ? 'cylinder' : 'hose',
    serialFrom: `S${s.a % 7}`,
    ...(s.b % 3 === 0 ? { serialTo: `S${9 + (s.c % 3)}` } : {}),
    issuedBy: 'The maker',
    toDo: 'Look at it',
    on,
  });
  // The latest ones, so that what was issued is gone on with.
  const known = all<{ key: number; id: string }>(
    db,
    "SELECT key, id FROM things WHERE kind = 'notice' ORDER BY key DESC LIMIT 2",
  ).flatMap(({ key, id }) => {
    const told = noticeOf(factsOf(db, key));
    return told ? [{ id, told }] : [];
  });
  const notice = pick(known, s.a);
  if (!notice || kind === 'notice') return issue;
  const { id, told } = notice;
  const things = heldAgainst(db, told);
  const thing = pick(
    things.filter(t => t.standing.open),
    s.b,
  );
  const serial = expectedOf(told, things).find(e => e.open)?.serial;
  if (kind === 'expect' && told.closed === null)
    return deed('notice.expect', { notice: id, serial: `S${7 + (s.b % 3)}`, on });
  if (kind === 'closeNotice' && told.closed === null && thing === undefined && serial === undefined)
    return deed('notice.close', { notice: id, note: 'Done', on });
  if (thing) {
    const hows = SETTLED_HOW.filter(how => contradiction(how, thing.condition) === null);
    return deed('notice.settle', {
      notice: id,
      item: thing.item,
      how: pick(hows, s.c),
      note: 'Looked at',
      on,
    });
  }
  if (serial !== undefined)
    return deed('notice.settle', { notice: id, serial, how: 'cannot be found', note: 'Looked for', on });
  return issue;
}
