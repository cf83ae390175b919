/** The list of criteria as data: whole, answerable, and honest about where each is from. */
import { describe, expect, it } from 'vitest';
import { CRITERIA } from '../../../domain/checkoffs/criteria.ts';
import { GROUPS, type Rule } from '../../../domain/checkoffs/criterion.ts';
import { decimalOf } from '../../../domain/derive/decimal.ts';

const rulesOf = ({ out, limited, noted }: (typeof CRITERIA)[number]) =>
  [out, limited, noted].filter((r): r is Rule => r !== null);

describe('every criterion', () => {
  it.each(CRITERIA.map(c => [c.id, c] as const))('can bring about what it says: %s', (_, criterion) => {
    const { answer, told, question } = criterion;
    expect(rulesOf(criterion).length).toBeGreaterThan(0);
    expect(told).toContain('#');
    expect(question).toMatch(/\?$/);
    for (const rule of rulesOf(criterion)) {
      if (answer.kind === 'choice') {
        const values = answer.values.map(v => v.value);
        expect('is' in rule && rule.is.every(v => values.includes(v))).toBe(true);
      } else {
        const limit = 'under' in rule ? rule.under : 'over' in rule ? rule.over : undefined;
        expect(decimalOf(limit)).not.toBeNull();
      }
    }
  });

  it('leaves an answer that brings about nothing, so that a sound rig can say so', () => {
    for (const criterion of CRITERIA) {
      const { answer } = criterion;
      if (answer.kind !== 'choice') continue;
      const bad = rulesOf(criterion).flatMap(r => ('is' in r ? r.is : []));
      expect(answer.values.filter(v => !bad.includes(v.value))).toHaveLength(1);
    }
  });

  it('says in its note what its confidence is, where that is memory or practice', () => {
    for (const { source, out, limited, noted } of CRITERIA)
      for (const s of [source, out?.source, limited?.source, noted?.source]) {
        if (s === undefined) continue;
        if (s.confidence === 'memory') expect(s.note).toMatch(/^From memory: /);
        if (s.confidence === 'read second-hand') expect(s.note).toContain('local policy');
      }
  });

  it('puts a rig out by nothing that is practice alone', () => {
    for (const { out, source } of CRITERIA)
      if (out !== null) expect((out.source ?? source).confidence).not.toBe('common practice');
  });
});

it('names each criterion once, walks group by group, and leaves no group empty', () => {
  expect(new Set(CRITERIA.map(c => c.id)).size).toBe(CRITERIA.length);
  const walked = CRITERIA.map(c => c.group).filter((g, n, all) => g !== all[n - 1]);
  expect(walked).toEqual(GROUPS);
});

it('can be written down and read back the same', () =>
  expect(JSON.parse(JSON.stringify(CRITERIA))).toEqual(CRITERIA));
