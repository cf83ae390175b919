/** The kinds of plain equipment: what rides where, and how many. */

/** A kind: what its numbers begin with, the compartment it rides in, how many a rig, and how many on the shelf. */
export type Kind = readonly [
  prefix: string,
  kind: string,
  model: string,
  rides: string,
  perRig: Readonly<Partial<Record<RigKind, number>>>,
  perStation: number,
];
export type RigKind = 'engine' | 'tower ladder' | 'rescue' | 'tender' | 'brush' | 'command car' | 'reserve';

const ALL_RIGS = {
  engine: 1,
  'tower ladder': 1,
  rescue: 1,
  tender: 1,
  brush: 1,
  'command car': 1,
  reserve: 1,
};
const BIG = { engine: 1, 'tower ladder': 1, rescue: 1, reserve: 1 };
const times = (set: Readonly<Partial<Record<RigKind, number>>>, n: number) =>
  Object.fromEntries(Object.entries(set).map(([kind, count]) => [kind, count * n]));

export const KINDS: readonly Kind[] = [
  ['TIC', 'thermal imager', 'Glow 2', 'officer seat', { ...BIG, 'command car': 1 }, 1],
  ['SAW', 'chain saw', 'Timber 20', 'R1', { ...BIG, brush: 2 }, 1],
  ['RS', 'rotary saw', 'Disc 14', 'R1', { engine: 1, 'tower ladder': 2, rescue: 1, reserve: 1 }, 1],
  ['FAN', 'fan', 'Gale 18', 'L3', { engine: 1, 'tower ladder': 2, rescue: 1 }, 1],
  ['MTR', 'four-gas meter', 'Four 1', 'officer seat', { ...BIG, 'command car': 2 }, 1],
  ['RAD', 'portable radio', 'PR-7', 'officer seat', times(ALL_RIGS, 4), 9],
  ['AED', 'AED', 'Pulse 1', 'R2', ALL_RIGS, 1],
  ['EXT', 'extinguisher', 'Dry 20', 'R2', times(ALL_RIGS, 3), 5],
  ['ROPE', 'rope', 'Kern 200', 'L2', { engine: 2, 'tower ladder': 4, rescue: 10, reserve: 1 }, 2],
  ['NZ', 'nozzle', 'Fog 150', 'rear preconnect', { engine: 8, 'tower ladder': 5, reserve: 6 }, 6],
  ['WYE', 'gated wye', 'Two-way', 'L4', { engine: 3, 'tower ladder': 2, reserve: 2 }, 2],
  [
    'AXE',
    'axe',
    'Flat 6',
    'L3',
    { engine: 3, 'tower ladder': 6, rescue: 2, tender: 1, brush: 2, reserve: 2 },
    1,
  ],
  ['BAR', 'forcible entry bar', 'Claw 30', 'L3', { engine: 3, 'tower ladder': 4, rescue: 3, reserve: 2 }, 1],
  ['PIKE', 'pike pole', 'Eight foot', 'ladder rack', { engine: 3, 'tower ladder': 8, reserve: 2 }, 2],
  ['LGT', 'hand light', 'Beam', 'seat 3', { engine: 4, 'tower ladder': 6, rescue: 6, reserve: 3 }, 5],
  ['BAT', 'rescue tool battery', 'Cell 9', 'L1', { engine: 2, 'tower ladder': 2, rescue: 8 }, 3],
  ['SPR', 'rescue spreader', 'Jaw', 'L1', { 'tower ladder': 1, rescue: 2 }, 0],
  ['CUT', 'rescue cutter', 'Shear', 'L1', { 'tower ladder': 1, rescue: 2 }, 0],
  ['RAM', 'rescue ram', 'Push', 'L1', { 'tower ladder': 1, rescue: 3 }, 0],
  ['GEN', 'generator', 'Watt 3', 'R4', { engine: 1, 'tower ladder': 1, rescue: 1 }, 0],
  ['SCN', 'scene light', 'Flood', 'R4', { engine: 2, 'tower ladder': 2, rescue: 4, reserve: 1 }, 1],
  ['ADP', 'adapter', 'Thread set', 'L4', { engine: 5, tender: 4, reserve: 3 }, 5],
  ['SPN', 'spanner set', 'Four-piece', 'L4', times(ALL_RIGS, 2), 2],
  ['HRN', 'rescue harness', 'Class 3', 'L2', { 'tower ladder': 4, rescue: 8 }, 1],
  ['EDU', 'foam eductor', 'Mix 95', 'R3', { engine: 1, tender: 1, reserve: 1 }, 0],
  ['CVR', 'salvage cover', '12 by 18', 'R4', { engine: 3, 'tower ladder': 4 }, 4],
  ['MED', 'medical bag', 'First-in', 'R2', ALL_RIGS, 1],
  ['GRB', 'grubbing tool', 'Wildland', 'R1', { engine: 1, tender: 1, brush: 8 }, 3],
  ['BPP', 'backpack pump', 'Five gallon', 'R2', { brush: 4, tender: 1 }, 1],
  ['RB', 'radio battery', 'PR-7B', 'officer seat', times(ALL_RIGS, 3), 8],
  ['CHK', 'wheel chock pair', 'Large', 'L4', times(ALL_RIGS, 2), 0],
  ['HYD', 'hydrant kit', 'Three-piece', 'R4', { engine: 2, 'tower ladder': 1, tender: 2, reserve: 2 }, 1],
  ['CLP', 'hose clamp', 'Screw', 'R4', { engine: 1, 'tower ladder': 1, reserve: 1 }, 1],
  ['CON', 'traffic cone set', 'Five', 'R4', ALL_RIGS, 1],
  ['SHV', 'shovel', 'Scoop', 'L3', { engine: 1, 'tower ladder': 2, tender: 1, brush: 4, reserve: 1 }, 1],
  ['VST', 'flotation vest', 'Swift', 'L2', { rescue: 8, 'tower ladder': 2 }, 1],
];

/** Pieces of a turnout set, one of each issued and a second set for those on engines. */
export const TURNOUT: readonly (readonly [string, string, string])[] = [
  ['TC', 'turnout coat', 'Shell 3'],
  ['TT', 'turnout trousers', 'Shell 3'],
  ['HLM', 'helmet', 'Brim'],
  ['BT', 'boots', 'Leather'],
  ['HD', 'hood', 'Knit'],
  ['GLV', 'gloves', 'Gauntlet'],
];
