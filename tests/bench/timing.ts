/** Medians of repeated runs, in milliseconds. */

/** How long each of several runs took. The first ones, in which the engine still warms up, are not counted. */
export async function timed(runs: number, work: (run: number) => unknown, warmUp = 2): Promise<number[]> {
  const took: number[] = [];
  for (let run = -warmUp; run < runs; run++) {
    const began = performance.now();
    const result = work(run < 0 ? -run - 1 : run);
    if (result instanceof Promise) await result;
    if (run >= 0) took.push(performance.now() - began);
  }
  return took;
}

export function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2;
}
