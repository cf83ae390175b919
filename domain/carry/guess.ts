/** What people write on an inventory sheet, as a line of a carry list: of which family, and what it must be like. */
import type { Values } from '../facts.ts';
import type { Verify } from './types.ts';

export interface Guess {
  /** Null where the words name nothing that is tracked one by one. */
  family: string | null;
  like: Values;
  verify: Verify;
}

type Rule = readonly [
  words: RegExp,
  family: string,
  like?: ((text: string) => Values) | undefined,
  verify?: Verify,
];

/** Asked in this order: the first that fits. */
const RULES: readonly Rule[] = [
  [/\bhose\b(?!.*\bclamp\b)/, 'hose', hoseLike],
  [/\bladder\b(?!.*\bbelt\b)/, 'ladder', ladderLike],
  [/\b(spare|scba|air) (cylinder|bottle)s?\b|\bcylinder\b/, 'cylinder'],
  [/\b(scba|air pack|breathing apparatus)\b/, 'pack', undefined, 'number read'],
  [/\b(face ?piece|mask)\b/, 'facepiece'],
  [/\bextinguisher\b/, 'extinguisher', extinguisherLike],
  [/\bcalibration gas\b/, 'calibration-gas'],
  [/\b(gas (meter|monitor|detector)|\d-gas)\b/, 'gas-meter', () => ({}), 'operated'],
  [/\b(thermal imag\w*|imager)\b/, 'imager', undefined, 'operated'],
  [/\bbolt cutter/, 'hand-tool', () => ({ kind: 'bolt cutter' }), 'count'],
  [/\b(spreader|cutter|ram)\b/, 'rescue-tool', kindOf(['spreader', 'cutter', 'ram']), 'operated'],
  [/\bchain ?saw/, 'power-tool', () => ({ kind: 'chain saw' }), 'operated'],
  [/\b(rotary|cut-?off) saw/, 'power-tool', () => ({ kind: 'rotary saw' }), 'operated'],
  [/\breciprocating saw/, 'power-tool', () => ({ kind: 'reciprocating saw' }), 'operated'],
  [/\bfan\b/, 'power-tool', fanLike, 'operated'],
  [/\bgenerator\b/, 'power-tool', () => ({ kind: 'generator' }), 'operated'],
  [/\b(hand|scene|flood) ?light|\bflashlight/, 'power-tool', () => ({ kind: 'light' }), 'operated'],
  [/\bportable radio|\bradio\b(?!.*\bbatter)/, 'radio', undefined, 'operated'],
  [/\bbatter(y|ies)\b/, 'battery'],
  [/\baed\b|\bdefibrillator/, 'aed', undefined, 'operated'],
  [/\bnozzle\b/, 'nozzle', nozzleLike],
  [/\bgated wye\b/, 'appliance', () => ({ kind: 'gated wye' }), 'count'],
  [/\bsiamese\b/, 'appliance', () => ({ kind: 'siamese' }), 'count'],
  [/\beductor\b/, 'appliance', () => ({ kind: 'eductor' }), 'count'],
  [/\bhose clamp\b/, 'appliance', () => ({ kind: 'hose clamp' }), 'count'],
  [/\b(double (male|female)|adapter)\b/, 'appliance', () => ({ kind: 'adapter' }), 'count'],
  [/\bharness\b/, 'harness'],
  [/\brope\b(?!.*\bbag\b)/, 'rope', ropeLike],
  [/\baxe?\b/, 'hand-tool', () => ({ kind: 'axe' }), 'count'],
  [/\b(pike|hook)\b/, 'hand-tool', () => ({ kind: 'pike pole or hook' }), 'count'],
  [/\bsledge/, 'hand-tool', () => ({ kind: 'sledgehammer' }), 'count'],
  [/\bforcible entry bar|\bpry ?bar|\bcrow ?bar/, 'hand-tool', () => ({}), 'count'],
  [/\bshovel\b/, 'hand-tool', () => ({ kind: 'shovel' }), 'count'],
  [/\b(spanner|wrench)\b/, 'hand-tool', () => ({ kind: 'wrench' }), 'count'],
];

/**
 * Read the words of a line. What is not recognised is counted and not tracked; a size or kind that is not written is
 * not guessed, so a line that says less takes any of its family.
 */
export function guessLine(words: string): Guess {
  const text = plain(words);
  for (const [pattern, family, like, verify] of RULES)
    if (pattern.test(text)) return { family, like: like?.(text) ?? {}, verify: verify ?? 'sight' };
  return { family: null, like: {}, verify: 'count' };
}

/** Lower case, fractions as decimals (`1 3/4` and `1¾` are `1.75`), spaces single. */
function plain(words: string): string {
  const parts: Readonly<Record<string, string>> = {
    '1/4': '25',
    '1/2': '5',
    '3/4': '75',
    '¼': '25',
    '½': '5',
    '¾': '75',
  };
  return words
    .toLowerCase()
    .replace(
      /(\d+)?[\s-]?(1\/4|1\/2|3\/4|[¼½¾])/g,
      (_, whole: string | undefined, part: string) => `${whole ?? '0'}.${parts[part]}`,
    )
    .replace(/\s+/g, ' ')
    .trim();
}

/** A figure before a unit, without what a decimal does not need: `2.50 in` is `2.5`. */
function before(text: string, unit: string): string | null {
  const found = new RegExp(`(\\d+(?:\\.\\d+)?)[\\s-]?(?:${unit})(?![a-z])`).exec(text)?.[1];
  if (found === undefined) return null;
  return found.includes('.') ? found.replace(/0+$/, '').replace(/\.$/, '') : found;
}

function hoseLike(text: string): Values {
  const use =
    /\b(attack|supply|forestry|booster)\b/.exec(text)?.[1] ?? (/\bsuction\b/.test(text) ? 'suction' : null);
  return stated({
    diameter_in: before(text, 'inch|in\\.?|"|″'),
    length_ft: before(text, "feet|foot|ft\\.?|'|′"),
    use,
  });
}

function ladderLike(text: string): Values {
  const type =
    /\b(roof|extension|combination)\b/.exec(text)?.[1] ??
    (/\b(attic|folding)\b/.test(text) ? 'folding' : null);
  return stated({ type, length_ft: before(text, "feet|foot|ft\\.?|'|′") });
}

function extinguisherLike(text: string): Values {
  if (/\bco2\b|carbon dioxide/.test(text)) return { type: 'CO2' };
  if (/\bwater\b/.test(text)) return { type: 'water stored pressure' };
  if (/\bdry chem/.test(text)) return { type: 'dry chemical stored pressure' };
  return /\bwet chem/.test(text) ? { type: 'wet chemical' } : {};
}

function ropeLike(text: string): Values {
  const kind = /\blife ?safety\b/.test(text) ? 'life safety' : /\b(utility|escape)\b/.exec(text)?.[1];
  return stated({ kind: kind ?? null, length_ft: before(text, "feet|foot|ft\\.?|'|′") });
}

function nozzleLike(text: string): Values {
  const kind =
    /\b(smooth bore|piercing|cellar|foam|combination)\b/.exec(text)?.[1] ??
    (/\bfog\b/.test(text) ? 'combination' : null);
  return stated({ kind });
}

function fanLike(text: string): Values {
  return { kind: 'fan', ...(/\bbattery\b/.test(text) ? { power: 'battery' } : {}) };
}

function kindOf(kinds: readonly string[]): (text: string) => Values {
  return text => stated({ kind: kinds.find(k => text.includes(k)) ?? null });
}

const stated = (values: Record<string, string | null>): Values =>
  Object.fromEntries(Object.entries(values).filter(([, v]) => v !== null));
