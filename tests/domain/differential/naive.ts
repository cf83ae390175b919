/**
 * A second implementation of "what is owed on a day", written from the fact sheets and not from the rule book: its
 * own tables, dates as text, deeds replayed one by one. Slow on purpose.
 */
import { daysOn, earliest, endOf, latest, monthsOn, sameDayOn, tomorrow } from './walk.ts';

export interface Deed {
  on: string;
  what: 'pass' | 'fail' | 'not completed' | 'owes';
  activity: string;
}

export interface Case {
  family: string;
  attributes: Record<string, string | number | boolean>;
  /** In the order in which they were told. */
  deeds: Deed[];
  /** Confirmed permits: months between requalifications, and the life. */
  permits: Record<string, { months: number; life: number | null | 'label' }>;
  /** From when the life of a cylinder ends before its month begins; null: never, '': always. */
  monthStartFrom: string | null;
  /** From when ladders are service-tested every six months instead of twelve; null: never. */
  halfYearFrom: string | null;
}

export interface Owing {
  requirement: string;
  due: string | null;
  state: string;
}

/** Years between requalifications: 49 CFR 180.209(a) Table 1, 180.207(c); 0: not requalified. */
const TABLE: Record<string, number> = {
  ...{
    '3': 5,
    '3A': 5,
    '3AA': 5,
    '3AL': 5,
    '3AX': 5,
    '3AAX': 5,
    '3B': 5,
    '3BN': 5,
    '3E': 0,
    '3HT': 3,
    '3T': 5,
  },
  ...{
    '4AA480': 5,
    '4B': 5,
    '4BA': 5,
    '4BW': 5,
    '4B240ET': 5,
    '4D': 5,
    '4DA': 5,
    '4DS': 5,
    '4E': 5,
    '4L': 0,
  },
  ...{ '8': 10, '8AL': 10, 'UN seamless': 10, 'UN composite': 5, foreign: 5 },
};
/** Years by construction, where no specification is on file: service firms' tables. */
const BUILT: Record<string, number> = { hoop: 3, fiberglass: 3, aramid: 3, carbon: 5, steel: 5, aluminum: 5 };
const WRAPPED = ['hoop', 'fiberglass', 'aramid', 'carbon'];

/** Everything that is owed on a day, by requirement. */
export function owedOn(c: Case, day: string): Owing[] {
  const told = c.deeds.map((deed, i) => ({ ...deed, i }));
  told.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.i - b.i));
  const open = new Set<string>();
  for (const deed of told) {
    if (deed.what === 'fail') open.add(deed.activity);
    if (deed.what === 'pass') open.delete(deed.activity);
  }
  for (const happening of told)
    if (happening.what === 'owes' && !told.some(d => d.what === 'pass' && settles(d, happening)))
      open.add(happening.activity);
  const last = (activities: string[], outcomes: string[]) =>
    told.filter(d => activities.includes(d.activity) && outcomes.includes(d.what)).at(-1)?.on ?? null;
  const asking = { c, day, open, last };
  return rules(asking).sort((a, b) => (a.requirement < b.requirement ? -1 : 1));
}

/** A pass settles a happening only where it surely came after it: "2024" may mean its last day. */
function settles(pass: Deed & { i: number }, happening: Deed & { i: number }): boolean {
  if (pass.activity !== happening.activity) return false;
  if (pass.on === happening.on) return pass.i > happening.i;
  const earliest = `${pass.on}-01-01`.slice(0, 10);
  return earliest > latest(happening.on);
}

interface Asking {
  c: Case;
  day: string;
  open: Set<string>;
  last(activities: string[], outcomes: string[]): string | null;
}

function rules(asking: Asking): Owing[] {
  switch (asking.c.family) {
    case 'hose':
      return hose(asking);
    case 'ladder':
      return ladder(asking);
    case 'pack':
      return pack(asking);
    default:
      return cylinder(asking);
  }
}

/** A state from a due day: late words differ, and soon is so many days ahead. */
function judge(asking: Asking, requirement: string, due: string | null, late: string, soon: number): Owing {
  if (due === null || asking.day > due) return { requirement, due, state: late };
  let at = asking.day;
  for (let i = 0; i <= soon; i += 1, at = tomorrow(at))
    if (at === due) return { requirement, due, state: 'due soon' };
  return { requirement, due, state: 'current' };
}

function retest(requirement: string): Owing {
  return { requirement, due: null, state: 'retest owed' };
}

/** So many months after a partial date, on the day; a month that is all that is known counts to its end. */
function after(on: string, months: number): string {
  return on.length === 7 ? endOf(monthsOn(on, months)) : sameDayOn(latest(on), months);
}

function said(c: Case, key: string): string | null {
  const value = c.attributes[key];
  return typeof value === 'string' ? value : null;
}

function hose(asking: Asking): Owing[] {
  const { c, last, open } = asking;
  const made = said(c, 'made');
  const placed = said(c, 'inService');
  const occupant = c.attributes.use === 'occupant';
  const first =
    [made === null ? '' : after(made, 12), placed === null ? '' : latest(placed)].sort().at(-1) || null;

  const tested = last(['service test'], ['pass']);
  const id = occupant ? 'hose.occupant-service-test' : 'hose.service-test';
  const warn = occupant ? 180 : 60;
  let test: Owing;
  if (open.has('service test')) test = retest(id);
  else if (tested !== null) test = judge(asking, id, after(tested, occupant ? 36 : 12), 'overdue', warn);
  else if (!occupant) test = judge(asking, id, first, 'never done', warn);
  else test = judge(asking, id, made && after(made, 60), made ? 'overdue' : 'never done', warn);

  const seen = last(['inspection', 'service test'], ['pass', 'fail']);
  let inspection: Owing[] = [
    seen === null
      ? judge(asking, 'hose.inspection', first, 'never done', 60)
      : judge(asking, 'hose.inspection', after(seen, 12), 'overdue', 60),
  ];
  if (open.has('inspection')) inspection = [retest('hose.inspection')];
  // The test includes the inspection: nobody is told of both where the test comes no later.
  else if (test.due === null || (inspection[0]?.due ?? '') >= test.due) inspection = [];

  const old: Owing[] = [];
  if (made !== null && latest(made) < '1987-07-01')
    old.push({ requirement: 'hose.end-of-life', due: '1987-06-30', state: 'life ended' });
  else if (made !== null && earliest(made) < '1987-07-01')
    old.push({ requirement: 'hose.end-of-life', due: null, state: 'not judged' });
  if (old[0]?.due && asking.day <= '1987-06-30')
    old[0] = judge(asking, 'hose.end-of-life', old[0].due, 'life ended', 180);
  return [test, ...inspection, ...old];
}

function ladder(asking: Asking): Owing[] {
  const { c, day } = asking;
  const months = c.halfYearFrom !== null && day >= c.halfYearFrom ? 6 : 12;
  const label = said(c, 'heatLabelExpires');
  return [
    repeated(
      asking,
      'ladder.service-test',
      ['service test'],
      on => after(on, months),
      on => after(on, 0),
      60,
    ),
    repeated(
      asking,
      'ladder.inspection',
      ['inspection'],
      on => after(on, 1),
      on => after(on, 1),
      10,
    ),
    ...(label === null ? [] : [judge(asking, 'ladder.heat-label', latest(label), 'overdue', 60)]),
  ];
}

function pack(asking: Asking): Owing[] {
  const week = (on: string) => daysOn(latest(on), 7);
  const month = (on: string) => after(on, 1);
  return [
    repeated(asking, 'pack.inspection', ['inspection'], month, month, 10),
    repeated(asking, 'pack.operational-check', ['operational check', 'inspection'], week, week, 2),
    repeated(
      asking,
      'pack.flow-test',
      ['flow test'],
      on => after(on, 12),
      on => after(on, 0),
      60,
    ),
  ];
}

/** Owed again after the last pass, and the first time after it was placed in service. */
function repeated(
  asking: Asking,
  requirement: string,
  activities: string[],
  next: (on: string) => string,
  first: (on: string) => string,
  soon: number,
): Owing {
  if (asking.open.has(activities[0] ?? '')) return retest(requirement);
  const passed = asking.last(activities, ['pass']);
  if (passed !== null) return judge(asking, requirement, next(passed), 'overdue', soon);
  const placed = said(asking.c, 'inService');
  return judge(asking, requirement, placed === null ? null : first(placed), 'never done', soon);
}

function cylinder(asking: Asking): Owing[] {
  const { c, day, open, last } = asking;
  const rule = cylinderRule(c);
  const made = said(c, 'made');
  const toMonthEnd = (on: string, months: number) => endOf(monthsOn(latest(on).slice(0, 7), months));
  const counted = (requirement: string, activity: string, months: number): Owing => {
    if (open.has(activity)) return retest(requirement);
    const from = last([activity], ['pass']) ?? made;
    const due = from === null ? null : toMonthEnd(from, months);
    return judge(asking, requirement, due, due === null ? 'never done' : 'overdue', 180);
  };
  const owings: Owing[] = [];
  if (rule === null && open.has('requalification')) owings.push(retest('cylinder.requalification'));
  else if (rule === null)
    owings.push({ requirement: 'cylinder.requalification', due: null, state: 'not judged' });
  else if (rule.months > 0) owings.push(counted('cylinder.requalification', 'requalification', rule.months));

  if (c.attributes.alloy === '6351-T6')
    owings.push(counted('cylinder.crack-examination', 'crack examination', 60));

  const life = rule === null ? 'label' : rule.life;
  const starts = c.monthStartFrom !== null && day >= c.monthStartFrom;
  if (life === 'label' || (life !== null && made === null))
    owings.push({ requirement: 'cylinder.end-of-life', due: null, state: 'not judged' });
  else if (life !== null && made !== null)
    owings.push(
      judge(asking, 'cylinder.end-of-life', toMonthEnd(made, starts ? life - 1 : life), 'life ended', 180),
    );
  return owings;
}

/** Months between requalifications and months of life; null: not judged. */
function cylinderRule(c: Case): { months: number; life: number | null | 'label' } | null {
  const spec = said(c, 'spec');
  if (spec !== null) {
    const years = TABLE[spec];
    if (years !== undefined) {
      const star = c.attributes.star === true && (spec === '3A' || spec === '3AA');
      const life = spec === '3HT' ? 24 * 12 : spec === 'UN composite' ? 15 * 12 : null;
      return { months: (star ? 10 : years) * 12, life };
    }
    const permit = c.permits[spec];
    if (permit === undefined) return null;
    const label = c.attributes.lifeLabel_months;
    return permit.life === 'label' && typeof label === 'number' ? { ...permit, life: label } : permit;
  }
  const years = BUILT[said(c, 'construction') ?? ''];
  if (years === undefined) return null;
  return { months: years * 12, life: WRAPPED.includes(said(c, 'construction') ?? '') ? 180 : null };
}
