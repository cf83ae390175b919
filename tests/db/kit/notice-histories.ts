/** Steps of random histories on recalls and stop-use notices. */
import type { Deed } from '../../../db/api.ts';
import { factsOf } from '../../../db/caches/facts.ts';
import { heldAgainst, noticeOf } from '../../../db/caches/notices.ts';
import { all, type Db } from '../../../db/store/statements.ts';
import { SETTLED_HOW } from '../../../domain/chains/settled.ts';

type Kind = 'notice' | 'settle' | 'expect' | 'closeNotice';

const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];

/** A deed of one of these kinds against the department as it is, or null where there is nothing to do it on. */
export function noticeDeedOf(
  db: Db,
  kind: Kind,
  s: { a: number; b: number; c: number },
  on: string,
): Deed | null {
  const deed = (action: string, body: Record<string, unknown>): Deed => ({ action, body });
  if (kind === 'notice')
    return deed('notice.issue', {
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
  if (!notice) return null;
  const { id, told } = notice;
  const open = heldAgainst(db, told).filter(t => t.standing.open);
  switch (kind) {
    case 'settle': {
      const thing = pick(open, s.b);
      const serial = pick(told.expected, s.b)?.serial;
      if (thing === undefined && serial === undefined) return null;
      return deed('notice.settle', {
        notice: id,
        ...(thing ? { item: thing.item } : { serial }),
        how: s.c % 3 === 0 ? SETTLED_HOW[s.b % SETTLED_HOW.length] : 'not concerned',
        note: 'Looked at',
        on,
      });
    }
    case 'expect':
      return deed('notice.expect', { notice: id, serial: `S${s.b % 12}`, on });
    case 'closeNotice':
      return deed('notice.close', { notice: id, note: 'Done', on });
  }
}
