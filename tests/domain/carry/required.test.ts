/**
 * The published minimums of what a rig carries: NFPA 1901 (2016) ch. 5 and 6, as quoted by a trade journal and a public
 * study set; ch. 9 (2009), quint, a public extract; ch. 8 and 5.9 (2009) from memory. NFPA 1900 (2024) was not seen.
 */
import { describe, expect, it } from 'vitest';
import { holdAgainst, MINIMUMS, publishedKind } from '../../../domain/carry/required.ts';
import { TEMPLATES } from '../../../domain/carry/templates.ts';
import type { LineBody } from '../../../domain/carry/types.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';

const line = (what: string, qty: number, more: Partial<LineBody> = {}): LineBody => ({
  what,
  family: null,
  like: {},
  qty,
  min: qty,
  place: 'L1',
  critical: false,
  verify: 'sight',
  reading: null,
  source: null,
  ...more,
});
const hose = (qty: number, diameter_in: string, length_ft: string | undefined) =>
  line('hose', qty, { family: 'hose', like: { diameter_in, ...(length_ft ? { length_ft } : {}) } });
const ladder = (type: string, length_ft: string) =>
  line('ladder', 1, { family: 'ladder', like: { type, length_ft } });
const UNKNOWN = { pump_gpm: null, tank_gal: null };
const held = (
  kind: keyof typeof MINIMUMS,
  lines: LineBody[],
  rig = UNKNOWN as { pump_gpm: number | null; tank_gal: number | null },
) => new Map(holdAgainst(kind, lines, rig).map(h => [h.minimum.id, h]));

const figures = (kind: keyof typeof MINIMUMS) =>
  Object.fromEntries(MINIMUMS[kind].map(m => [m.id.split('.')[1], m.atLeast]));

describe('the published figures', () => {
  it('of a pumper: pump 750, tank 300, 800 ft large, 400 ft attack, one of 200 and two of 95 gal/min', () => {
    expect(figures('pumper')).toMatchObject({
      pump: 750,
      tank: 300,
      'hose-large': 800,
      'hose-attack': 400,
      'nozzle-200': 1,
      'nozzle-95': 2,
    });
  });

  it('of loose equipment on a pumper, NFPA 1901 (2009) 5.9, from memory', () => {
    expect(figures('pumper')).toMatchObject({
      'flathead-axe': 1,
      'pickhead-axe': 1,
      // One of 6 ft and one of 8 ft or longer.
      'pike-pole': 2,
      'portable-hand-light': 2,
      'dry-chemical-extinguisher': 1,
      'water-extinguisher': 1,
      scba: 4,
      'spare-scba-cylinder': 4,
      'first-aid-kit': 1,
      'spanner-wrench': 4,
      'hydrant-wrench': 2,
      'double-female-adapter': 1,
      'double-male-adapter': 1,
      'rubber-mallet': 1,
      'salvage-cover': 2,
      'wheel-chock': 2,
      'traffic-vest': 4,
      'traffic-cone': 5,
      'illuminated-warning-device': 5,
      aed: 1,
    });
  });

  it('of an initial attack rig: pump 250, tank 200, 300 ft large, 400 ft attack, two nozzles of 95 gal/min', () => {
    expect(figures('initial attack')).toEqual({
      pump: 250,
      tank: 200,
      'hose-large': 300,
      'hose-attack': 400,
      'nozzle-95': 2,
    });
  });

  it('of a quint: pump 1,000, tank 300, 85 ft of ground ladders, one extension, one straight, one attic', () => {
    expect(figures('quint')).toEqual({
      pump: 1000,
      tank: 300,
      ladders: 85,
      extension: 1,
      straight: 1,
      attic: 1,
    });
  });

  it('of an aerial: 115 ft of ground ladders, two extension, two straight with hooks, one attic; from memory', () => {
    expect(figures('aerial')).toEqual({ ladders: 115, extension: 2, straight: 2, attic: 1 });
    expect(MINIMUMS.aerial.every(m => m.source.confidence === 'memory')).toBe(true);
  });
});

describe('a list held against them', () => {
  it('counts hose in feet, 2½ in and larger apart from 1½, 1¾ and 2 in', () => {
    const now = held('pumper', [
      hose(15, '2.5', '50'),
      hose(7, '1.75', '50'),
      hose(1, '2', '50'),
      hose(4, '1', '100'),
    ]);
    expect(now.get('pumper.hose-large')).toMatchObject({ has: 750, met: false });
    expect(now.get('pumper.hose-attack')).toMatchObject({ has: 400, met: true });
    expect(held('pumper', [hose(8, '5', '100')]).get('pumper.hose-large')?.met).toBe(true);
  });

  it('never takes what is not stated for met', () => {
    expect(held('pumper', [hose(99, '2.5', undefined)]).get('pumper.hose-large')).toMatchObject({
      has: null,
      met: false,
    });
    const nozzles = line('nozzle', 9, { family: 'nozzle', like: {} });
    expect(held('pumper', [nozzles]).get('pumper.nozzle-95')).toMatchObject({ has: null, met: false });
    expect(held('pumper', []).get('pumper.pump')).toMatchObject({ has: null, met: false });
    expect(held('pumper', []).get('pumper.rubber-mallet')).toMatchObject({ has: null, met: false });
    expect(held('pumper', [line('Traffic cone', 3)]).get('pumper.traffic-cone')).toMatchObject({
      has: 3,
      met: false,
    });
  });

  it('of a quint asks for 85 ft and one of each kind: feet alone are not enough', () => {
    const feet = held('quint', [ladder('extension', '35'), ladder('extension', '35'), ladder('roof', '20')]);
    expect(feet.get('quint.ladders')).toMatchObject({ has: 90, met: true });
    expect(feet.get('quint.attic')).toMatchObject({ has: 0, met: false });
    expect(held('quint', [], { pump_gpm: 999, tank_gal: 300 }).get('quint.pump')?.met).toBe(false);
    expect(held('quint', [], { pump_gpm: 1000, tank_gal: 300 }).get('quint.pump')?.met).toBe(true);
  });

  it('is asked for by what departments call their units', () => {
    expect(['engine', 'Tower ladder', 'quint', 'brush', 'tender', 'rescue', null].map(publishedKind)).toEqual(
      ['pumper', 'aerial', 'quint', 'initial attack', 'tender', null, null],
    );
  });
});

describe('the lists to begin from', () => {
  it.each([
    ['engine', 'pumper'],
    ['ladder', 'aerial'],
    ['quint', 'quint'],
  ] as const)('of a %s meets every published minimum that a list can meet', (kind, published) => {
    const lines = TEMPLATES.find(t => t.kind === kind)?.lines ?? [];
    const unmet = holdAgainst(published, lines, { pump_gpm: 1500, tank_gal: 1000 }).filter(h => !h.met);
    // What a nozzle flows is the department's to say.
    expect(unmet.filter(h => h.minimum.measure.of !== 'nozzle').map(h => [h.minimum.title, h.has])).toEqual(
      [],
    );
  });

  it('name families that there are, and ask of their things only what the family has', () => {
    for (const { kind, lines } of TEMPLATES)
      for (const { what, family, like, qty, min } of lines) {
        expect(min, `${kind}: ${what}`).toBeLessThanOrEqual(qty);
        if (family === null) continue;
        const known = familyOf(family);
        for (const [key, value] of Object.entries(like)) {
          const attribute = known?.attributes.find(a => a.key === key);
          expect(attribute, `${kind}: ${what}: ${family}.${key}`).toBeDefined();
          if (attribute?.choices) expect(attribute.choices.map(c => c.value)).toContain(value);
        }
      }
  });

  it('say of every line where its number is from', () => {
    expect(TEMPLATES.flatMap(t => t.lines).every(l => l.source !== null)).toBe(true);
  });
});
