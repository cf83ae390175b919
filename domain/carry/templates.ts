/**
 * Carry lists to begin from, by kind of rig. An offer: the department adopts it, edits it, and names its own places.
 * What is critical and how each line is made sure of is common practice, no source; how many, as each line says.
 */

import type { Source } from '../rulebook/types.ts';
import { guessLine } from './guess.ts';
import { fromMemory, PRACTICE, pumper, QUINT } from './published.ts';
import type { LineBody, Verify } from './types.ts';

export interface Template {
  kind: string;
  title: string;
  lines: readonly LineBody[];
}

/** What, how many, where; by which source. The words say the family and the size, as they do on a sheet. */
type Row = readonly [what: string, qty: number, place: string, source: Source, min?: number];

/** 29 CFR 1910.134(h)(3)(iii): recharged when the pressure falls to 90 percent. */
const PRESSURE = { title: 'Cylinder pressure', unit: 'percent of rated', atLeast: '90' };

/** Families without which a crew does not go out. Common practice, no source. */
const CRITICAL = new Set(['hose', 'ladder', 'pack', 'cylinder', 'nozzle', 'radio']);

function lineOf([what, qty, place, source, min]: Row): LineBody {
  const guess = guessLine(what);
  const isPack = guess.family === 'pack';
  const verify: Verify = isPack ? 'sight' : guess.verify;
  return {
    what,
    family: guess.family,
    like: guess.like,
    qty,
    min: min ?? qty,
    place,
    critical: guess.family !== null && CRITICAL.has(guess.family),
    verify,
    reading: isPack ? PRESSURE : null,
    source,
  };
}

const LOOSE = fromMemory('5.9');

/** Hose, nozzles and loose equipment of a pumper. Lengths of 50 ft and 100 ft are how hose is made up. */
const ENGINE: readonly Row[] = [
  ['2½ in supply hose 50 ft', 16, 'hosebed', pumper('5'), 16],
  ['1¾ in attack hose 50 ft', 8, 'crosslay', pumper('5'), 8],
  ['Combination nozzle', 3, 'crosslay', pumper('5')],
  ['Smooth bore nozzle', 1, 'hosebed', pumper('5')],
  ['SCBA pack', 4, 'cab', LOOSE],
  ['Spare cylinder', 4, 'L3', LOOSE],
  ['Flathead axe, 6 lb', 1, 'R1', LOOSE],
  ['Pickhead axe, 6 lb', 1, 'R1', LOOSE],
  ['Pike pole, 6 ft', 1, 'ladder rack', LOOSE],
  ['Pike pole, 8 ft', 1, 'ladder rack', LOOSE],
  ['Hand light', 2, 'cab', LOOSE],
  ['Extinguisher, dry chemical, 80-B:C', 1, 'R2', LOOSE],
  ['Extinguisher, water 2½ gal', 1, 'R2', LOOSE],
  ['First aid kit', 1, 'cab', LOOSE],
  ['Spanner wrench', 4, 'L1', LOOSE],
  ['Hydrant wrench', 2, 'L1', LOOSE],
  ['Double female adapter 2½', 1, 'L1', LOOSE],
  ['Double male adapter 2½', 1, 'L1', LOOSE],
  ['Rubber mallet', 1, 'L1', LOOSE],
  ['Salvage cover, 12 x 14 ft', 2, 'R3', LOOSE],
  ['Wheel chock', 2, 'L4', LOOSE],
  ['Traffic vest', 4, 'cab', LOOSE],
  ['Traffic cone, 28 in', 5, 'R4', LOOSE],
  ['Illuminated warning device', 5, 'R4', LOOSE],
  ['AED', 1, 'R2', LOOSE],
  ['Roof ladder 14 ft', 1, 'ladder rack', fromMemory('ch. 5')],
  ['Extension ladder 24 ft', 1, 'ladder rack', fromMemory('ch. 5')],
  ['Attic ladder 10 ft', 1, 'ladder rack', fromMemory('ch. 5')],
  ['Portable radio', 4, 'cab', PRACTICE],
  ['Thermal imager', 1, 'cab', PRACTICE],
  ['Gas meter', 1, 'cab', PRACTICE],
];

const AERIAL = fromMemory('8.9');
const LADDER: readonly Row[] = [
  ['Extension ladder 35 ft', 1, 'ladder rack', fromMemory('ch. 8')],
  ['Extension ladder 28 ft', 1, 'ladder rack', fromMemory('ch. 8')],
  ['Roof ladder 20 ft', 2, 'ladder rack', fromMemory('ch. 8')],
  ['Attic ladder 12 ft', 1, 'ladder rack', fromMemory('ch. 8')],
  ['Flathead axe, 6 lb', 2, 'R1', AERIAL],
  ['Pickhead axe, 6 lb', 3, 'R1', AERIAL],
  ['Pike pole, 6 ft', 4, 'ladder rack', AERIAL],
  ['Pike pole, 8 ft', 2, 'ladder rack', AERIAL],
  ['Plaster hook, 3 to 4 ft with D handle', 2, 'R1', AERIAL],
  ['Crowbar', 2, 'R1', AERIAL],
  ['Claw tool', 2, 'R1', AERIAL],
  ['Sledgehammer, 12 lb', 2, 'R1', AERIAL],
  ['Hand light', 4, 'cab', AERIAL],
  ['Extinguisher, dry chemical, 80-B:C', 1, 'R2', AERIAL],
  ['Extinguisher, water 2½ gal', 1, 'R2', AERIAL],
  ['SCBA pack', 4, 'cab', AERIAL],
  ['Salvage cover, 12 x 18 ft', 6, 'R3', AERIAL],
  ['Scoop shovel', 2, 'R3', AERIAL],
  ['Bolt cutter, 24 in', 1, 'R1', AERIAL],
  ['Ladder belt', 4, 'L2', AERIAL],
  ['Life safety rope 150 ft', 2, 'L2', AERIAL],
  ['Utility rope 150 ft', 2, 'L2', AERIAL],
  ['First aid kit', 1, 'cab', AERIAL],
  ['Wheel chock', 2, 'L4', AERIAL],
  ['Traffic cone, 28 in', 5, 'R4', AERIAL],
  ['Illuminated warning device', 5, 'R4', AERIAL],
  ['AED', 1, 'R2', AERIAL],
  ['Portable radio', 4, 'cab', PRACTICE],
  ['Rotary saw', 1, 'R2', PRACTICE],
  ['Chain saw', 1, 'R2', PRACTICE],
  ['Fan', 1, 'L3', PRACTICE],
];

/** A quint: its ladders, and the hose, nozzles and tools of a pumper. */
const QUINT_ROWS: readonly Row[] = [
  ['Extension ladder 35 ft', 1, 'ladder rack', QUINT],
  ['Roof ladder 20 ft', 2, 'ladder rack', QUINT, 1],
  ['Attic ladder 10 ft', 1, 'ladder rack', QUINT],
  ...ENGINE.filter(([what]) => !/ ladder /.test(what)),
];

const practice = (rows: readonly (readonly [string, number, string])[]): readonly Row[] =>
  rows.map(([what, qty, place]) => [what, qty, place, PRACTICE]);

const RESCUE = practice([
  ['SCBA pack', 4, 'cab'],
  ['Rescue spreader', 1, 'L1'],
  ['Rescue cutter', 1, 'L1'],
  ['Rescue ram', 2, 'L1'],
  ['Rescue tool battery', 4, 'L1'],
  ['Life safety rope 200 ft', 4, 'L2'],
  ['Harness', 4, 'L2'],
  ['Reciprocating saw', 1, 'R1'],
  ['Generator', 1, 'R4'],
  ['Scene light', 2, 'R4'],
  ['Gas meter', 1, 'cab'],
  ['Thermal imager', 1, 'cab'],
  ['First aid kit', 1, 'R2'],
  ['AED', 1, 'R2'],
  ['Portable radio', 4, 'cab'],
]);

const TENDER = practice([
  ['5 in supply hose 100 ft', 2, 'hosebed'],
  ['1¾ in attack hose 50 ft', 4, 'front bumper'],
  ['Combination nozzle', 1, 'front bumper'],
  ['SCBA pack', 2, 'cab'],
  ['Spanner wrench', 2, 'L1'],
  ['Hydrant wrench', 1, 'L1'],
  ['Portable tank', 1, 'R1'],
  ['Wheel chock', 2, 'L2'],
  ['Traffic cone, 28 in', 5, 'R2'],
  ['Portable radio', 2, 'cab'],
]);

const BRUSH = practice([
  ['1½ in forestry hose 100 ft', 12, 'rear bed'],
  ['1 in booster hose 100 ft', 2, 'hose reel'],
  ['Combination nozzle', 2, 'rear bed'],
  ['Backpack pump', 2, 'R1'],
  ['Shovel', 2, 'R1'],
  ['Chain saw', 1, 'R2'],
  ['First aid kit', 1, 'cab'],
  ['Portable radio', 2, 'cab'],
]);

const COMMAND = practice([
  ['Portable radio', 4, 'cab'],
  ['SCBA pack', 1, 'rear compartment'],
  ['Gas meter', 1, 'cab'],
  ['Thermal imager', 1, 'cab'],
  ['First aid kit', 1, 'rear compartment'],
  ['AED', 1, 'rear compartment'],
  ['Accountability board', 1, 'rear compartment'],
]);

const AMBULANCE = practice([
  ['AED', 1, 'patient compartment'],
  ['Oxygen cylinder, portable', 2, 'patient compartment'],
  ['Suction unit', 1, 'patient compartment'],
  ['First aid kit', 2, 'patient compartment'],
  ['Stretcher', 1, 'patient compartment'],
  ['Extinguisher, dry chemical', 1, 'cab'],
  ['Traffic vest', 2, 'cab'],
  ['Portable radio', 2, 'cab'],
]);

const template = (kind: string, title: string, rows: readonly Row[]): Template => ({
  kind,
  title,
  lines: rows.map(lineOf),
});

export const TEMPLATES: readonly Template[] = [
  template('engine', 'Engine', ENGINE),
  template('quint', 'Quint', QUINT_ROWS),
  template('ladder', 'Ladder', LADDER),
  template('rescue', 'Rescue', RESCUE),
  template('tender', 'Tender', TENDER),
  template('brush', 'Brush', BRUSH),
  template('command', 'Command car', COMMAND),
  template('ambulance', 'Ambulance', AMBULANCE),
];
