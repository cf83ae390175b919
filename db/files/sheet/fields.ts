/**
 * What a column of a sheet may be read as, by family.
 *
 * Names: the family's attribute keys and reading keys as in the rule book; `number`, `serial`, `place`,
 * `station`, `compartment`, `condition`, `agency`, `rin`; for each activity `last <activity>` and
 * `outcome <activity>`, such as `last service test`.
 */
import { familyOf } from '../../../domain/rulebook/index.ts';
import type { Activity, Attribute, Family } from '../../../domain/rulebook/types.ts';
import { type Droppable, type Synonym, synonyms } from './heading-words.ts';
import type { MeasureKind, Unit } from './measures.ts';
import type { DateRole } from './row-dates.ts';
import { SheetError } from './sheet-error.ts';
import {
  ACTIVITIES,
  BY_FAMILY,
  COMMON,
  FAMILY_WORDS,
  NUMBER_ALONE,
  OUTCOME_ALONE,
  OUTCOME_WORDS,
  RULED_OUT,
} from './synonyms.ts';

export type FieldKind =
  | 'number'
  | 'serial'
  | 'place'
  | 'text'
  | 'remarks'
  | 'rin'
  | 'choice'
  | 'measure'
  | 'date'
  | 'outcome'
  | 'flag'
  | 'mark'
  | 'status';

export interface FieldPlan {
  field: string;
  title: string;
  kind: FieldKind;
  says: readonly Synonym[];
  drop: Droppable;
  ruledOut: ReadonlySet<string>;
  /** Several columns may hold it: dates and results of one activity, remarks. */
  many: boolean;
  attribute?: Attribute;
  /** The activity a date, a result or a reading belongs to. */
  activity?: string;
  measure?: MeasureKind;
  role?: DateRole;
  done?: string;
}

/** A result column headed so that only its place beside a date tells what was tested. */
export const OUTCOME_UNPLACED = 'outcome';

/** A hose size and its usual figures in millimeters, as hose standards print both (from memory). */
const HOSE_SIZES = [
  { value: 1, metric: [25] },
  { value: 1.5, metric: [38, 40] },
  { value: 1.75, metric: [44, 45] },
  { value: 2, metric: [50, 51, 52] },
  { value: 2.5, metric: [63, 64, 65] },
  { value: 3, metric: [75, 76, 77] },
  { value: 3.5, metric: [89, 90] },
  { value: 4, metric: [100, 102] },
  { value: 4.5, metric: [114] },
  { value: 5, metric: [125, 127] },
  { value: 6, metric: [150, 152] },
].map(size => ({ ...size, metricUnit: 'mm' as const }));
/** Service pressures of breathing-air cylinders and what a label prints in bar: rounded, from 14.5038 psi a bar. */
const SERVICE_PRESSURES = [
  { value: 2216, metric: [153] },
  { value: 3000, metric: [207] },
  { value: 4500, metric: [310] },
  { value: 5500, metric: [379] },
].map(size => ({ ...size, metricUnit: 'bar' as const }));

const MEASURES: Readonly<Record<string, MeasureKind>> = {
  'hose diameter_in': { unit: 'in', whole: false, least: 0.4, most: 12, nominal: HOSE_SIZES },
  'hose length_ft': { unit: 'ft', whole: false, least: 3, most: 1000 },
  'hose markedTest_psi': { unit: 'psi', whole: true, least: 20, most: 2500 },
  'hose testPressure_psi': { unit: 'psi', whole: true, least: 20, most: 2500 },
  'hose held_s': { unit: 's', whole: true, most: 7200 },
  'ladder length_ft': { unit: 'ft', whole: false, least: 4, most: 130 },
  'ladder load_lb': { unit: 'lb', whole: true, most: 5000 },
  'ladder permanentSet_in': { unit: 'in', whole: false, most: 24, zeroAllowed: true },
  'cylinder servicePressure_psi': {
    unit: 'psi',
    whole: true,
    least: 100,
    most: 12_000,
    nominal: SERVICE_PRESSURES,
  },
  'cylinder ratedDuration_min': { unit: 'min', whole: true, least: 3, most: 480 },
  'cylinder lifeLabel_months': { unit: 'months', whole: true, most: 720 },
  'cylinder testPressure_psi': { unit: 'psi', whole: true, least: 100, most: 20_000 },
  'cylinder totalExpansion_cc': { unit: 'cc', whole: false, most: 5000, zeroAllowed: true },
  'cylinder permanentExpansion_cc': { unit: 'cc', whole: false, most: 5000, zeroAllowed: true },
  'pack servicePressure_psi': {
    unit: 'psi',
    whole: true,
    least: 100,
    most: 12_000,
    nominal: SERVICE_PRESSURES,
  },
  'pack alarm_percent': { unit: '%', whole: true, most: 100 },
  'pack cylinder_psi': { unit: 'psi', whole: true, most: 12_000, zeroAllowed: true },
};

const UNIT_WORDS: Readonly<Partial<Record<Unit, readonly string[]>>> = {
  in: ['in', 'mm', 'cm', 'size'],
  ft: ['ft', 'm', 'in', 'cm'],
  psi: ['psi', 'bar', 'kpa', 'mpa', 'lb'],
  s: ['s', 'sec', 'seconds', 'min'],
  min: ['min', 'hrs', 'hr'],
  lb: ['lb', 'kg'],
  cc: ['cc', 'ml'],
  '%': ['percent'],
  months: ['months', 'mos', 'year', 'years', 'yrs'],
};

const COMMON_TITLES: readonly (readonly [field: string, title: string, kind: FieldKind])[] = [
  ['number', 'Number', 'number'],
  ['serial', 'Serial', 'serial'],
  ['place', 'Location', 'place'],
  ['station', 'Station', 'place'],
  ['compartment', 'Compartment', 'place'],
  ['condition', 'Status', 'status'],
  ['agency', 'Done by', 'text'],
];

const plansByFamily = new Map<string, readonly FieldPlan[]>();

/**
 * The fields of a family, with how each is recognised.
 * @throws SheetError where the program has no such family
 */
export function plansOf(familyId: string): readonly FieldPlan[] {
  const known = plansByFamily.get(familyId);
  if (known) return known;
  const family = familyOf(familyId);
  if (!family) {
    throw new SheetError(
      `There is no family “${familyId}”.`,
      'Choose hose, ladder, cylinder, pack or equipment.',
    );
  }
  const plans = build(family);
  plansByFamily.set(familyId, plans);
  return plans;
}

/** What a column of a family's sheet may be read as. */
export function fieldsOf(family: string): { field: string; title: string }[] {
  return plansOf(family)
    .filter(plan => plan.field !== OUTCOME_UNPLACED)
    .map(({ field, title }) => ({ field, title }));
}

/** The activity that a heading which names none is of: the family's first test. */
export function mainActivity(familyId: string): string {
  return Object.keys(ACTIVITIES[familyId] ?? {})[0] ?? 'inspection';
}

function build(family: Family): FieldPlan[] {
  const own = BY_FAMILY[family.id] ?? {};
  const words = new Set(FAMILY_WORDS[family.id] ?? []);
  const plan = (
    field: string,
    title: string,
    kind: FieldKind,
    says: string,
    more: Partial<FieldPlan> = {},
  ): FieldPlan => {
    const drop: Droppable = {
      family: words,
      units: new Set(more.measure ? UNIT_WORDS[more.measure.unit] : []),
      isDate: kind === 'date',
    };
    return {
      field,
      title,
      kind,
      says: synonyms(says, drop),
      drop,
      ruledOut: new Set(RULED_OUT[ruleOf(kind, more.role)] ?? []),
      many: kind === 'remarks' || kind === 'outcome' || (kind === 'date' && more.activity !== undefined),
      ...more,
    };
  };
  const common = COMMON_TITLES.map(([field, title, kind]) => {
    const alone = field === 'number' ? `, ${NUMBER_ALONE[family.id] ?? ''}` : '';
    return plan(field, title, kind, `${COMMON[field] ?? ''}${alone}`);
  });
  const rin = own.rin === undefined ? [] : [plan('rin', 'RIN', 'rin', own.rin)];
  const attributes = family.attributes.map(a => attributePlan(family, a, own, plan));
  // A figure that several activities bring has one column, of the first of them.
  const activities = family.activities
    .flatMap(activity => activityPlans(family, activity, own, plan))
    .filter((p, i, all) => all.findIndex(other => other.field === p.field) === i);
  const unplaced = plan(OUTCOME_UNPLACED, 'Result', 'outcome', OUTCOME_ALONE);
  return [...common, ...rin, ...attributes, ...activities, unplaced];
}

type MakePlan = (
  field: string,
  title: string,
  kind: FieldKind,
  says: string,
  more?: Partial<FieldPlan>,
) => FieldPlan;

function attributePlan(
  family: Family,
  attribute: Attribute,
  own: Readonly<Record<string, string>>,
  plan: MakePlan,
): FieldPlan {
  const { key, title } = attribute;
  const says = own[key] ?? COMMON[key] ?? title;
  const more = { attribute };
  if (key === 'remarks') return plan(key, title, 'remarks', says, more);
  if (key === 'spec') return plan(key, title, 'mark', says, more);
  if (attribute.type === 'when') return plan(key, title, 'date', says, { ...more, role: roleOf(key) });
  if (attribute.type === 'choice') return plan(key, title, 'choice', says, more);
  if (attribute.type === 'flag') return plan(key, title, 'flag', says, more);
  const measure = MEASURES[`${family.id} ${key}`];
  return measure
    ? plan(key, title, 'measure', says, { ...more, measure })
    : plan(key, title, 'text', says, more);
}

function activityPlans(
  family: Family,
  activity: Activity,
  own: Readonly<Record<string, string>>,
  plan: MakePlan,
): FieldPlan[] {
  const known = ACTIVITIES[family.id]?.[activity.id];
  const says = known?.says ?? activity.title;
  const names = says.split(',').map(name => name.trim().split('~')[0] ?? '');
  const specific = names.filter(name => name !== '' && name !== 'date' && name !== 'annual');
  const results = specific.flatMap(name => OUTCOME_WORDS.map(word => `${name} ${word}`)).join(', ');
  const title = activity.title.toLowerCase();
  const more = { activity: activity.id };
  return [
    plan(`last ${activity.id}`, `Last ${title}`, 'date', says, {
      ...more,
      role: 'past',
      done: known?.done ?? 'done',
    }),
    plan(`outcome ${activity.id}`, `Result of ${title}`, 'outcome', results, more),
    ...activity.readings.map(reading => {
      const measure = MEASURES[`${family.id} ${reading.key}`];
      const text = own[reading.key] ?? reading.title;
      const full = { ...more, attribute: reading };
      return measure
        ? plan(reading.key, reading.title, 'measure', text, { ...full, measure })
        : plan(reading.key, reading.title, 'text', text, full);
    }),
  ];
}

function roleOf(key: string): DateRole {
  if (key === 'made') return 'made';
  return key === 'inService' ? 'past' : 'expiry';
}

function ruleOf(kind: FieldKind, role: DateRole | undefined): string {
  if (kind === 'date' && role === 'expiry') return 'expiry';
  return ['place', 'rin', 'choice', 'mark', 'flag'].includes(kind) ? 'text' : kind;
}
