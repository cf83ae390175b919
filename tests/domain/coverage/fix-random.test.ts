/**
 * The shortest fix on seeded random departments: small ones against every way there is, larger ones against what must
 * hold of any answer and against a search for anything that could be moved to save distance.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Cost,
  orderByWants,
  ownFix,
  type Source,
  shortestFix,
  type UnitFix,
  type UnitWants,
} from '../../../domain/coverage/fix.ts';

interface Department {
  units: UnitWants[];
  sources: Source[];
  cost: Cost;
}

/** How much of each at the most. */
interface Size {
  units: readonly [fewest: number, most: number];
  wants: number;
  lacking: number;
  kinds: number;
  sources: number;
  things: number;
  far: number;
}

const SMALL: Size = { units: [2, 4], wants: 2, lacking: 2, kinds: 3, sources: 5, things: 3, far: 6 };
/** Everybody wants the same few things, each alone on its shelf. */
const CONTESTED: Size = { units: [3, 4], wants: 2, lacking: 2, kinds: 1, sources: 6, things: 1, far: 9 };
const LARGE: Size = { units: [5, 14], wants: 4, lacking: 5, kinds: 3, sources: 30, things: 5, far: 40 };
const KINDS = ['pack', 'axe', 'hose'];

function department(size: Size): fc.Arbitrary<Department> {
  const kind = fc.constantFrom(...KINDS.slice(0, size.kinds));
  const line = fc.record({ kind, count: fc.integer({ min: 1, max: size.lacking }) });
  const [minLength, maxLength] = size.units;
  const far = fc.array(fc.integer({ min: 0, max: size.far }), { minLength: maxLength, maxLength });
  return fc
    .record({
      units: fc.array(fc.array(line, { maxLength: size.wants }), { minLength, maxLength }),
      sources: fc.array(fc.record({ kind, count: fc.integer({ min: 0, max: size.things }), far }), {
        ...{ maxLength: size.sources, size: 'max' as const },
      }),
    })
    .map(drawn => {
      const units = drawn.units.map((wants, u) => ({
        unit: `Engine ${u}`,
        wants: wants.map((w, i) => ({ want: `line ${i}`, ...w })),
      }));
      const sources = drawn.sources.map(({ kind, count }, s) => ({ source: `shelf ${s}`, kind, count }));
      const table = new Map(sources.map(({ source }, s) => [source, drawn.sources[s]?.far ?? []]));
      const cost: Cost = (unit, { source }) => table.get(source)?.[Number(unit.slice(7))] ?? Number.NaN;
      return { units, sources, cost };
    });
}

/** All ways there are, thing by thing, with every unit served or left out. The best: who is ready in order, then cost. */
function byTryingAll({ units, sources, cost }: Department): { ready: string; cost: number } {
  const left = sources.map(s => s.count);
  let best = { ready: '', cost: 0 };
  const serve = (u: number, ready: string, sofar: number): void => {
    const unit = units[u];
    if (!unit) {
      // 'y' sorts after 'n': of two answers the later text readies the earlier unit.
      if (ready > best.ready || (ready === best.ready && sofar < best.cost)) best = { ready, cost: sofar };
      return;
    }
    const fill = (w: number, lacks: number, from: number, spent: number): void => {
      const want = unit.wants[w];
      if (!want) serve(u + 1, `${ready}y`, spent);
      else if (lacks === 0) fill(w + 1, unit.wants[w + 1]?.count ?? 0, 0, spent);
      if (!want || lacks === 0) return;
      // Things of one line stand in for each other, so a line looks at no shelf before its last one again.
      for (let s = from; s < sources.length; s++) {
        const source = sources[s];
        const has = left[s] ?? 0;
        if (!source || source.kind !== want.kind || has === 0) continue;
        left[s] = has - 1;
        fill(w, lacks - 1, s, spent + cost(unit.unit, source));
        left[s] = has;
      }
    };
    fill(0, unit.wants[0]?.count ?? 0, 0, sofar);
    serve(u + 1, `${ready}n`, sofar);
  };
  serve(0, '', 0);
  return best;
}

const answerOf = (fixes: readonly UnitFix[]) => ({
  ready: fixes.map(f => (f.ready ? 'y' : 'n')).join(''),
  cost: fixes.reduce((sum, f) => sum + f.cost, 0),
});
const solve = (d: Department) => shortestFix(d.units, d.sources, d.cost);
const sum = (counts: readonly number[]) => counts.reduce((a, b) => a + b, 0);

/** What must hold of any answer, whether or not it is the best. */
function holds(d: Department, fixes: readonly UnitFix[]): void {
  const sources = new Map(d.sources.map(s => [s.source, s]));
  const used = new Map<string, number>();
  expect(fixes.map(f => f.unit)).toEqual(d.units.map(u => u.unit));
  fixes.forEach((fix, u) => {
    const wants = d.units[u]?.wants ?? [];
    const filled = wants.map(({ want }) => sum(fix.moves.filter(m => m.want === want).map(m => m.count)));
    expect(filled).toEqual(wants.map(w => (fix.ready ? w.count : 0)));
    expect(fix.ready).toBe(fix.lacking.length === 0);
    let cost = 0;
    for (const { want, source, count } of fix.moves) {
      const from = sources.get(source);
      expect(from?.kind).toBe(wants.find(w => w.want === want)?.kind);
      expect(count).toBeGreaterThan(0);
      used.set(source, (used.get(source) ?? 0) + count);
      cost += from ? count * d.cost(fix.unit, from) : Number.NaN;
    }
    expect(fix.cost).toBe(cost);
    for (const lack of fix.lacking) {
      const before = fixes.slice(0, u);
      const ofKind = (s: string) => sources.get(s)?.kind === lack.kind;
      const takenBy = before.flatMap(({ unit, moves }) => {
        const count = sum(moves.filter(m => ofKind(m.source)).map(m => m.count));
        return count > 0 ? [{ unit, count }] : [];
      });
      expect(lack.takenBy).toEqual(takenBy);
      expect(lack.had).toBe(sum(d.sources.filter(s => s.kind === lack.kind).map(s => s.count)));
      expect(lack.wanted).toBe(sum(wants.filter(w => w.kind === lack.kind).map(w => w.count)));
      expect(lack.wanted).toBeGreaterThan(lack.had - sum(takenBy.map(t => t.count)));
    }
  });
  for (const [source, count] of used) expect(count).toBeLessThanOrEqual(sources.get(source)?.count ?? 0);
}

/**
 * Whether distance could be saved by passing things round: a circle of less than 0 among ready units, sources and, for
 * each kind, what is left over. There is none just where the sharing is the least.
 */
function couldSave(d: Department, fixes: readonly UnitFix[]): boolean {
  const steps: [from: string, to: string, adds: number][] = [];
  for (const source of d.sources) {
    let used = 0;
    for (const { unit, ready, moves } of fixes) {
      if (!ready) continue;
      const held = sum(moves.filter(m => m.source === source.source).map(m => m.count));
      const at = `${unit} ${source.kind}`;
      steps.push([at, source.source, d.cost(unit, source)]);
      if (held > 0) steps.push([source.source, at, -d.cost(unit, source)]);
      used += held;
    }
    if (used < source.count) steps.push([source.source, source.kind, 0]);
    if (used > 0) steps.push([source.kind, source.source, 0]);
  }
  const far = new Map(
    steps.flatMap(([from, to]) => [
      [from, 0],
      [to, 0],
    ]),
  );
  for (let round = 0; round <= far.size; round++) {
    let shorter = false;
    for (const [from, to, adds] of steps) {
      const reached = (far.get(from) ?? 0) + adds;
      if (reached >= (far.get(to) ?? 0)) continue;
      far.set(to, reached);
      shorter = true;
    }
    if (!shorter) return false;
  }
  return true;
}

describe('on small departments', () => {
  it.each([
    ['mixed', SMALL, 4_000],
    ['contested', CONTESTED, 3_000],
  ])('%s: readies the same units as trying every way does, at the same cost', (_, size, numRuns) => {
    const seen = { ready: 0, short: 0, walked: 0 };
    const few = department(size).filter(d => sum(d.units.flatMap(u => u.wants.map(w => w.count))) <= 8);
    fc.assert(
      fc.property(few, d => {
        const fixes = solve(d);
        const answer = answerOf(fixes);
        expect(answer).toEqual(byTryingAll(d));
        holds(d, fixes);
        for (const { ready } of fixes) seen[ready ? 'ready' : 'short'] += 1;
        if (answer.cost > 0) seen.walked += 1;
      }),
      { numRuns },
    );
    // The cases are worth something: many units of either sort, and many departments that must walk.
    expect(Math.min(seen.ready, seen.short, seen.walked)).toBeGreaterThan(numRuns / 4);
  });

  it('where all lack one kind, the default order readies as many as any order could', () =>
    fc.assert(
      fc.property(department({ ...SMALL, kinds: 1 }), d => {
        const ready = shortestFix(orderByWants(d.units), d.sources, d.cost).filter(f => f.ready).length;
        const had = sum(d.sources.map(s => s.count));
        for (let chosen = 0; chosen < 2 ** d.units.length; chosen++) {
          const some = d.units.filter((_, u) => (chosen >> u) % 2 === 1);
          const wanted = sum(some.flatMap(u => u.wants.map(w => w.count)));
          if (wanted <= had) expect(ready).toBeGreaterThanOrEqual(some.length);
        }
      }),
      { numRuns: 1_000 },
    ));
});

describe('on larger departments', () => {
  it('takes no more than there is, fills a unit wholly or not at all, and nothing moved round would save', () => {
    let walked = 0;
    fc.assert(
      fc.property(department(LARGE), d => {
        const fixes = solve(d);
        holds(d, fixes);
        expect(couldSave(d, fixes)).toBe(false);
        if (answerOf(fixes).cost > 0) walked += 1;
      }),
      { numRuns: 500 },
    );
    expect(walked).toBeGreaterThan(250);
  });

  it('gives the same answer in whatever order the sources come, and no unit walks farther alone', () => {
    const shuffled = department(LARGE).chain(d => {
      const [minLength, maxLength] = [d.sources.length, d.sources.length];
      return fc.tuple(fc.constant(d), fc.shuffledSubarray(d.sources, { minLength, maxLength }));
    });
    fc.assert(
      fc.property(shuffled, ([d, sources]) => {
        const fixes = solve(d);
        expect(solve({ ...d, sources })).toEqual(fixes);
        for (const unit of d.units) {
          const own = ownFix(unit, sources, d.cost);
          const among = fixes.find(f => f.unit === unit.unit);
          if (among?.ready) expect(own.ready && own.cost <= among.cost).toBe(true);
        }
      }),
      { numRuns: 500 },
    );
  });
});
