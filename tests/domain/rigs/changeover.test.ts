/**
 * A whole rig changed for another. Radio identity and list go with the company, compartments with the chassis, gear
 * thing by thing; both rigs are gone through at both transfers. Common practice, no source.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { serves } from '../../../domain/carry/lacking.ts';
import { isOfLine } from '../../../domain/carry/match.ts';
import type { CarryLine } from '../../../domain/carry/types.ts';
import { CONDITIONS } from '../../../domain/facts.ts';
import {
  type Becomes,
  type Changeover,
  changeover,
  type OnRig,
  placeOn,
  type Rigs,
} from '../../../domain/rigs/changeover.ts';

const line = (name: string, family: string | null, qty: number, place: string, like = {}): CarryLine => ({
  line: name,
  what: name,
  family,
  like,
  qty,
  min: qty,
  place,
  critical: false,
  verify: 'sight',
  reading: null,
  source: null,
});
const thing = (number: string, family: string, place: string, more: Partial<OnRig> = {}): OnRig => ({
  item: number,
  number,
  family,
  attributes: {},
  condition: 'serviceable',
  place,
  origin: 'own',
  ...more,
});
const change = (more: Partial<Rigs<OnRig>>) =>
  changeover({ lines: [], left: [], taken: [], ownList: [], leavesOwn: true, counted: new Map(), ...more });
const of = (answer: Changeover<OnRig>, becomes: Becomes) =>
  answer.things.filter(t => t.becomes === becomes).map(t => t.thing.number);

const IMAGER = line('imager', 'imager', 1, 'officer seat');
const SAWS = line('saws', 'power-tool', 2, 'L3');

describe('going out to a reserve rig', () => {
  it('moves what the list asks for and the reserve does not have', () => {
    const answer = change({ lines: [IMAGER], left: [thing('TIC-4', 'imager', 'officer seat')] });
    expect(answer.things).toMatchObject([{ becomes: 'moves', line: 'imager', to: 'officer seat' }]);
    expect(answer.lines[0]).toMatchObject({ there: 0, moves: 1, lacking: 0 });
  });

  it('leaves in its place what the reserve’s own gear fills', () => {
    const answer = change({
      lines: [SAWS],
      left: [thing('SAW-1', 'power-tool', 'L3'), thing('SAW-2', 'power-tool', 'L3')],
      taken: [thing('SAW-9', 'power-tool', 'R1')],
    });
    expect(of(answer, 'there')).toEqual(['SAW-9']);
    expect(of(answer, 'moves')).toEqual(['SAW-1']);
    expect(answer.things.find(t => t.thing.number === 'SAW-2')).toMatchObject({
      becomes: 'stays',
      why: 'its line is filled',
    });
  });

  it('takes no opened kit on the reserve for filling a line, and brings the sealed one before an opened one', () => {
    const answer = change({
      lines: [line('bags', 'kit', 1, 'R2')],
      left: [thing('MED-1', 'kit', 'R2', { isUnready: true }), thing('MED-2', 'kit', 'R2')],
      taken: [thing('MED-9', 'kit', 'R2', { isUnready: true })],
    });
    expect(of(answer, 'moves')).toEqual(['MED-2']);
    expect(answer.things.find(t => t.thing.number === 'MED-9')).toMatchObject({
      becomes: 'besides',
      why: 'to be counted and sealed',
    });
  });

  it('says what neither rig has', () =>
    expect(change({ lines: [SAWS], left: [thing('SAW-1', 'power-tool', 'L3')] }).lines[0]).toMatchObject({
      moves: 1,
      lacking: 1,
    }));

  it.each(['tagged out', 'retest owed', 'missing', 'held for investigation'] as const)(
    'never moves what is %s, and does not take it for filling a line on the reserve',
    condition => {
      const answer = change({
        lines: [IMAGER],
        left: [thing('TIC-4', 'imager', 'officer seat', { condition })],
        taken: [thing('TIC-8', 'imager', 'officer seat', { condition })],
      });
      expect(of(answer, 'stays')).toEqual(['TIC-4']);
      expect(of(answer, 'besides')).toEqual(['TIC-8']);
      expect(answer.lines[0]?.lacking).toBe(1);
    },
  );

  it('leaves what no line asks for, on either rig', () => {
    const answer = change({
      lines: [IMAGER],
      left: [thing('BAR-1', 'hand-tool', 'L1')],
      taken: [
        thing('BAR-2', 'hand-tool', 'L1'),
        thing('BAR-3', 'hand-tool', 'L1', { attributes: { kind: 'x' } }),
      ],
      ownList: [line('bars', 'hand-tool', 1, 'L1')],
    });
    expect(answer.things.map(t => [t.thing.number, t.becomes, t.why])).toEqual([
      ['BAR-1', 'stays', 'no line asks for it'],
      ['BAR-2', 'besides', 'on the rig’s own list'],
      ['BAR-3', 'besides', 'no line asks for it'],
    ]);
  });

  it('takes from another line’s place what would else be lacking', () => {
    // The reserve has a full first crosslay and an empty second one; the engine has only its first.
    const hose = (n: string, place: string) => thing(n, 'hose', place);
    const answer = change({
      lines: [line('one', 'hose', 1, 'crosslay 1'), line('two', 'hose', 1, 'crosslay 2')],
      left: [hose('31-1', 'crosslay 1')],
      taken: [hose('R-1', 'crosslay 1')],
    });
    expect(answer.things).toMatchObject([
      { becomes: 'moves', line: 'two', to: 'crosslay 2' },
      { becomes: 'there', line: 'one' },
    ]);
  });

  it('moves of a counted line what the reserve has too few of', () => {
    const wedges = line('wedges', null, 6, 'L3');
    const at = (left: number, taken: number) =>
      change({ lines: [wedges], counted: new Map([['wedges', { left, taken }]]) }).lines[0];
    expect(at(6, 0)).toMatchObject({ there: 0, moves: 6, stays: 0, lacking: 0 });
    expect(at(6, 4)).toMatchObject({ there: 4, moves: 2, stays: 4, lacking: 0 });
    expect(at(4, 9)).toMatchObject({ there: 6, moves: 0, stays: 4, lacking: 0 });
    expect(at(1, 2)).toMatchObject({ there: 2, moves: 1, stays: 0, lacking: 3 });
  });
});

describe('going back', () => {
  const back = (left: OnRig[], taken: OnRig[] = []) =>
    change({ lines: [IMAGER, SAWS], left, taken, leavesOwn: false });

  it('takes home what came along, whether a line asks for it or not', () => {
    const answer = back([
      thing('TIC-4', 'imager', 'officer seat', { origin: 'brought' }),
      thing('BAR-1', 'hand-tool', 'L1', { origin: 'brought' }),
    ]);
    expect(answer.things.map(t => [t.thing.number, t.becomes, t.line, t.to])).toEqual([
      ['TIC-4', 'moves', 'imager', 'officer seat'],
      ['BAR-1', 'moves', null, 'L1'],
    ]);
  });

  it('never takes along the reserve’s own, even where the home rig lacks it', () => {
    const answer = back([thing('SAW-9', 'power-tool', 'L3')]);
    expect(answer.things).toMatchObject([{ becomes: 'stays', why: 'belongs to this rig' }]);
    expect(answer.lines[1]?.lacking).toBe(2);
  });

  it('takes what was put on the reserve meanwhile only where a line is short at home', () => {
    const since = (n: string) => thing(n, 'power-tool', 'L3', { origin: 'since' });
    const answer = back([since('SAW-5'), since('SAW-6')], [thing('SAW-1', 'power-tool', 'L3')]);
    expect(of(answer, 'moves')).toEqual(['SAW-5']);
    expect(of(answer, 'stays')).toEqual(['SAW-6']);
  });
});

it('finds the place of the same name, else the one around it that is there', () => {
  const named = new Map([
    ['l3', 'a'],
    ['l3, tray 2', 'b'],
  ]);
  expect(placeOn(named, 'L3, tray 2')).toBe('b');
  expect(placeOn(named, 'L3, tray 7')).toBe('a');
  expect(placeOn(named, 'R9')).toBeNull();
  expect(placeOn(named, '')).toBeNull();
});

describe('whatever is on two rigs', () => {
  const FAMILIES = ['hose', 'imager', 'power-tool'];
  const PLACES = ['L1', 'L1, tray', 'L2', ''];
  const KINDS = ['a', 'b'];
  const arbitraryThing = fc.record({
    family: fc.constantFrom(...FAMILIES),
    kind: fc.constantFrom(...KINDS),
    place: fc.constantFrom(...PLACES),
    condition: fc.oneof(
      { weight: 4, arbitrary: fc.constant('serviceable' as const) },
      { weight: 1, arbitrary: fc.constantFrom(...CONDITIONS) },
    ),
    origin: fc.constantFrom('own' as const, 'brought' as const, 'since' as const),
  });
  const arbitraryLine = fc.record({
    family: fc.constantFrom(...FAMILIES, null),
    kind: fc.constantFrom(...KINDS, null),
    qty: fc.integer({ min: 1, max: 3 }),
    place: fc.constantFrom('L1', 'L2'),
  });
  const cases = fc.record({
    lines: fc.array(arbitraryLine, { maxLength: 6 }),
    left: fc.array(arbitraryThing, { maxLength: 8 }),
    taken: fc.array(arbitraryThing, { maxLength: 8 }),
    leavesOwn: fc.boolean(),
  });
  const made = (c: typeof cases extends fc.Arbitrary<infer T> ? T : never): Rigs<OnRig> => ({
    lines: c.lines.map((l, i) =>
      line(`line ${i}`, l.family, l.qty, l.place, l.kind && l.family ? { kind: l.kind } : {}),
    ),
    left: c.left.map((t, i) => ({
      ...thing(`A-${i}`, t.family, t.place),
      ...t,
      attributes: { kind: t.kind },
    })),
    taken: c.taken.map((t, i) => ({
      ...thing(`B-${i}`, t.family, t.place),
      ...t,
      attributes: { kind: t.kind },
    })),
    ownList: [],
    leavesOwn: c.leavesOwn,
    counted: new Map(c.lines.map((_, i) => [`line ${i}`, { left: i % 4, taken: (i * 2) % 5 }])),
  });

  it('puts every thing in exactly one class, counts nothing twice and fills no line over', () => {
    fc.assert(
      fc.property(cases, c => {
        const rigs = made(c);
        const answer = changeover(rigs);
        expect(answer.things.map(t => t.thing.item).sort()).toEqual(
          [...rigs.left, ...rigs.taken].map(t => t.item).sort(),
        );
        for (const t of answer.things) {
          const onLeft = rigs.left.includes(t.thing);
          expect(onLeft).toBe(t.becomes === 'moves' || t.becomes === 'stays');
          if (t.becomes === 'moves' || t.becomes === 'there') expect(serves(t.thing.condition)).toBe(true);
          if (t.becomes === 'moves' && !rigs.leavesOwn) expect(t.thing.origin).not.toBe('own');
          const filled = rigs.lines.find(l => l.line === t.line);
          if (filled) expect(isOfLine(filled, t.thing)).toBe(true);
        }
        for (const { line: of, there, moves, lacking } of answer.lines) {
          expect(there + moves + lacking).toBe(of.qty);
          if (of.family === null) continue;
          expect(answer.things.filter(t => t.line === of.line)).toHaveLength(there + moves);
        }
      }),
      { numRuns: 600 },
    );
  });

  it('leaves nothing lacking that lies unused on either rig and may go', () => {
    fc.assert(
      fc.property(cases, c => {
        const rigs = made(c);
        const { things, lines } = changeover(rigs);
        const idle = things.filter(
          t =>
            t.line === null &&
            serves(t.thing.condition) &&
            (rigs.taken.includes(t.thing) || rigs.leavesOwn || t.thing.origin === 'since'),
        );
        for (const { line: of, lacking } of lines)
          if (of.family !== null && lacking > 0) expect(idle.filter(t => isOfLine(of, t.thing))).toEqual([]);
      }),
      { numRuns: 600 },
    );
  });
});
