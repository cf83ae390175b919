/** Numbers that look random and are the same for the same seed, so that a failure can be run again. */
export interface Seeded {
  /** A whole number from 0 up to, not including, `limit`. */
  below(limit: number): number;
  pick<T>(list: readonly T[]): T;
  chance(of: number): boolean;
}

export function seeded(seed: number): Seeded {
  let state = seed >>> 0;
  // A 32-bit mixing generator: an odd step, then two rounds of xor-shift and multiply.
  const next = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
  return {
    below: limit => Math.floor(next() * limit),
    pick(list) {
      const picked = list[Math.floor(next() * list.length)];
      if (picked === undefined) throw new RangeError('There is nothing to pick from.');
      return picked;
    },
    chance: of => next() < of,
  };
}
