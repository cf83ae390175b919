/** Chance from a seed: the same seed gives the same demo on every machine and in every run. */

/** A stream of chance. Each subject draws from its own, so that a change to one does not move the others. */
export class Chance {
  #state: number;

  constructor(seed: number, subject: string) {
    let hash = 0x811c9dc5 ^ seed;
    for (const letter of subject) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
    this.#state = hash >>> 0;
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.#fraction() * (high - low + 1));
  }

  /** Whether something happens that happens `times` in `of`. */
  happens(times: number, of: number): boolean {
    return this.whole(1, of) <= times;
  }

  /** @throws RangeError for an empty list */
  pick<T>(list: readonly T[]): T {
    const picked = list[this.whole(0, list.length - 1)];
    if (picked === undefined) throw new RangeError('There is nothing to pick from.');
    return picked;
  }

  /** So many different ones, or all where there are fewer, in the order of the list. */
  some<T>(list: readonly T[], count: number): T[] {
    const left = list.map((_, i) => i);
    const chosen: number[] = [];
    while (chosen.length < count && left.length > 0)
      chosen.push(...left.splice(this.whole(0, left.length - 1), 1));
    return chosen.sort((a, b) => a - b).flatMap(i => list.slice(i, i + 1));
  }

  /** The well-known 32-bit generator "mulberry32": from 0 up to but not including 1. */
  #fraction(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), this.#state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }
}
