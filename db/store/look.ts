/** What a check may look at, read from inside the running transaction. */
import type { Day } from '../../domain/calendar/day.ts';
import { showWhen } from '../../domain/calendar/show.ts';
import type { When } from '../../domain/calendar/when.ts';
import { isSettledDefect, OUT_OF_SERVICE } from '../../domain/checkoffs/defect.ts';
import { type Derived, derive } from '../../domain/derive/thing.ts';
import { inOrder } from '../../domain/facts.ts';
import type { FactDraft, Look, Voiding } from '../actions/types.ts';
import { NAMED, named, type Touched, thingKey } from '../caches/apply.ts';
import { readBook } from '../caches/book.ts';
import { differenceOf } from '../caches/changeovers.ts';
import { carryListOf, checkoffOf, defectOf } from '../caches/checkoffs.ts';
import {
  asItemFacts,
  factsOf,
  factsUntil,
  identityOf,
  memberOf,
  type PlainFact,
  tellerOf,
} from '../caches/facts.ts';
import { incidentSeen } from '../caches/incidents.ts';
import { noticeSeen } from '../caches/notices.ts';
import { schedulesOf } from '../caches/schedules.ts';
import { swapOf } from '../caches/swaps.ts';
import { ridesNow } from '../caches/whereabouts.ts';
import { kitLook } from './look-kits.ts';
import { stockLook } from './look-stock.ts';
import { all, type Db, one } from './statements.ts';

/**
 * The department as the running act sees it. Things touched by earlier deeds of the act are derived from their
 * facts; the caches still show them as they were, so lookups by number and name also search what is new.
 */
export function lookInto(
  db: Db,
  today: Day,
  touched: Touched,
): Look & { changed(facts: readonly FactDraft[]): void } {
  const derived = new Map<string, Derived | null>();
  const item = (id: string): Derived | null => {
    let known = derived.get(id);
    if (known === undefined) {
      const key = thingKey(db, id);
      known = key === undefined ? null : derive(asItemFacts(factsOf(db, key)), readBook(db));
      derived.set(id, known);
    }
    return known;
  };
  const identity = (id: string, kind: string): Record<string, unknown> | null => {
    const thing = one<{ key: number; kind: string }>(db, 'SELECT key, kind FROM things WHERE id = ?', id);
    return thing?.kind === kind ? identityOf(factsOf(db, thing.key)) : null;
  };
  /** Facts of a kind of a thing, the one that counts last. */
  const factsOfKind = (id: string, kind: string): PlainFact[] => {
    const key = thingKey(db, id);
    return (key === undefined ? [] : factsOf(db, key)).filter(f => f.kind === kind).sort(inOrder);
  };
  /** Ids of things of a kind that this act touched. */
  const touchedOf = (kind: string): string[] =>
    [...touched.things].flatMap(key => {
      const thing = one<{ id: string; kind: string }>(db, 'SELECT id, kind FROM things WHERE key = ?', key);
      return thing?.kind === kind ? [thing.id] : [];
    });
  const newNumbers = new Map<string, Set<string>>();
  return {
    today,
    get department() {
      const row = one<{ id: string; key: number }>(
        db,
        "SELECT id, key FROM things WHERE kind = 'department' ORDER BY key",
      );
      const known = row && identityOf(factsOf(db, row.key));
      return row && known ? { id: row.id, name: String(known.name), zone: String(known.zone) } : null;
    },
    get book() {
      return readBook(db);
    },
    kindOf(id) {
      const thing = one<{ key: number; kind: string }>(db, 'SELECT key, kind FROM things WHERE id = ?', id);
      // A thing whose every fact was voided is not there any more.
      return thing && one(db, 'SELECT 1 FROM facts WHERE thing = ? AND voided_at IS NULL', thing.key)
        ? thing.kind
        : null;
    },
    item,
    itemAsOf(id, at) {
      const key = thingKey(db, id);
      return key === undefined ? null : derive(asItemFacts(factsUntil(db, key, at)), readBook(db));
    },
    lastToldOn: (thing, day) =>
      one<{ effective: When | null }>(
        db,
        `SELECT max(f.effective) AS effective FROM things t JOIN facts f ON f.thing = t.key
         WHERE t.id = ? AND f.voided_at IS NULL AND f.effective LIKE ? || 'T%'`,
        thing,
        day,
      )?.effective ?? null,
    withNumber(family, number) {
      const cached = all<{ id: string }>(
        db,
        `SELECT t.id FROM items i JOIN things t ON t.key = i.key
         WHERE i.family = ? AND i.number = ? AND i.condition NOT IN ('retired', 'disposed')`,
        family,
        number,
      ).map(r => r.id);
      const fresh = newNumbers.get(`${family} ${number}`) ?? new Set();
      return [...new Set([...cached, ...fresh])].filter(id => {
        const known = item(id);
        return known?.number === number && known.condition !== 'retired' && known.condition !== 'disposed';
      });
    },
    lyingIn(place, family) {
      const cached = all<{ id: string }>(
        db,
        `SELECT t.id FROM items i JOIN things t ON t.key = i.key
         WHERE i.place_key = (SELECT key FROM things WHERE id = ?) AND i.family = ? ORDER BY t.id`,
        place,
        family,
      ).map(r => r.id);
      return [...new Set([...cached, ...touchedOf('item')])].filter(id => {
        const known = item(id);
        return (
          known?.family === family &&
          known.place?.place === place &&
          known.condition !== 'retired' &&
          known.condition !== 'disposed'
        );
      });
    },
    agency(id) {
      const agency = identity(id, 'agency');
      return agency ? { name: String(agency.name), rin: (agency.rin as string | null) ?? null } : null;
    },
    rig: id => identity(id, 'place')?.kind === 'rig',
    rigCondition(rig) {
      const last = factsOfKind(rig, 'rig condition').at(-1);
      return last ? { condition: String(last.values.condition), effective: last.effective } : null;
    },
    lastRide(rig, unit) {
      const ofUnit = all<{ effective: When }>(
        db,
        `SELECT f.effective FROM fact_refs r JOIN facts f ON f.key = r.fact
         WHERE r.thing = ? AND f.kind = 'ride' AND f.voided_at IS NULL`,
        unit,
      ).map(f => f.effective);
      return [...ofUnit, ...factsOfKind(rig, 'ride').map(f => f.effective)].sort().at(-1) ?? null;
    },
    readingsAround(thing, meter, at) {
      const read = factsOfKind(thing, 'meter').filter(f => f.values.meter === meter);
      const told = (f: PlainFact) => ({
        reading: Number(f.values.reading),
        on: f.effective,
        replaced: f.values.meterReplaced === true,
      });
      const before = read.findLast(f => f.effective <= at);
      const after = read.find(f => f.effective > at);
      return { before: before ? told(before) : null, after: after ? told(after) : null };
    },
    carryList(of) {
      const key = thingKey(db, of);
      return key === undefined ? [] : carryListOf(factsOf(db, key));
    },
    riddenBy(unit) {
      return (
        one<{ id: string }>(
          db,
          `SELECT rt.id FROM units u JOIN things t ON t.key = u.key JOIN places p ON p.unit = u.key AND p.kind = 'rig'
           JOIN things rt ON rt.key = p.key WHERE t.id = ?`,
          unit,
        )?.id ?? null
      );
    },
    rides: () => ridesNow(db),
    difference(leg) {
      const fresh = touchedOf('item').map(known => [known, item(known)] as const);
      return differenceOf(db, leg, ridesNow(db), new Map(fresh));
    },
    schedules(of) {
      const key = thingKey(db, of);
      return key === undefined ? [] : schedulesOf(factsOf(db, key));
    },
    checkoff(id) {
      const key = thingKey(db, id);
      return key === undefined ? null : checkoffOf(db, key);
    },
    repairedBy(id) {
      const repairs = factsOfKind(id, 'owed').filter(f => String(f.values.because).startsWith('repaired'));
      const last = repairs.at(-1);
      const back = factsOfKind(id, 'condition').findLast(f => f.values.condition === 'serviceable');
      if (!last || (back && inOrder(last, back) < 0)) return null;
      return tellerOf(db, last.id)?.by ?? null;
    },
    swap(id) {
      const key = thingKey(db, id);
      return key === undefined ? null : swapOf(factsOf(db, key));
    },
    defect(id) {
      const key = thingKey(db, id);
      const known = key === undefined ? null : defectOf(factsOf(db, key));
      if (!known) return null;
      const thing = known.item === null ? null : item(known.item);
      const now = thing && { condition: thing.condition, since: thing.conditionSince };
      const isClosed = isSettledDefect(known, now);
      const isOut = !isClosed && thing !== null && OUT_OF_SERVICE.has(thing.condition);
      return {
        closed: isClosed,
        out: isOut && thing ? { number: thing.number, condition: thing.condition } : null,
      };
    },
    notice(id) {
      // A rig that the act touched is a place; both are looked at as they are now and not as the caches have them.
      const fresh = [...touchedOf('item'), ...touchedOf('place')].map(known => [known, item(known)] as const);
      return noticeSeen(db, id, new Map(fresh));
    },
    incident(id) {
      const fresh = touchedOf('item').map(known => [known, item(known)] as const);
      return incidentSeen(db, id, readBook(db), new Map(fresh));
    },
    ...stockLook(db, () => touchedOf('stock')),
    ...kitLook(db, item, () => ({ kits: touchedOf('item'), templates: touchedOf('kit template') })),
    noteClosed(note) {
      const key = thingKey(db, note);
      return key !== undefined && factsOf(db, key).some(f => f.kind === 'closed');
    },
    memberNumbers() {
      const numbers = new Set(all<{ number: string }>(db, 'SELECT number FROM members').map(m => m.number));
      for (const id of touchedOf('member')) {
        const member = memberOf(factsOf(db, thingKey(db, id) ?? -1));
        if (member) numbers.add(member.number);
      }
      return numbers;
    },
    memberNumber(id) {
      const key = thingKey(db, id);
      const member = key === undefined ? null : memberOf(factsOf(db, key));
      return member ? String(member.number) : null;
    },
    placeUnder(id) {
      const under = identity(id, 'place')?.under ?? item(id)?.place?.place;
      return typeof under === 'string' ? under : null;
    },
    placeNamed(under, name) {
      const wanted = name.toLowerCase();
      const parent = under === null ? null : thingKey(db, under);
      const cached = all<{ id: string; name: string }>(
        db,
        // Stations, rigs and places of the department itself stand beside one another, whatever they stand under.
        under === null
          ? `SELECT t.id, p.name FROM places p JOIN things t ON t.key = p.key WHERE p.parent IS NULL OR p.kind = 'rig'`
          : 'SELECT t.id, p.name FROM places p JOIN things t ON t.key = p.key WHERE p.parent = ?',
        ...(under === null ? [] : [parent ?? -1]),
      ).find(p => p.name.toLowerCase() === wanted);
      if (cached) return cached.id;
      return (
        touchedOf('place').find(id => {
          const place = identity(id, 'place');
          const top = place?.kind === 'rig' || place?.under == null;
          return (
            String(place?.name).toLowerCase() === wanted && (under === null ? top : place?.under === under)
          );
        }) ?? null
      );
    },
    voiding: target => voidingOf(db, target),
    familyOfTarget(target) {
      const [first, ...others] = all<{ kind: string; family: string | null }>(
        db,
        `SELECT DISTINCT t.kind, (SELECT i."values" ->> '$.family' FROM facts i
           WHERE i.thing = t.key AND i.kind = 'identity' AND i."values" ->> '$.family' IS NOT NULL) AS family
         FROM facts f JOIN things t ON t.key = f.thing
         WHERE ${NAMED.replaceAll(/\b(id|entry|batch) =/g, 'f.$1 =')}`,
        named(target),
      );
      return first?.kind === 'item' && others.length === 0 ? first.family : null;
    },
    changed(facts) {
      for (const { thing, kind, values } of facts) {
        derived.delete(thing);
        if (kind !== 'identity' || typeof values.number !== 'string') continue;
        const key = `${values.family ?? item(thing)?.family} ${values.number}`;
        newNumbers.set(key, (newNumbers.get(key) ?? new Set()).add(thing));
      }
    },
  };
}

function voidingOf(db: Db, target: string): Voiding {
  const meant = all<{ id: string; entry: string; thing: number; voided: number; kind: string }>(
    db,
    `SELECT id, entry, thing, voided_at IS NOT NULL AS voided, kind FROM facts
     WHERE ${NAMED}`,
    named(target),
  );
  const isVoid = one(db, 'SELECT 1 FROM voids WHERE entry = ?', target) !== undefined;
  const living = meant.filter(f => !f.voided);
  const names = new Set(living.map(f => f.id));
  // What the target brought into being: a thing is named by its entry, with a suffix where the entry brings several.
  const entries = new Set(living.filter(f => f.kind === 'identity').map(f => f.entry));
  const brought = new Set(
    living
      .filter(f => f.kind === 'identity')
      .map(f => one<{ id: string }>(db, 'SELECT id FROM things WHERE key = ?', f.thing)?.id ?? '')
      .filter(id => entries.has(id) || entries.has(id.slice(0, id.lastIndexOf('.')))),
  );
  const dependants = new Set<string>();
  for (const thing of brought) {
    const standing = all<{ id: string; kind: string; effective: string; thing: string }>(
      db,
      `SELECT f.id, f.kind, f.effective, t.id AS thing FROM facts f JOIN things t ON t.key = f.thing
       WHERE f.voided_at IS NULL AND (f.thing = (SELECT key FROM things WHERE id = :thing)
         OR f.key IN (SELECT fact FROM fact_refs WHERE thing = :thing))`,
      { thing },
    );
    for (const fact of standing) {
      if (names.has(fact.id)) continue;
      const label = one<{ number: string }>(
        db,
        'SELECT i.number FROM items i JOIN things t ON t.key = i.key WHERE t.id = ?',
        fact.thing,
      )?.number;
      const day = fact.effective === '0000' ? '' : ` of ${showWhen(fact.effective as When)}`;
      dependants.add(`${fact.kind}${day} on ${label ?? fact.thing} (${fact.id})`);
    }
    const isMember = one(db, "SELECT 1 FROM things WHERE id = ? AND kind = 'member'", thing) !== undefined;
    if (isMember && one(db, 'SELECT 1 FROM entries WHERE by = ?', thing))
      dependants.add(`deeds done by ${thing}`);
  }
  return {
    facts: living.length,
    already: meant.length > 0 && living.length === 0,
    isVoid,
    dependants: [...dependants].slice(0, 20),
  };
}
