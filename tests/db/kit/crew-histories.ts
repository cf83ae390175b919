/** Steps of random histories on whole-rig swaps and on what is read after an incident. */
import type { Deed } from '../../../db/api.ts';
import { readBook } from '../../../db/caches/book.ts';
import { differenceOf } from '../../../db/caches/changeovers.ts';
import { incidentSeen } from '../../../db/caches/incidents.ts';
import { ridesNow } from '../../../db/caches/whereabouts.ts';
import { all, type Db } from '../../../db/store/statements.ts';
import type { When } from '../../../domain/calendar/when.ts';

type Kind = 'changeover' | 'incident' | 'readAfter' | 'settleIncident';
type Numbers = { a: number; b: number; c: number };

const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];
const idsOf = (db: Db, sql: string) => all<{ id: string }>(db, sql).map(t => t.id);

/** A deed of one of these kinds against the department as it is; null where nothing can be made of it. */
export function crewDeedOf(db: Db, kind: Kind, s: Numbers, on: string): Deed | null {
  const time = on.length === 16 ? on : `${on}-01-01`.slice(0, 10).concat('T09:10');
  return kind === 'changeover' ? changeoverOf(db, s, time) : incidentOf(db, kind, s, time);
}

function changeoverOf(db: Db, s: Numbers, on: string): Deed | null {
  const rides = ridesNow(db).filter(r => r.until === null);
  const ride = pick(rides, s.a);
  const ridden = new Set(rides.map(r => r.rig));
  const rigs = idsOf(
    db,
    "SELECT t.id FROM places p JOIN things t ON t.key = p.key WHERE p.kind = 'rig' ORDER BY t.id",
  ).filter(id => !ridden.has(id));
  const to = pick(rigs, s.b);
  // Without a rig that stands by there is nothing to change to.
  if (!ride || to === undefined) return { action: 'rig.add', body: { name: `Reserve ${s.a % 4}` } };
  const leg = { unit: ride.unit, from: ride.rig, to, on: on as When };
  const { things } = differenceOf(db, leg, ridesNow(db));
  const stays = pick(
    things.filter(t => t.becomes === 'moves'),
    s.c,
  );
  return {
    action: 'rig.changeover',
    body: { ...leg, except: stays && s.c % 2 === 0 ? [{ item: stays.thing.item, why: 'Forgotten' }] : [] },
  };
}

function incidentOf(db: Db, kind: Kind, s: Numbers, on: string): Deed {
  const unit = pick(idsOf(db, 'SELECT t.id FROM units u JOIN things t ON t.key = u.key ORDER BY t.id'), s.a);
  const open: Deed = {
    action: 'incident.open',
    body: { name: `Fire ${s.a % 9}`, units: [unit], families: ['hose', 'cylinder'], on },
  };
  const latest = idsOf(db, "SELECT id FROM things WHERE kind = 'incident' ORDER BY key DESC LIMIT 2");
  const incident = pick(latest, s.b);
  const seen = incident === undefined ? null : incidentSeen(db, incident, readBook(db));
  if (incident === undefined || !seen || kind === 'incident') return open;
  const day = seen.told.on.slice(0, 10);
  const { believed } = seen.pickup;
  if (kind === 'settleIncident' && seen.readings.length > 0)
    return {
      action: 'incident.settle',
      body: {
        incident,
        missing: believed
          .filter(b => b.is === 'missing')
          .map((b, i) => ({ item: b.thing.item, as: (s.c + i) % 3 === 0 ? 'leave' : 'missing' })),
        on: day,
      },
    };
  const rig = pick(seen.told.rigs, s.c)?.rig;
  const numbers = [...new Set([`N-${s.a % 4}`, `N-${s.b % 4}`, `X-${s.c % 3}`])];
  return {
    action: 'incident.found',
    body: { incident, rig, reads: numbers.map((number, i) => ({ number, used: i === 0 })), on: day },
  };
}
