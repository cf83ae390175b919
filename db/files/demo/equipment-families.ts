/** Which family of the rule book each kind of equipment belongs to, and the attributes that its rules read. */

import { addDays, dayText } from '../../../domain/calendar/day.ts';
import type { Values } from '../../../domain/facts.ts';
import type { World } from './deeds.ts';
import { HYDRANT, MEDICAL } from './kits.ts';

type Filled = (number: string, world: World) => Values;
/** Family, and what is known of a thing of the kind besides its make and dates. */
const FAMILY_OF: Readonly<Record<string, readonly [family: string, attributes?: Filled]>> = {
  'thermal imager': ['imager'],
  'chain saw': ['power-tool', () => ({ kind: 'chain saw', power: 'two-stroke mix' })],
  'rotary saw': ['power-tool', () => ({ kind: 'rotary saw', power: 'two-stroke mix' })],
  fan: ['power-tool', () => ({ kind: 'fan', power: 'gasoline' })],
  generator: ['power-tool', () => ({ kind: 'generator', power: 'gasoline' })],
  'hand light': ['power-tool', () => ({ kind: 'light', power: 'battery' })],
  'scene light': ['power-tool', () => ({ kind: 'light', power: 'cord' })],
  'four-gas meter': [
    'gas-meter',
    (number, world) => ({
      kind: 'multiple gas',
      sensors: 'O2 CO H2S LEL',
      sensorsExpire: later(world, number, 2, 22),
    }),
  ],
  'portable radio': ['radio', () => ({ kind: 'portable' })],
  'radio battery': ['battery', () => ({ kind: 'radio battery', chemistry: 'lithium' })],
  'rescue tool battery': ['battery', () => ({ kind: 'tool battery', chemistry: 'lithium' })],
  extinguisher: [
    'extinguisher',
    number =>
      // Every third is carbon dioxide: it is weighed, for it has no gauge.
      Number(number.slice(4)) % 3 === 0
        ? { type: 'CO2', rating: '10-B:C', charge_lb: 20, fullWeight_lb: 50 }
        : { type: 'dry chemical stored pressure', rating: '80-B:C' },
  ],
  'medical bag': ['kit', () => ({ kind: MEDICAL })],
  'hydrant kit': ['kit', () => ({ kind: HYDRANT })],
  facepiece: ['facepiece', () => ({ kind: 'full' })],
  compressor: [
    'compressor',
    () => ({ kind: 'compressor and fill station', lubrication: 'oil', pressure_psi: 6000 }),
  ],
  AED: [
    'aed',
    (number, world) => ({
      padsExpire: later(world, `${number} pads`, 2, 22),
      childPadsExpire: later(world, `${number} child pads`, 3, 22),
      batteryExpires: later(world, `${number} battery`, 5, 44),
    }),
  ],
  rope: [
    'rope',
    () => ({
      kind: 'life safety',
      useRate: 'seldom',
      fiber: 'synthetic',
      diameter_in: '0.5',
      length_ft: '200',
    }),
  ],
  nozzle: [
    'nozzle',
    number => ({
      kind: 'combination',
      use: 'handline',
      rated_psi: 100,
      flow_gpm: 150,
      ...(Number(number.slice(3)) % 4 === 1 ? { preconnect: true } : {}),
    }),
  ],
  'gated wye': ['appliance', () => ({ kind: 'gated wye', size_in: '2.5' })],
  adapter: ['appliance', () => ({ kind: 'adapter' })],
  'hose clamp': ['appliance', () => ({ kind: 'hose clamp' })],
  'foam eductor': ['appliance', () => ({ kind: 'eductor', eductor_gpm: 95 })],
  axe: ['hand-tool', () => ({ kind: 'axe' })],
  'forcible entry bar': ['hand-tool', () => ({ kind: 'forcible entry bar' })],
  'pike pole': ['hand-tool', () => ({ kind: 'pike pole or hook' })],
  shovel: ['hand-tool', () => ({ kind: 'shovel' })],
  'grubbing tool': ['hand-tool', () => ({ kind: 'wildland tool' })],
  'spanner set': ['hand-tool', () => ({ kind: 'wrench' })],
  'rescue spreader': ['rescue-tool', () => ({ kind: 'spreader', drive: 'battery' })],
  'rescue cutter': ['rescue-tool', () => ({ kind: 'cutter', drive: 'battery' })],
  'rescue ram': ['rescue-tool', () => ({ kind: 'ram', drive: 'battery' })],
  'rescue harness': ['harness', () => ({ kind: 'life safety harness' })],
  'turnout coat': ['turnout', () => ({ element: 'coat', ensemble: 'structural' })],
  'turnout trousers': ['turnout', () => ({ element: 'trousers', ensemble: 'structural' })],
  helmet: ['turnout', () => ({ element: 'helmet', ensemble: 'structural' })],
  boots: ['turnout', () => ({ element: 'boots', ensemble: 'structural' })],
  hood: ['turnout', () => ({ element: 'hood', ensemble: 'structural' })],
  gloves: ['turnout', () => ({ element: 'gloves', ensemble: 'structural' })],
};

/** A thing of a kind as its family keeps it; what no family has is other equipment. */
export function asFamily(
  world: World,
  kind: string,
  number: string,
  made: Values,
): { family: string; attributes: Values } {
  const [family, filled] = FAMILY_OF[kind] ?? ['equipment', () => ({ kind })];
  return { family, attributes: { ...filled?.(number, world), ...made } };
}

/** A printed date some months ahead. */
function later(world: World, subject: string, from: number, to: number): string {
  const months = world.chance(`printed ${subject}`).whole(from, to);
  return dayText(addDays(world.on, months * 30)).slice(0, 7);
}
