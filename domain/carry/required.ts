/**
 * Whether a carry list has what the published lists ask for. An advice with its source: the department and its AHJ
 * decide which edition binds them. What is not stated never counts as meeting a minimum.
 */
import { compare, decimalOf } from '../derive/decimal.ts';
import type { Source } from '../rulebook/types.ts';
import { fromMemory, pumper, QUINT } from './published.ts';
import type { LineBody } from './types.ts';

/** What of a list or a rig is held against a figure. */
type Measure =
  | { of: 'pump_gpm' | 'tank_gal' }
  /** Feet of hose of these diameters: of one and larger, or of some. */
  | { of: 'hose'; from_in: string; to_in: string | null }
  /** Handline nozzles that flow so much, gal/min, or more. */
  | { of: 'nozzle'; flow_gpm: number }
  | { of: 'ladder feet' }
  | { of: 'ladder'; types: readonly string[] }
  /** How many of what is called so. */
  | { of: 'count'; words: RegExp; family?: string };

export interface Minimum {
  id: string;
  title: string;
  unit: string;
  atLeast: number;
  measure: Measure;
  source: Source;
}

/** Kinds of rigs that a published list names, and what departments call them. */
const KINDS = {
  pumper: ['engine', 'pumper'],
  'initial attack': ['brush', 'initial attack'],
  quint: ['quint'],
  aerial: ['ladder', 'tower ladder', 'truck', 'aerial'],
  tender: ['tender'],
} as const;
export type PublishedKind = keyof typeof KINDS;

const figure = (
  kind: string,
  id: string,
  title: string,
  unit: string,
  atLeast: number,
  measure: Measure,
  source: Source,
): Minimum => ({ id: `${kind}.${id}`, title, unit, atLeast, measure, source });

/** Nominal sizes of attack hose: 1½, 1¾ and 2 in. */
const ATTACK = { of: 'hose', from_in: '1.5', to_in: '2' } as const;
const SUPPLY = { of: 'hose', from_in: '2.5', to_in: null } as const;

const hoseOf = (kind: string, supply_ft: number, source: Source): Minimum[] => [
  figure(kind, 'hose-large', 'Hose of 2½ in or larger', 'ft', supply_ft, SUPPLY, source),
  figure(kind, 'hose-attack', 'Attack hose of 1½, 1¾ or 2 in', 'ft', 400, ATTACK, source),
];

const ladders = (
  kind: string,
  feet: number,
  each: readonly [number, number, number],
  source: Source,
): Minimum[] => {
  const [extension, straight, attic] = each;
  const of = (id: string, title: string, n: number, types: readonly string[]) =>
    figure(kind, id, title, '', n, { of: 'ladder', types }, source);
  return [
    figure(kind, 'ladders', 'Ground ladders', 'ft', feet, { of: 'ladder feet' }, source),
    of('extension', 'Extension ladders', extension, ['extension']),
    of('straight', 'Straight ladders with hooks', straight, ['roof']),
    of('attic', 'Attic ladders', attic, ['folding']),
  ];
};

/** Loose equipment of a pumper: what it is called, how many, and by which words a line is known. */
const LOOSE: readonly (readonly [title: string, atLeast: number, words: RegExp, family?: string])[] = [
  ['Flathead axe', 1, /flat[- ]?head axe/i],
  ['Pickhead axe', 1, /pick[- ]?head axe/i],
  ['Pike pole', 2, /pike pole/i],
  ['Portable hand light', 2, /hand ?light|flashlight/i],
  ['Dry chemical extinguisher', 1, /dry chem/i],
  ['Water extinguisher', 1, /extinguisher.*water|water.*extinguisher/i],
  ['SCBA', 4, /scba(?! cyl)|breathing apparatus/i, 'pack'],
  ['Spare SCBA cylinder', 4, /cylinder/i, 'cylinder'],
  ['First aid kit', 1, /first aid/i],
  ['Spanner wrench', 4, /spanner/i],
  ['Hydrant wrench', 2, /hydrant wrench/i],
  ['Double female adapter', 1, /double female/i],
  ['Double male adapter', 1, /double male/i],
  ['Rubber mallet', 1, /mallet/i],
  ['Salvage cover', 2, /salvage (cover|sheet)/i],
  ['Wheel chock', 2, /chock/i],
  ['Traffic vest', 4, /traffic vest/i],
  ['Traffic cone', 5, /traffic cone/i],
  ['Illuminated warning device', 5, /warning (device|light|flare)/i],
  ['AED', 1, /\baed\b|defibrillator/i, 'aed'],
];

const loose = (): Minimum[] =>
  LOOSE.map(([title, atLeast, words, family]) =>
    figure(
      'pumper',
      title.toLowerCase().replace(/\W+/g, '-'),
      title,
      '',
      atLeast,
      { of: 'count', words, ...(family ? { family } : {}) },
      fromMemory('5.9'),
    ),
  );

const nozzle = (kind: string, flow_gpm: number, atLeast: number, source: Source): Minimum =>
  figure(
    kind,
    `nozzle-${flow_gpm}`,
    `Nozzles of ${flow_gpm} gal/min or more`,
    '',
    atLeast,
    { of: 'nozzle', flow_gpm },
    source,
  );

const pumpAndTank = (kind: string, gpm: number, gal: number, source: Source): Minimum[] => [
  figure(kind, 'pump', 'Pump', 'gal/min', gpm, { of: 'pump_gpm' }, source),
  figure(kind, 'tank', 'Tank', 'gal', gal, { of: 'tank_gal' }, source),
];

/** Every published minimum that can be held against a list, by the kind it is for. */
export const MINIMUMS: Readonly<Record<PublishedKind, readonly Minimum[]>> = {
  pumper: [
    ...pumpAndTank('pumper', 750, 300, pumper('5')),
    ...hoseOf('pumper', 800, pumper('5')),
    nozzle('pumper', 200, 1, pumper('5')),
    nozzle('pumper', 95, 2, pumper('5')),
    ...loose(),
  ],
  'initial attack': [
    ...pumpAndTank('initial-attack', 250, 200, pumper('6')),
    ...hoseOf('initial-attack', 300, pumper('6')),
    nozzle('initial-attack', 95, 2, pumper('6')),
  ],
  quint: [...pumpAndTank('quint', 1000, 300, QUINT), ...ladders('quint', 85, [1, 1, 1], QUINT)],
  aerial: ladders('aerial', 115, [2, 2, 1], fromMemory('ch. 8')),
  tender: [figure('tender', 'tank', 'Tank', 'gal', 1000, { of: 'tank_gal' }, fromMemory('ch. 7'))],
};

/** Which published list is for a unit of this kind; null where none is. */
export function publishedKind(kind: string | null): PublishedKind | null {
  const said = kind?.toLowerCase().trim() ?? '';
  for (const [published, names] of Object.entries(KINDS))
    if ((names as readonly string[]).includes(said)) return published as PublishedKind;
  return null;
}

export interface Held {
  minimum: Minimum;
  /** What the list or the rig has of it; null where it cannot be told. */
  has: number | null;
  /** Why it cannot be told; null where it can. */
  why: string | null;
  met: boolean;
}

/** What is known of the rig that the unit rides. */
export interface RigFigures {
  pump_gpm: number | null;
  tank_gal: number | null;
}

/** Every published minimum of a kind, held against a list and its rig. */
export function holdAgainst(kind: PublishedKind, lines: readonly LineBody[], rig: RigFigures): Held[] {
  return MINIMUMS[kind].map(minimum => {
    const { has, why } = measured(minimum.measure, lines, rig);
    return { minimum, has, why, met: has !== null && has >= minimum.atLeast };
  });
}

function measured(
  measure: Measure,
  lines: readonly LineBody[],
  rig: RigFigures,
): { has: number | null; why: string | null } {
  switch (measure.of) {
    case 'pump_gpm':
    case 'tank_gal': {
      const has = rig[measure.of];
      return { has, why: has === null ? 'It is not known of the rig.' : null };
    }
    case 'hose': {
      const { from_in, to_in } = measure;
      const fits = lines.filter(
        l =>
          l.family === 'hose' &&
          atLeast(l, 'diameter_in', from_in) &&
          (to_in === null || atMost(l, 'diameter_in', to_in)),
      );
      return feetOf(
        fits,
        lines.filter(l => l.family === 'hose' && l.like.diameter_in === undefined),
        'diameter',
      );
    }
    case 'ladder feet': {
      const ladders = lines.filter(l => l.family === 'ladder');
      return feetOf(ladders, [], 'length');
    }
    case 'ladder':
      return {
        has: sum(lines.filter(l => l.family === 'ladder' && measure.types.includes(String(l.like.type)))),
        why: null,
      };
    case 'nozzle': {
      const nozzles = lines.filter(l => l.family === 'nozzle');
      const stated = nozzles.filter(l => l.like.flow_gpm !== undefined);
      const has = sum(stated.filter(l => atLeast(l, 'flow_gpm', String(measure.flow_gpm))));
      const silent = sum(nozzles) - sum(stated);
      return silent > 0
        ? { has: null, why: `Of ${silent} nozzles the list does not say what they flow.` }
        : { has, why: null };
    }
    case 'count': {
      const { words, family } = measure;
      const called = lines.filter(l => words.test(l.what) || (family !== undefined && l.family === family));
      // That no line is called so may mean that it is called something else.
      return called.length === 0
        ? { has: null, why: 'No line of the list is called so.' }
        : { has: sum(called), why: null };
    }
  }
}

/** Feet of these lines together; a line that does not say its length cannot be told. */
function feetOf(
  lines: readonly LineBody[],
  silent: readonly LineBody[],
  what: string,
): { has: number | null; why: string | null } {
  const unstated = [...silent, ...lines.filter(l => decimalOf(l.like.length_ft) === null)];
  if (unstated.length > 0)
    return {
      has: null,
      why: `“${unstated[0]?.what}” does not say its ${silent.length > 0 ? what : 'length'}.`,
    };
  return { has: lines.reduce((feet, l) => feet + l.qty * Number(l.like.length_ft), 0), why: null };
}

const sum = (lines: readonly LineBody[]): number => lines.reduce((n, l) => n + l.qty, 0);

function atLeast(line: LineBody, key: string, limit: string): boolean {
  const [known, least] = [decimalOf(line.like[key]), decimalOf(limit)];
  return known !== null && least !== null && compare(known, least) >= 0;
}

function atMost(line: LineBody, key: string, limit: string): boolean {
  const [known, most] = [decimalOf(line.like[key]), decimalOf(limit)];
  return known !== null && most !== null && compare(known, most) <= 0;
}
