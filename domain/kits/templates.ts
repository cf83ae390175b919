/**
 * Kits to begin from. An offer: the department adopts one, edits it, and says what it really packs. What such a kit
 * holds, how many, and what of it is critical is common practice, no source; medical contents are for the
 * department's medical direction to say.
 */
import { PRACTICE } from '../carry/published.ts';
import type { LineBody } from '../carry/types.ts';

export interface KitTemplate {
  what: string;
  lines: readonly LineBody[];
}

/** What, how many, in which pocket; the least where that is fewer; whether it is critical. */
type Row = readonly [what: string, qty: number, pocket: string, min?: number, critical?: 'critical'];

const template = (what: string, rows: readonly Row[]): KitTemplate => ({
  what,
  lines: rows.map(([line, qty, place, min = qty, critical]) => ({
    what: line,
    family: null,
    like: {},
    qty,
    min,
    place,
    critical: critical === 'critical',
    verify: 'count',
    reading: null,
    source: PRACTICE,
  })),
});

export const KIT_TEMPLATES: readonly KitTemplate[] = [
  template('Trauma bag', [
    ['Tourniquet', 2, 'front pocket', 2, 'critical'],
    ['Trauma dressing', 4, 'main', 2, 'critical'],
    ['Chest seal', 2, 'main', 2],
    ['Gauze roll', 8, 'main', 4],
    ['Gauze pad 4 in', 20, 'main', 10],
    ['Tape roll', 2, 'main', 1],
    ['Triangular bandage', 4, 'main', 2],
    ['Splint, formable', 2, 'side pocket', 1],
    ['Cervical collar, adjustable', 1, 'side pocket'],
    ['Shears', 1, 'front pocket'],
    ['Gloves, pair', 10, 'front pocket', 6],
    ['Emergency blanket', 2, 'side pocket', 1],
  ]),
  template('Airway bag', [
    ['Bag-valve mask, adult', 1, 'main', 1, 'critical'],
    ['Bag-valve mask, child', 1, 'main', 1, 'critical'],
    ['Oral airway set', 1, 'main', 1, 'critical'],
    ['Nasal airway set', 1, 'main'],
    ['Non-rebreather mask', 3, 'main', 2],
    ['Nasal cannula', 3, 'main', 2],
    ['Suction, hand', 1, 'side pocket'],
    ['Oxygen key', 1, 'side pocket'],
  ]),
  template('First-in medical bag', [
    ['Bag-valve mask, adult', 1, 'main', 1, 'critical'],
    ['Oral airway set', 1, 'main', 1, 'critical'],
    ['Tourniquet', 2, 'front pocket', 1, 'critical'],
    ['Trauma dressing', 2, 'main', 1],
    ['Gauze roll', 4, 'main', 2],
    ['Aspirin, chewable, pack', 1, 'inside pocket'],
    ['Oral glucose', 2, 'inside pocket', 1],
    ['Pocket mask', 1, 'front pocket'],
    ['Blood pressure cuff', 1, 'front pocket'],
    ['Gloves, pair', 10, 'front pocket', 6],
  ]),
  template('Hydrant bag', [
    ['Hydrant wrench', 1, 'main', 1, 'critical'],
    ['Spanner wrench', 2, 'main', 1],
    ['Gate valve 2½ in', 1, 'main'],
    ['Reducer 4½ to 2½ in', 1, 'main'],
    ['Rubber mallet', 1, 'main'],
  ]),
  template('Standpipe pack', [
    ['Hose section, folded', 3, 'main', 2, 'critical'],
    ['Smooth bore nozzle', 1, 'main', 1, 'critical'],
    ['Gated wye', 1, 'main'],
    ['In-line gauge', 1, 'pouch'],
    ['Spanner wrench', 2, 'pouch', 1],
    ['Pipe wrench 18 in', 1, 'pouch'],
    ['Door wedge', 4, 'pouch', 2],
    ['Wire brush', 1, 'pouch'],
  ]),
  template('Rapid intervention bag', [
    ['Rescue air cylinder', 1, 'main', 1, 'critical'],
    ['Rescue facepiece with regulator', 1, 'main', 1, 'critical'],
    ['Rescue air hose with couplings', 1, 'main', 1, 'critical'],
    ['Search rope 200 ft', 1, 'rope pouch'],
    ['Webbing loop', 2, 'pouch', 1],
    ['Carabiner', 4, 'pouch', 2],
    ['Wire cutter', 1, 'pouch'],
    ['Hand light', 1, 'pouch'],
  ]),
  template('Rope bag', [
    ['Life safety rope 200 ft', 1, 'main', 1, 'critical'],
    ['Carabiner', 4, 'pouch', 2],
    ['Prusik loop', 2, 'pouch'],
    ['Webbing 20 ft', 2, 'pouch', 1],
    ['Edge protector', 1, 'pouch'],
    ['Rope log card', 1, 'pouch'],
  ]),
  template('Wildland pack', [
    ['Fire shelter', 1, 'shelter case', 1, 'critical'],
    ['Headlamp with batteries', 1, 'main'],
    ['Drinking water, quart', 4, 'main', 2],
    ['Fusee', 3, 'side pocket', 2],
    ['Ear plugs, pair', 2, 'main', 1],
    ['Compass', 1, 'main'],
    ['First aid kit, small', 1, 'main'],
  ]),
];
