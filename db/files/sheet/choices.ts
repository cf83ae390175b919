/** Words of the trade for the fields that hold one of a few choices, and for condition and assignment. */
import type { Assignment, Condition } from '../../../domain/facts.ts';

type Words = readonly (readonly [value: string, words: string])[];

const HOSE_USE: Words = [
  ['occupant', 'occupant, occupant use, occ, cabinet, house line, rack hose, standpipe cabinet'],
  ['forestry', 'forestry, forest, wildland, wild land, brush, wl, interface, mop up, grass'],
  ['booster', 'booster, reel, booster reel, red line, redline, hard line, hardline'],
  [
    'supply',
    'supply, sup, s, feeder, feed, relay, ldh, large diameter, soft suction, soft sleeve, supply line',
  ],
  ['suction', 'suction, hard suction, drafting, draft, suct, hard sleeve'],
  [
    'attack',
    `attack, att, atk, a, handline, hand line, preconnect, crosslay, cross lay, trash line, bumper line, discharge,
     fire attack, initial attack, high rise, hi rise, leader line, attack line`,
  ],
];
const LADDER_TYPE: Words = [
  ['combination', 'combination, combo, comb, combi, a frame, aframe, multi purpose, multipurpose, c'],
  ['folding', 'folding, attic, attic folding, folding attic, closet, fold, collapsible, scissor, a, f'],
  ['roof', 'roof, roof hook, hook, hooks, roof hooks, r'],
  [
    'extension',
    'extension, ext, extn, exten, e, two section, 2 section, three section, 3 section, bangor, tormentor',
  ],
  ['pompier', 'pompier, scaling'],
  ['single', 'single, straight, wall, s, str, one section, 1 section'],
];
const LADDER_MATERIAL: Words = [
  ['aluminum', 'aluminum, aluminium, alum, al, alu, alloy, aluminun, a'],
  ['fiberglass', 'fiberglass, fibreglass, fiber glass, fg, frp, glass, f glass, fbg, fgl, f'],
  ['wood', 'wood, wooden, wd, timber, ash, fir, spruce, w'],
];
const CYLINDER_CONSTRUCTION: Words = [
  ['hoop', 'hoop, hoop wrapped, hoop wrap, hw, partial wrap, partially wrapped'],
  [
    'carbon',
    'carbon, carbon fiber, carbon fibre, carbon wrapped, carbon wrap, cf, cffc, carbon composite, full wrap carbon, fully wrapped carbon',
  ],
  [
    'fiberglass',
    'fiberglass, fibreglass, glass, glass fiber, full wrap fiberglass, fiberglass wrapped, fg, frp',
  ],
  ['aramid', 'aramid, full wrap aramid, aramid wrapped'],
  ['steel', 'steel, stl, st, chrome moly'],
  ['aluminum', 'aluminum, aluminium, alum, al, alu'],
];

/** By attribute; no two families give one of these names to different choices. */
const BY_FIELD: Readonly<Record<string, Words>> = {
  use: HOSE_USE,
  type: LADDER_TYPE,
  material: LADDER_MATERIAL,
  construction: CYLINDER_CONSTRUCTION,
};

const tables = new Map(Object.entries(BY_FIELD).map(([field, words]) => [field, tableOf(words)]));

function tableOf(words: Words): Map<string, string> {
  const table = new Map<string, string>();
  for (const [value, list] of words)
    for (const word of list.split(',')) table.set(word.replace(/\s+/g, ' ').trim(), value);
  return table;
}

/**
 * The choice a text means.
 * @returns null where no word of it is known, or words of two choices stand in it
 */
export function readChoice(field: string, text: string): string | null {
  const table = tables.get(field);
  if (!table) return null;
  const words = wordsOf(text);
  const whole = table.get(words.join(' '));
  if (whole) return whole;
  const found = new Set<string>();
  for (let i = 0; i < words.length; i++) {
    for (let n = Math.min(3, words.length - i); n >= 1; n--) {
      const phrase = words.slice(i, i + n).join(' ');
      const value = phrase.length > 1 ? table.get(phrase) : undefined;
      if (value === undefined) continue;
      found.add(value);
      i += n - 1;
      break;
    }
  }
  // "Carbon over aluminum liner" names its liner too; the wrap is the construction.
  const wraps = [...found].filter(value => value !== 'aluminum' && value !== 'steel');
  const values = field === 'construction' && wraps.length === 1 ? wraps : [...found];
  return values.length === 1 ? (values[0] ?? null) : null;
}

const CONDITION_WORDS: readonly (readonly [Condition, string])[] = [
  [
    'serviceable',
    'serviceable, y, yes, true, in service, in svc, is, i s, active, available, ready, good, ok, excellent, satisfactory, service',
  ],
  ['limited use', 'limited use, limited, restricted'],
  [
    'tagged out',
    'tagged out, n, no, false, out of service, oos, o o s, out of svc, not in service, down, red tag, red tagged, tagged, inactive, unserviceable, failed',
  ],
  [
    'at repair',
    'at repair, repair, in repair, repairs, in shop, shop, out for repair, being repaired, at vendor',
  ],
  ['retest owed', 'retest owed, retest, needs test, needs testing, needs retest, awaiting test'],
  ['held for investigation', 'held for investigation, held, impounded, evidence'],
  ['missing', 'missing, lost, not found, unaccounted'],
  ['retired', 'retired, condemned, removed, removed from service, decommissioned, scrap, scrapped, retire'],
  ['disposed', 'disposed, destroyed, sold, surplus, discarded, junked, disposed of'],
  ['on order', 'on order, ordered, backordered'],
  ['received', 'received'],
];
const ASSIGNMENT_WORDS: readonly (readonly [Assignment, string])[] = [
  ['first line', 'first line, front line, frontline, first due, assigned'],
  ['reserve', 'reserve, reserves'],
  ['ready spare', 'ready spare, spare, spares'],
  ['training only', 'training only, training, train, drill'],
  ['issued', 'issued'],
  ['loaned out', 'loaned out, loaned, on loan, loan'],
  ['storage', 'storage, stored, stock, in storage, warehouse'],
];
const conditions = wordTable(CONDITION_WORDS);
const assignments = wordTable(ASSIGNMENT_WORDS);

function wordTable<T extends string>(entries: readonly (readonly [T, string])[]): Map<string, T> {
  return new Map(
    entries.flatMap(([value, list]) => list.split(',').map(word => [word.trim(), value] as const)),
  );
}

/** Condition or assignment as a status column gives it; both null where the words are not known. */
export function readStatus(text: string): { condition: Condition | null; assignment: Assignment | null } {
  const words = wordsOf(text).join(' ');
  return { condition: conditions.get(words) ?? null, assignment: assignments.get(words) ?? null };
}

/** Yes or no; undefined where it is neither. */
export function readFlag(text: string): boolean | undefined {
  const lower = text.toLowerCase();
  if (/^(\*|★|☆|⭐|x|y|yes|true|star|1|✓|✔|\+)$/.test(lower)) return true;
  return /^(n|no|false|0|none)$/.test(lower) ? false : undefined;
}

function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .replace(/['’]/g, '')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim()
    .split(' ');
}
