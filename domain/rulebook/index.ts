/** The shipped book: an offer. Nothing is judged by it until a department adopts it into its ledger. */

import { aed } from './aed.ts';
import { airBag } from './air-bag.ts';
import { apparatus } from './apparatus.ts';
import { appliance } from './appliance.ts';
import { battery } from './battery.ts';
import { calibrationGas } from './calibration-gas.ts';
import { compressor } from './compressor.ts';
import { cribbing } from './cribbing.ts';
import { cylinder } from './cylinder.ts';
import { equipment } from './equipment.ts';
import { extinguisher } from './extinguisher.ts';
import { facepiece } from './facepiece.ts';
import { fallProtection } from './fall-protection.ts';
import { foam } from './foam.ts';
import { gasMeter } from './gas-meter.ts';
import { handTool } from './hand-tool.ts';
import { hardware } from './hardware.ts';
import { harness } from './harness.ts';
import { hose } from './hose.ts';
import { imager } from './imager.ts';
import { kit } from './kit.ts';
import { ladder } from './ladder.ts';
import { nozzle } from './nozzle.ts';
import { oxygenRegulator } from './oxygen-regulator.ts';
import { pack } from './pack.ts';
import { patientMonitor } from './patient-monitor.ts';
import { powerTool } from './power-tool.ts';
import { radio } from './radio.ts';
import { rescueTool } from './rescue-tool.ts';
import { rope } from './rope.ts';
import { strut } from './strut.ts';
import { suctionUnit } from './suction-unit.ts';
import { turnout } from './turnout.ts';
import type { Family, Requirement } from './types.ts';
import { winch } from './winch.ts';

export const FAMILIES: readonly Family[] = [
  apparatus,
  hose,
  nozzle,
  appliance,
  ladder,
  cylinder,
  pack,
  facepiece,
  compressor,
  extinguisher,
  turnout,
  radio,
  battery,
  imager,
  gasMeter,
  calibrationGas,
  handTool,
  powerTool,
  rescueTool,
  airBag,
  strut,
  cribbing,
  winch,
  rope,
  harness,
  hardware,
  fallProtection,
  foam,
  kit,
  aed,
  patientMonitor,
  suctionUnit,
  oxygenRegulator,
  equipment,
];

const byId = new Map(FAMILIES.map(f => [f.id, f]));

/** A family by its id, or undefined. */
export function familyOf(id: string): Family | undefined {
  return byId.get(id);
}

/** Every requirement the program ships, in the order of the families. */
export const SHIPPED_REQUIREMENTS: readonly Requirement[] = FAMILIES.flatMap(f => f.requirements);

const shippedById = new Map(SHIPPED_REQUIREMENTS.map(r => [r.id, r]));

/** A requirement as the program ships it, or undefined. */
export function shippedRequirement(id: string): Requirement | undefined {
  return shippedById.get(id);
}
