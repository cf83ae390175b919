/** What hose each rig, rack and shed holds: the loads behind the numbers. */
import { type Day, partsOf } from '../../../domain/calendar/day.ts';
import type { Assignment } from '../../../domain/facts.ts';
import type { Thing } from './deeds.ts';
import type { Station } from './people.ts';

export const KINDS = {
  attack175: { diameter_in: '1.75', length_ft: 50, use: 'attack', markedTest_psi: 300 },
  attack25: { diameter_in: '2.5', length_ft: 50, use: 'attack', markedTest_psi: 300 },
  supply5: { diameter_in: '5', length_ft: 100, use: 'supply', markedTest_psi: 200 },
  supply3: { diameter_in: '3', length_ft: 50, use: 'supply', markedTest_psi: 200 },
  forestry15: { diameter_in: '1.5', length_ft: 100, use: 'forestry', markedTest_psi: 300 },
  forestry1: { diameter_in: '1', length_ft: 100, use: 'forestry', markedTest_psi: 300 },
  booster: { diameter_in: '1', length_ft: 100, use: 'booster', markedTest_psi: 300 },
  suction: { diameter_in: '6', length_ft: 10, use: 'suction' },
} as const;
export type Kind = keyof typeof KINDS;

export type Length = Thing & { kind: Kind };

/** So many lengths of a kind in one place. */
type Run = readonly [place: string, kind: Kind, count: number];

const ENGINE: readonly Run[] = [
  ['crosslay 1', 'attack175', 4],
  ['crosslay 2', 'attack175', 4],
  ['crosslay 3', 'attack25', 4],
  ['front bumper', 'attack175', 2],
  ['rear preconnect', 'attack25', 4],
  ['hosebed driver side', 'supply5', 12],
  ['hosebed officer side', 'supply3', 12],
  ['hosebed officer side', 'attack25', 4],
  ['R3', 'attack175', 2],
  ['L4', 'suction', 2],
];
const RACK: readonly Run[] = [
  ['hose rack', 'attack175', 28],
  ['hose rack', 'attack25', 14],
  ['hose rack', 'supply5', 18],
  ['hose rack', 'supply3', 18],
];

/** What each station's numbers were given to, in the order in which they were given. */
export const LOADS: Readonly<
  Record<Station, readonly (readonly [string | Station, Assignment, readonly Run[]])[]>
> = {
  31: [
    ['Engine 31', 'first line', ENGINE],
    [31, 'ready spare', RACK],
    [31, 'storage', [['storeroom', 'attack175', 12]]],
  ],
  32: [
    ['Engine 32', 'first line', ENGINE],
    [
      'Brush 32',
      'first line',
      [
        ['hose reel', 'booster', 2],
        ['rear bed', 'forestry15', 24],
        ['rear bed', 'forestry1', 12],
      ],
    ],
    ['Reserve R-1', 'reserve', ENGINE],
    [32, 'ready spare', RACK],
    [32, 'ready spare', [['wildland cache', 'forestry15', 24]]],
  ],
  33: [
    ['Engine 33', 'first line', ENGINE],
    [
      'Tower 33',
      'first line',
      [
        ['crosslay 1', 'attack175', 4],
        ['rear preconnect', 'attack25', 4],
        ['hosebed driver side', 'supply5', 8],
      ],
    ],
    ['Rescue 33', 'first line', [['front bumper', 'attack175', 2]]],
    [33, 'ready spare', RACK],
    [
      33,
      'training only',
      [
        ['training shed', 'attack175', 12],
        ['training shed', 'supply3', 8],
      ],
    ],
  ],
  34: [
    ['Engine 34', 'first line', ENGINE],
    [
      'Tender 34',
      'first line',
      [
        ['hosebed driver side', 'supply5', 6],
        ['hosebed driver side', 'supply3', 10],
        ['front bumper', 'attack175', 2],
        ['L2', 'suction', 2],
      ],
    ],
    ['Reserve R-2', 'reserve', ENGINE],
    [34, 'ready spare', RACK],
  ],
};

/** The make and year that fails more than chance. */
export function suspectLot(on: Day): { maker: string; made: string; inService: string } {
  const year = partsOf(on).year - 7;
  return { maker: 'Maker C', made: `${year}-04`, inService: `${year}-08` };
}

export function isSuspect(length: Length): boolean {
  return length.attributes.maker === 'Maker C';
}
