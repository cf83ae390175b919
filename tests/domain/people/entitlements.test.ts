/** Who may do what. The positions are templates: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { ENTITLEMENTS, type Grant, isEntitled, POSITIONS } from '../../../domain/people/entitlements.ts';

const hoseOnly: Grant[] = [{ entitlement: 'record', families: ['hose'] }];

describe('an entitlement', () => {
  it('for one family covers that family and no other, and no deed that concerns none', () =>
    expect(['hose', 'ladder', null].map(family => isEntitled(hoseOnly, 'record', family))).toEqual([
      true,
      false,
      false,
    ]));

  it('for all families covers each of them, and deeds that concern none', () => {
    const all: Grant[] = [{ entitlement: 'adopt', families: 'all' }];
    expect([isEntitled(all, 'adopt', 'hose'), isEntitled(all, 'adopt', null)]).toEqual([true, true]);
  });

  it('is not another one, and nobody without grants has any', () => {
    expect(isEntitled(hoseOnly, 'return', 'hose')).toBe(false);
    expect(ENTITLEMENTS.some(e => isEntitled([], e, 'hose'))).toBe(false);
  });

  it('adds to the others a member has', () => {
    const both: Grant[] = [...hoseOnly, { entitlement: 'record', families: ['ladder'] }];
    expect(['hose', 'ladder', 'pack'].map(f => isEntitled(both, 'record', f))).toEqual([true, true, false]);
  });
});

describe('a position', () => {
  const may = (position: string) =>
    ENTITLEMENTS.filter(e => isEntitled(POSITIONS[position] ?? [], e, 'hose'));

  it('lets a driver record and an officer return to service; a driver returns nothing', () => {
    expect(may('driver')).toEqual(['read', 'record']);
    expect(may('company officer')).toEqual(['read', 'record', 'countersign', 'return']);
  });

  it('lets an auditor read and an administrator do all; only the administrator adopts rules', () => {
    expect([may('auditor'), may('administrator')]).toEqual([['read'], [...ENTITLEMENTS]]);
    expect(Object.keys(POSITIONS).filter(p => may(p).includes('adopt'))).toEqual(['administrator']);
  });
});
