/** The counted stock of the district: what it keeps, where, how much of it, and how fast it goes. */
import type { Label } from './diary.ts';
import type { Station } from './people.ts';
import { at } from './places.ts';

/** Where a stock lies: the place, whose it is, its par and minimum, and about how many go in two weeks. */
export interface Home {
  place: Label;
  station: Station;
  par: number;
  min: number;
  uses: number;
}

export interface Kind {
  what: string;
  perBox: number | null;
  twoCount: boolean;
  /** Months from its delivery to its date; null: it has none. */
  months: number | null;
  homes: readonly Home[];
}

const STORE: Readonly<Record<Station, Label>> = {
  31: at(31, 'storeroom'),
  32: at(32, 'tool room'),
  33: at(33, 'storeroom'),
  34: at(34, 'tool room'),
};
const home = (place: Label, station: Station, par: number, min: number, uses: number): Home => ({
  place,
  station,
  par,
  min,
  uses,
});
/** In the storeroom of a station. */
const store = (station: Station, par: number, min: number, uses: number) =>
  home(STORE[station], station, par, min, uses);
/** In every storeroom; the busy house of Station 33 keeps and uses half as much again. */
const stores = (par: number, min: number, uses: number) =>
  ([31, 32, 33, 34] as const).map(s =>
    s === 33
      ? store(s, Math.ceil(par * 1.5), Math.ceil(min * 1.5), Math.ceil(uses * 1.5))
      : store(s, par, min, s === 34 ? Math.floor(uses / 2) : uses),
  );
const kind = (
  what: string,
  homes: readonly Home[],
  more: Partial<Pick<Kind, 'perBox' | 'months' | 'twoCount'>> = {},
): Kind => ({ what, homes, perBox: null, months: null, twoCount: false, ...more });

export const GLOVES_L = 'Exam gloves, nitrile, large';
export const PADS = 'AED pads, adult';
export const SALINE = 'Saline, 500 mL';
export const AA = 'Battery, AA';
export const CHAIN_OIL = 'Bar and chain oil, 1 qt';

export const KINDS: readonly Kind[] = [
  kind('Exam gloves, nitrile, medium', stores(600, 200, 90), { perBox: 100, months: 36 }),
  kind(GLOVES_L, [...stores(1000, 400, 150), home(at('Rescue 33', 'R1'), 33, 200, 100, 0)], {
    perBox: 100,
    months: 36,
  }),
  kind('Exam gloves, nitrile, extra large', stores(600, 200, 60), { perBox: 100, months: 36 }),
  kind(PADS, [store(31, 6, 3, 1), store(33, 6, 3, 1), home(at('Engine 32', 'R1'), 32, 1, 1, 0)], {
    months: 24,
  }),
  kind('AED pads, child', [store(31, 2, 1, 0), store(33, 2, 1, 0)], { months: 24 }),
  kind(SALINE, [store(31, 24, 12, 1), store(33, 36, 18, 8)], { months: 18 }),
  kind('Saline, irrigation, 1 L', [store(31, 12, 6, 1), store(33, 12, 6, 2)], { months: 24 }),
  kind('Burn dressing, sterile', [store(33, 20, 8, 1), home(at('Rescue 33', 'R2'), 33, 4, 2, 0)], {
    months: 36,
  }),
  kind('Trauma dressing', stores(20, 8, 2), { months: 48 }),
  kind('Gauze pad 4 × 4 in, sterile', stores(200, 80, 20), { perBox: 50, months: 48 }),
  kind('Tourniquet', [store(31, 8, 4, 0), store(33, 8, 4, 1)], { months: 60 }),
  kind('Naloxone nasal kit', [store(33, 12, 6, 1)], { months: 30, twoCount: true }),
  kind('Oxygen mask, non-rebreather', stores(20, 8, 3), { months: 48 }),
  kind('N95 respirator', stores(120, 40, 10), { perBox: 20, months: 60 }),
  kind('Absorbent, bag', [...stores(16, 6, 2), home(at('Engine 31', 'R2'), 31, 4, 2, 0)]),
  kind('Absorbent boom, 5 in × 10 ft', [store(31, 12, 4, 0), store(33, 12, 4, 1)]),
  kind('Foam concentrate, 5 gal pail', [store(31, 24, 12, 1), store(34, 16, 8, 1)], { months: 120 }),
  kind(AA, stores(144, 48, 18), { perBox: 24, months: 84 }),
  kind('Battery, 9 V', stores(24, 8, 2), { perBox: 12, months: 60 }),
  kind('Battery, D', [store(31, 36, 12, 3), store(33, 36, 12, 3)], { perBox: 12, months: 84 }),
  kind('Barrier tape, roll', stores(8, 3, 1)),
  kind('Salvage sheeting, roll', [store(31, 6, 2, 0), store(33, 6, 2, 1)]),
  kind(CHAIN_OIL, [store(31, 12, 4, 1), home(at(32, 'wildland cache'), 32, 12, 4, 2)]),
  kind('Two-stroke fuel, 1 qt can', [store(31, 24, 8, 2), home(at(32, 'wildland cache'), 32, 24, 8, 3)], {
    months: 24,
  }),
  kind('Drinking water, 24-pack', stores(12, 4, 3), { months: 18 }),
  kind('Road flare', [store(31, 72, 24, 4), store(33, 72, 24, 6)], { perBox: 36 }),
];
