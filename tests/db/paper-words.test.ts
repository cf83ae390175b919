/** What a paper shares with the screens, held together: the sentence of a filter and the marks of the states. */
import { describe, expect, it } from 'vitest';
import { markOf } from '../../db/paper/marks.ts';
import { filterSentence } from '../../db/paper/sentence.ts';
import { MARK_STATES } from '../../domain/derive/marks.ts';
import { type DueSearch, filterArgs, sentence } from '../../renderer/screens/coming-due/filter.ts';

const named = {
  families: [{ id: 'hose', title: 'Hose', plural: 'Hose' }],
  units: [{ id: 'u1', name: 'Engine 31' }],
  rigs: [{ id: 'r1', name: 'Reserve R-1' }],
  stations: [{ id: 's1', name: 'Station 31' }],
  requirements: [{ id: 'hose.service-test', title: 'Service test', family: 'hose' }],
};
const names = {
  family: (id: string) => named.families.find(f => f.id === id)?.plural.toLowerCase() ?? id,
  unit: (id: string) => [...named.units, ...named.rigs].find(u => u.id === id)?.name ?? id,
  station: (id: string) => named.stations.find(s => s.id === id)?.name ?? id,
  requirement: (id: string) => named.requirements.find(r => r.id === id)?.title.toLowerCase() ?? id,
};

describe('the sentence of a filter', () => {
  const searches: DueSearch[] = [
    {},
    { state: 'all' },
    { state: ['overdue'] },
    { state: ['life ended', 'never done', 'due soon'], family: 'hose' },
    { unit: 'u1', within: 0 },
    { unit: 'none', within: 365 },
    { unit: 'r1', station: 's1', within: 90, text: 'crosslay “2”' },
    { requirement: 'hose.service-test', within: 45 },
    { family: 'kite', unit: 'u9' },
  ];
  it.each(searches)('reads on paper as on the screen: %j', search => {
    expect(filterSentence(filterArgs(search), names)).toBe(sentence(search, named));
  });

  it('tells the month, which only a script asks for', () => {
    expect(filterSentence({ month: '2026-11' }, names)).toMatch(/in the month November 2026\.$/);
    expect(filterSentence({ month: 'none' }, names)).toMatch(/with no date\.$/);
  });
});

describe('the marks', () => {
  it('are one for each state of the screens, each drawn differently, in black and white alone', () => {
    const drawn = MARK_STATES.map(state => JSON.stringify(markOf(state)));
    expect(new Set(drawn).size).toBe(MARK_STATES.length);
    for (const mark of drawn)
      for (const [, color] of mark.matchAll(/"(?:color|lineColor)":"(\w+)"/g))
        expect(['black', 'white']).toContain(color);
  });

  it('are drawn anew each time, because the printer moves what it is given', () => {
    expect(markOf('overdue')).not.toBe(markOf('overdue'));
    expect(markOf('overdue')[0]).not.toBe(markOf('overdue')[0]);
  });
});
