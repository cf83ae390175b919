/** Editions: the same duty under another number. The renumbering itself: as each edition's note says. */
import { describe, expect, it } from 'vitest';
import { EDITIONS, underEdition } from '../../../domain/rulebook/editions.ts';
import { isConfirmed } from '../../../domain/rulebook/force.ts';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { differences } from '../../../domain/rulebook/strictness.ts';

const SURE = ['read', 'read second-hand', 'memory', 'common practice'];

describe.each(EDITIONS.map(e => [e.id, e] as const))('%s', (_id, edition) => {
  const pairs = SHIPPED_REQUIREMENTS.flatMap(r => {
    const renumbered = underEdition(r, edition);
    return renumbered ? [{ r, renumbered }] : [];
  });

  it('takes in exactly what cites one of its documents', () => {
    const cites = SHIPPED_REQUIREMENTS.filter(r => r.sources.some(s => edition.takesIn.includes(s.document)));
    expect(pairs.map(p => p.r.id)).toEqual(cites.map(r => r.id));
    expect(pairs.length).toBeGreaterThan(0);
  });

  it('changes the sources and the words alone: no clock, no effect; and never loosens', () => {
    for (const { r, renumbered } of pairs) {
      const fields = differences(r, renumbered);
      expect([r.id, fields.filter(d => !['sources', 'words'].includes(d.field))]).toEqual([r.id, []]);
      expect([r.id, fields.filter(d => d.effect === 'looser')]).toEqual([r.id, []]);
    }
  });

  it('says where each clause stood, under no clause of its own, and is no surer than it was', () => {
    for (const { r, renumbered } of pairs)
      for (const [i, was] of r.sources.entries()) {
        const now = renumbered.sources[i];
        if (!edition.takesIn.includes(was.document)) {
          expect(now).toEqual(was);
          continue;
        }
        expect(now).toMatchObject({ document: edition.document, edition: edition.edition, section: '' });
        expect(now?.note).toContain(`Formerly ${was.document}`);
        expect(SURE.indexOf(now?.confidence ?? '')).toBeGreaterThanOrEqual(SURE.indexOf(was.confidence));
      }
  });

  it('keeps judged what is judged', () => {
    for (const { r, renumbered } of pairs)
      expect([r.id, isConfirmed(renumbered)]).toEqual([r.id, isConfirmed(r)]);
  });
});
