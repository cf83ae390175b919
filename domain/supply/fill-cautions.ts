/** What stands before a fill, in the box that is headed "Before you start". */
import type { Values } from '../facts.ts';
import { FILLING_CAUTIONS } from '../rulebook/compressor.ts';
import { CAUTIONS } from '../rulebook/cylinder-table.ts';

/** The cautions of filling, with what the bottle itself asks for. @param attributes of the bottle, or none yet */
export function fillCautions(attributes: Values): string[] {
  const { alloy, star } = attributes;
  return [
    ...FILLING_CAUTIONS,
    ...CAUTIONS.filter(c => c.includes('being filled')),
    ...(alloy === '6351-T6' || alloy === '6351'
      ? [
          '6351-T6 aluminum has ruptured while being filled: only who must be there is near (49 CFR 173.302(e)).',
        ]
      : []),
    ...(star === true ? ['A star mark: hammer test before each refill (49 CFR 180.209(b)).'] : []),
  ];
}
