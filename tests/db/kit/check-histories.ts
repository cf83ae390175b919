/** Steps of random histories on carry lists, check-offs and defects. */
import type { Deed } from '../../../db/api.ts';
import { carryListOf, checkoffOf } from '../../../db/caches/checkoffs.ts';
import { factsOf } from '../../../db/caches/facts.ts';
import { all, type Db } from '../../../db/store/statements.ts';
import { type PlaceMark, placesOf } from '../../../domain/checkoffs/marks.ts';

interface Numbers {
  a: number;
  b: number;
  c: number;
}

type Kind = 'carry' | 'checkoff' | 'mark' | 'sign' | 'countersign' | 'setAside' | 'defect' | 'closeDefect';

const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];

const things = (db: Db, kind: string): { key: number; id: string }[] =>
  all(
    db,
    `SELECT t.key, t.id FROM things t WHERE t.kind = ? AND EXISTS (SELECT 1 FROM facts f WHERE f.thing = t.key
       AND f.voided_at IS NULL) ORDER BY t.key`,
    kind,
  );

/** A deed of one of these kinds against the department as it is, or null where there is nothing to do it on. */
export function checkDeedOf(db: Db, kind: Kind, s: Numbers, on: string): Deed | null {
  const deed = (action: string, body: Record<string, unknown>): Deed => ({ action, body });
  const holders = [
    ...things(db, 'unit'),
    ...all<{ key: number; id: string }>(
      db,
      `SELECT p.key, t.id FROM places p JOIN things t ON t.key = p.key WHERE p.kind = 'rig' ORDER BY p.key`,
    ),
  ];
  const holder = pick(holders, s.a % 2);
  const lines = holder ? carryListOf(factsOf(db, holder.key)) : [];
  // The latest ones, so that what was begun is gone on with.
  const checkoff = pick([...things(db, 'check-off')].reverse(), s.b % 2);
  const marked = [...things(db, 'check-off')].reverse().find(c => {
    const known = checkoffOf(db, c.key);
    return known !== null && known.signed === null && known.marks.length > 0;
  });
  const item = pick(things(db, 'item'), s.c)?.id;
  const line = pick(lines, s.b);
  switch (kind) {
    case 'carry':
      return holder
        ? deed('carry.set', {
            of: holder.id,
            lines: [
              {
                ...(line && s.c % 2 === 0 ? { line: line.line } : {}),
                what: `Line ${s.b % 5}`,
                family: s.c % 3 === 0 ? 'hose' : null,
                qty: 1 + (s.a % 4),
                min: 1,
                place: `place ${s.b % 3}`,
                critical: s.c % 2 === 0,
                verify: s.c % 4 === 0 ? 'operated' : 'sight',
              },
            ],
            end: line && s.c % 7 === 1 ? [line.line] : [],
            on: on.length === 10 ? on : undefined,
          })
        : null;
    case 'checkoff':
      return holder && lines.length > 0
        ? deed('checkoff.start', { of: holder.id, started: `${SIGNED}T07:10` })
        : null;
    case 'mark': {
      const known = checkoff ? checkoffOf(db, checkoff.key) : null;
      const of =
        known &&
        things(db, 'unit')
          .concat(holders)
          .find(h => h.id === known.of);
      if (!checkoff || !known || !of) return null;
      const asked = carryListOf(factsOf(db, of.key));
      const marks = placesOf(asked).map((place, i): PlaceMark => {
        const first = asked.find(l => l.place === place);
        const wrong = (s.c + i) % 3 === 0;
        return {
          place,
          at: pick(things(db, 'place'), s.a + i)?.id ?? null,
          present: true,
          exceptions:
            wrong && first
              ? [
                  {
                    line: first.line,
                    item: item ?? null,
                    kind: 'missing',
                    short: null,
                    reading: null,
                    note: 'Not there',
                    next: item === undefined ? 'defect' : s.b % 2 === 0 ? 'report missing' : 'tag out',
                    with: null,
                    to: null,
                    defect: s.b % 5 === 0 ? (pick(things(db, 'defect'), s.a)?.id ?? null) : null,
                  },
                ]
              : [],
          operated: asked
            .filter(l => l.place === place)
            .map(l => ({ line: l.line, item: item ?? null, works: true, reading: null })),
          seen: item === undefined ? [] : [item],
          leftOut: null,
        };
      });
      return marks.length > 0 ? deed('checkoff.mark', { checkoff: checkoff.id, marks, on }) : null;
    }
    case 'sign':
      return marked ? deed('checkoff.sign', { checkoff: marked.id, finished: `${SIGNED}T23:30`, on }) : null;
    case 'countersign':
      return checkoff ? deed('checkoff.countersign', { checkoff: checkoff.id, on }) : null;
    case 'setAside':
      return checkoff && s.c % 4 === 0
        ? deed('checkoff.setAside', { checkoff: checkoff.id, why: 'Wrong rig', on })
        : null;
    case 'defect':
      return holder
        ? deed('defect.report', {
            of: holder.id,
            ...(line ? { line: line.line } : {}),
            ...(item && s.c % 2 === 0 ? { item } : {}),
            kind: 'low',
            note: 'Low',
            on,
          })
        : null;
    case 'closeDefect': {
      const defect = pick(things(db, 'defect'), s.b)?.id;
      return defect ? deed('defect.close', { defect, how: 'restocked', on }) : null;
    }
  }
}

/** A day that was before every history of the tests ends. */
const SIGNED = '2020-01-02';
