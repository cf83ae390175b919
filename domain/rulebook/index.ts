/** The shipped book: an offer. Nothing is judged by it until a department adopts it into its ledger. */
import { apparatus } from './apparatus.ts';
import { appliance } from './appliance.ts';
import { cylinder } from './cylinder.ts';
import { equipment } from './equipment.ts';
import { foam } from './foam.ts';
import { hose } from './hose.ts';
import { ladder } from './ladder.ts';
import { nozzle } from './nozzle.ts';
import { pack } from './pack.ts';
import type { Family, Requirement } from './types.ts';

export const FAMILIES: readonly Family[] = [
  apparatus,
  hose,
  nozzle,
  appliance,
  ladder,
  cylinder,
  pack,
  foam,
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
