/** What a form for deeds is, as data: its fields, and how what was filled in becomes deeds. */

import type { Deed, DepartmentSummary, MemberLine, Problem } from '../../../db/api.ts';
import type { RulebookList, RuleLine } from '../../../db/api-rules.ts';
import type { Condition } from '../../../domain/facts.ts';
import type { Attribute, Family } from '../../../domain/rulebook/types.ts';
import { readDate } from '../form/readDate.ts';
import type { PreviewAsked } from './RulePreview.tsx';

/** What is filled in, by field; all as typed. */
export type Filled = Readonly<Record<string, string>>;

interface FieldBase {
  /** The field's name in the deed's body, dotted where it lies deeper: `readings.held_s`. */
  key: string;
  title: string;
  note?: string | undefined;
  required?: boolean;
}

export type FormField =
  | (FieldBase & { kind: 'date' | 'long' | 'tick' })
  /** Filled in are the places of the chosen photos, `#0 #1`; the dialog sends the photos themselves beside the deeds. */
  | (FieldBase & { kind: 'photos' })
  /** `named`: the name of the place it is filled with at the start. */
  | (FieldBase & { kind: 'place'; named?: string | undefined })
  | (FieldBase & { kind: 'text'; unit?: string | undefined; secret?: boolean })
  | (FieldBase & {
      kind: 'one of' | 'pick';
      choices: readonly { value: string; title: string; detail?: string }[];
    });

/** Short rows of fields stand side by side. */
export type FormRow = readonly FormField[];

export interface DeedForm {
  title: string;
  /** What the button says. */
  verb: string;
  initial: Filled;
  rows(filled: Filled): readonly FormRow[];
  /** What is to be known before it is done, said over the fields: what it concerns, what the law says. */
  says?(filled: Filled, today: string): readonly string[];
  cautions?(filled: Filled): { cautions: readonly string[]; who: string } | null;
  /** What of the rule book it would change: told beside the form while it is filled in. */
  previews?(filled: Filled, today: string): PreviewAsked | null;
  /** What only the form itself can see is wrong, before anything is sent. */
  check?(filled: Filled): readonly Problem[];
  deeds(filled: Filled, today: string): Deed[];
  /** What the toast says when it is done; nothing where the screen that follows shows it. */
  done(filled: Filled): string;
}

/** The thing a form is about. */
export interface ThingRef {
  item: string;
  number: string;
  family: string;
  condition: Condition;
}

/** What forms are made from: the trade's words and rules as the department has them. */
export interface Vocabulary {
  families: readonly Family[];
  assignments: readonly string[];
  rules: readonly RuleLine[];
  permits: RulebookList['permits'];
  summary: DepartmentSummary;
  /** Who is there, and what each is qualified for. */
  members: readonly MemberLine[];
}

/** The date of a deed as the store takes it. */
export const dateOf = (filled: Filled, today: string, key = 'on'): string =>
  readDate(filled[key] ?? '', today).text;

/** Photos of what is told, for whichever deed keeps them. */
export const PHOTOS_FIELD: FormField = { kind: 'photos', key: 'photos', title: 'Photos' };

/** The photos of a deed, by their places among those that are sent; undefined where none was chosen. */
export function photosFilled(filled: Filled): string[] | undefined {
  const places = (filled.photos ?? '').split(' ').filter(Boolean);
  return places.length === 0 ? undefined : places;
}

/** A body without what was left empty. */
export function body(fields: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== '' && v !== undefined));
}

/**
 * The values of attributes or readings filled in under a prefix, in the store's form: whole numbers as numbers,
 * decimals as text. What has another form goes as it is typed, and the store says what is wrong with it.
 */
export function valuesOf(
  attributes: readonly Attribute[],
  filled: Filled,
  prefix: string,
  today: string,
): Record<string, string | number | boolean> {
  const values: Record<string, string | number | boolean> = {};
  for (const attribute of attributes) {
    const typed = (filled[`${prefix}.${attribute.key}`] ?? '').trim();
    if (typed === '') continue;
    values[attribute.key] = typedValue(attribute, typed, today);
  }
  return values;
}

function typedValue(attribute: Attribute, typed: string, today: string): string | number | boolean {
  const plain = typed.replaceAll(',', '');
  if (attribute.type === 'whole') return /^\d+$/.test(plain) ? Number(plain) : typed;
  if (attribute.type === 'decimal') return plain;
  if (attribute.type === 'flag') return typed === 'yes';
  return attribute.type === 'when' ? readDate(typed, today).text : typed;
}

/** The field for an attribute or reading. */
export function attributeField(attribute: Attribute, prefix: string): FormField {
  const base = { key: `${prefix}.${attribute.key}`, title: attribute.title, note: attribute.note };
  switch (attribute.type) {
    case 'choice':
      return { ...base, kind: 'pick', choices: attribute.choices ?? [] };
    case 'flag':
      return { ...base, kind: 'tick' };
    case 'when':
      return {
        ...base,
        kind: 'text',
        note: attribute.note ?? 'As far as it is known: 2019, Mar 2019, 3/14/2019.',
      };
    default:
      return { ...base, kind: 'text', unit: attribute.unit };
  }
}
