/** What a member may do, in words, and the choices of the form that changes it. */
import { capital } from '../../../domain/capital.ts';
import {
  ENTITLEMENTS,
  type Entitlement,
  type Grant,
  POSITIONS,
} from '../../../domain/people/entitlements.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import type { Filled, FormRow } from '../../parts/deeds/deedForm.ts';

const WORDS: Readonly<Record<Entitlement, string>> = {
  read: 'look',
  record: 'record',
  countersign: 'countersign',
  return: 'return to service',
  void: 'void',
  plan: 'plan',
  adopt: 'adopt rules',
  administer: 'administer',
};

type Titled = Pick<Family, 'id' | 'title'>;

/** `Record, return to service; void for hose and ladders`. */
export function grantsInWords(grants: readonly Grant[], families: readonly Titled[]): string {
  if (grants.length === 0) return 'Nothing';
  const everywhere = grants.filter(g => g.families === 'all');
  if (ENTITLEMENTS.every(e => everywhere.some(g => g.entitlement === e))) return 'Everything';
  const lists = new Map<string, string[]>();
  for (const grant of grants) {
    const where = grant.families === 'all' ? '' : familiesInWords(grant.families, families);
    lists.set(where, [...(lists.get(where) ?? []), WORDS[grant.entitlement]]);
  }
  const told = [...lists].map(
    ([where, words]) => `${words.join(', ')}${where === '' ? '' : ` for ${where}`}`,
  );
  const text = told.join('; ');
  return capital(text);
}

function familiesInWords(ids: readonly string[], families: readonly Titled[]): string {
  const titles = ids.map(id => (families.find(f => f.id === id)?.title ?? id).toLowerCase());
  return titles.length === 0 ? 'no family' : titles.join(' and ');
}

/** Chosen where a member has no position. */
export const NO_POSITION = 'none';

export const positionChoices = [
  ...Object.entries(POSITIONS).map(([position, grants]) => ({
    value: position,
    title: position.charAt(0).toUpperCase() + position.slice(1),
    detail: grantsInWords(grants, []).toLowerCase(),
  })),
  { value: NO_POSITION, title: 'No position', detail: 'entitlements chosen one by one' },
];

const HOW_WIDE = [
  { value: 'no', title: 'No' },
  { value: 'all', title: 'All families' },
  { value: 'some', title: 'Some' },
];

/** Whether grants are other than those of the position. */
export function areOwn(position: string | null, grants: readonly Grant[]): boolean {
  const template = POSITIONS[position ?? ''] ?? [];
  const key = (list: readonly Grant[]) =>
    list
      .map(g => `${g.entitlement} ${g.families === 'all' ? 'all' : g.families.toSorted().join(' ')}`)
      .toSorted()
      .join('\n');
  return key(template) !== key(grants);
}

/** Two entitlements a row, and the families of each that is only for some. */
export function grantRows(filled: Filled, families: readonly Titled[]): FormRow[] {
  return pairs(ENTITLEMENTS).flatMap(pair => [
    pair.map(e => ({
      kind: 'one of' as const,
      key: `grant.${e}`,
      title: capital(WORDS[e]),
      choices: HOW_WIDE,
    })),
    ...pair
      .filter(e => filled[`grant.${e}`] === 'some')
      .map(e =>
        families.map(f => ({
          kind: 'tick' as const,
          key: `grant.${e}.${f.id}`,
          title: `${capital(WORDS[e])}: ${f.title.toLowerCase()}`,
        })),
      ),
  ]);
}

/** How the form is filled in where a member has these grants. */
export function filledFrom(grants: readonly Grant[]): Record<string, string> {
  const filled: Record<string, string> = {};
  for (const e of ENTITLEMENTS) {
    const grant = grants.find(g => g.entitlement === e);
    filled[`grant.${e}`] = grant === undefined ? 'no' : grant.families === 'all' ? 'all' : 'some';
    if (grant && grant.families !== 'all')
      for (const family of grant.families) filled[`grant.${e}.${family}`] = 'yes';
  }
  return filled;
}

/** The grants that a form says. */
export function grantsOf(filled: Filled, families: readonly Titled[]): Grant[] {
  return ENTITLEMENTS.flatMap((e): Grant[] => {
    const wide = filled[`grant.${e}`];
    if (wide === 'all') return [{ entitlement: e, families: 'all' }];
    if (wide !== 'some') return [];
    const some = families.map(f => f.id).filter(id => filled[`grant.${e}.${id}`] === 'yes');
    return some.length === 0 ? [] : [{ entitlement: e, families: some }];
  });
}

function pairs<T>(list: readonly T[]): T[][] {
  return Array.from({ length: Math.ceil(list.length / 2) }, (_, i) => list.slice(2 * i, 2 * i + 2));
}
