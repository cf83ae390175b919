/** Who and where: the department in one answer, its places and its members. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { lastDay, parseWhen } from '../../domain/calendar/when.ts';
import type { Grant } from '../../domain/people/entitlements.ts';
import type { DepartmentSummary, MemberLine, PlaceLine, Qualification, Questions } from '../api.ts';
import type { AgencyLine, DepartmentPage } from '../api-desk.ts';
import { factsOf, memberOf } from '../caches/facts.ts';
import { hasPin } from '../store/pins.ts';
import { all, one } from '../store/statements.ts';
import { prefixQuery, textWords } from './due-filter.ts';
import { day, dayAsked, page, textOrNull } from './fields.ts';
import { hasteUnderOf, measuresOf } from './measures.ts';
import { question } from './types.ts';

export const departmentSummary = question({
  name: 'department.summary',
  title: 'The department, its stations, units, rigs and agencies; null where none is open',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer(asking, args): DepartmentSummary | null {
    const { db } = asking;
    const department = one<{ id: string; name: string; zone: string; state: string | null; demo: number }>(
      db,
      'SELECT t.id, d.name, d.zone, d.state, d.demo FROM departments d JOIN things t ON t.key = d.key ORDER BY d.key',
    );
    if (!department) return null;
    const { demo, ...named } = department;
    const count = (sql: string) => one<{ n: number }>(db, sql)?.n ?? 0;
    return {
      ...named,
      measures: measuresOf(db),
      isDemo: demo === 1,
      today: textOrNull(dayAsked(asking, args.on)) as string,
      entries: count('SELECT coalesce(sum(seq), 0) AS n FROM heads'),
      things: count(
        "SELECT count(*) AS n FROM items WHERE condition NOT IN ('retired', 'disposed') AND family <> 'apparatus'",
      ),
      stations: all(
        db,
        `SELECT t.id, p.name FROM places p JOIN things t ON t.key = p.key WHERE p.kind = 'station' ORDER BY p.path_sort`,
      ),
      units: all(
        db,
        `SELECT t.id, u.name, s.name AS station FROM units u JOIN things t ON t.key = u.key
         LEFT JOIN things st ON st.id = u.station LEFT JOIN places s ON s.key = st.key ORDER BY u.name`,
      ),
      rigs: all(
        db,
        `SELECT t.id, p.name, u.name AS unit, s.name AS station FROM places p JOIN things t ON t.key = p.key
         LEFT JOIN units u ON u.key = p.unit LEFT JOIN places s ON s.key = p.station
         WHERE p.kind = 'rig' ORDER BY p.path_sort`,
      ),
      agencies: all(
        db,
        'SELECT t.id, a.name, a.rin FROM agencies a JOIN things t ON t.key = a.key ORDER BY a.name',
      ),
    };
  },
  example: {},
});

/** A RIN is warned of so many days before it expires: time to have it renewed. Common practice, no source. */
const RIN_WARNING_DAYS = 90;

export const departmentPage = question({
  name: 'department.page',
  title:
    'The department’s settings, its agencies with how their RINs stand, and its file; null where none is open',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer(asking, args): DepartmentPage | null {
    const { db } = asking;
    const department = one<{ id: string; name: string; zone: string; state: string | null }>(
      db,
      'SELECT t.id, d.name, d.zone, d.state FROM departments d JOIN things t ON t.key = d.key ORDER BY d.key',
    );
    if (!department) return null;
    const on = dayAsked(asking, args.on);
    return {
      ...department,
      measures: measuresOf(db),
      hasteUnder_s: hasteUnderOf(db),
      agencies: all<Pick<AgencyLine, 'id' | 'name' | 'rin' | 'rinExpires'>>(
        db,
        `SELECT t.id, a.name, a.rin, a.rin_expires AS rinExpires
         FROM agencies a JOIN things t ON t.key = a.key ORDER BY a.name`,
      ).map(agency => ({ ...agency, ...standingOf(agency.rinExpires, on) })),
      file: {
        format: db.pragma('user_version', { simple: true }) as number,
        device: one<{ value: string }>(db, "SELECT value FROM meta WHERE name = 'device'")?.value ?? '',
      },
    };
  },
  example: {},
});

/** A RIN stands up to and on the last day its expiry can mean. */
function standingOf(expires: string | null, on: Day): Pick<AgencyLine, 'rinState' | 'rinDaysLeft'> {
  const when = expires === null ? null : parseWhen(expires);
  if (when === null) return { rinState: null, rinDaysLeft: null };
  const left = lastDay(when) - on;
  return {
    rinState: left < 0 ? 'overdue' : left <= RIN_WARNING_DAYS ? 'due soon' : 'current',
    rinDaysLeft: left,
  };
}

export const placesList = question({
  name: 'places.list',
  title: 'Stations, rigs and the places inside them, with how many things are known to be there',
  schema: z.strictObject({ text: z.string().max(200).optional(), ...page }) as unknown as z.ZodType<
    Questions['places.list']['takes']
  >,
  answer(asking, args): PlaceLine[] {
    const words = textWords(args.text);
    const found = words.length > 0 ? 'WHERE p.key IN (SELECT rowid FROM words WHERE words MATCH :query)' : '';
    return all<PlaceLine>(
      asking.db,
      `SELECT t.id, p.name, p.kind, p.path, pt.id AS parent, u.name AS unit, r.name AS rig, s.name AS station,
         (SELECT count(*) FROM items i WHERE i.place_key = p.key
            AND i.condition NOT IN ('retired', 'disposed')) AS items
       FROM places p JOIN things t ON t.key = p.key LEFT JOIN things pt ON pt.key = p.parent
       LEFT JOIN units u ON u.key = p.unit LEFT JOIN places r ON r.key = p.rig
       LEFT JOIN places s ON s.key = p.station
       ${found} ORDER BY p.path_sort LIMIT :limit OFFSET :offset`,
      {
        ...(words.length > 0 ? { query: words.map(prefixQuery).join(' ') } : {}),
        limit: args.limit ?? 100_000,
        offset: args.offset ?? 0,
      },
    );
  },
  example: { text: 'engine 31' },
});

export const membersList = question({
  name: 'members.list',
  title: 'The members and what each may do',
  schema: z.strictObject({}) as unknown as z.ZodType<Record<string, never>>,
  answer: (asking): MemberLine[] =>
    all<Omit<MemberLine, 'grants' | 'hasPin' | 'qualifications'> & { key: number; grants: string }>(
      asking.db,
      `SELECT m.key, t.id, m.number, m.name, m.position, m.grants FROM members m JOIN things t ON t.key = m.key
       ORDER BY m.name`,
    ).map(({ key, ...m }) => ({
      ...m,
      grants: JSON.parse(m.grants) as Grant[],
      hasPin: hasPin(asking.db, m.id),
      qualifications: (memberOf(factsOf(asking.db, key))?.qualifications ?? []) as Qualification[],
    })),
  example: {},
});
