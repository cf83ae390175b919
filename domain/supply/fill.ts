/** Whether a cylinder is full, as far as anybody said: by its gauge, by a fill, by the rack it was put in. */
import type { When } from '../calendar/when.ts';
import { judgePressure } from '../checkoffs/pressure.ts';
import { type Fact, inOrder } from '../facts.ts';

export const FILL_STATES = ['full', 'to be filled', 'not known'] as const;
export type FillState = (typeof FILL_STATES)[number];

export interface FillKnown {
  fill: FillState;
  since: When | null;
}

/**
 * The last word on it. A rack called full or empty speaks for what is put in it.
 * @param rated_psi its service pressure; a gauge says nothing without it
 * @param nameOf the name of a place
 */
export function fillOf(
  facts: readonly Fact[],
  rated_psi: number | null,
  nameOf: (place: string) => string,
): FillKnown {
  let known: FillKnown = { fill: 'not known', since: null };
  for (const fact of [...facts].sort(inOrder)) {
    const fill = saidBy(fact, rated_psi, nameOf);
    if (fill !== null) known = { fill, since: fact.effective };
  }
  return known;
}

function saidBy(fact: Fact, rated_psi: number | null, nameOf: (place: string) => string): FillState | null {
  if (fact.kind === 'place') {
    const name = nameOf(fact.values.place);
    if (/\bempt(y|ies)\b/i.test(name)) return 'to be filled';
    return /\bfull\b/i.test(name) ? 'full' : null;
  }
  // Nobody reads a gauge at a fire; what was used goes to the fill station. Common practice, no source.
  if (fact.kind === 'used') return 'to be filled';
  if (fact.kind === 'gauge') {
    const { reading, unit } = fact.values;
    return judged(reading, unit === 'psi' ? rated_psi : 100);
  }
  if (fact.kind !== 'record' || fact.values.outcome === 'not completed') return null;
  const byGauge = judged(fact.values.readings?.gauge_psi, rated_psi);
  if (fact.values.activity !== 'recharge') return byGauge;
  // A fill that says what it was filled to may have stopped short.
  return fact.values.outcome === 'pass' ? (byGauge ?? 'full') : null;
}

/** @param rated what it is full at, in what the gauge was read in; null where that is not known */
function judged(gauge: unknown, rated: number | null): FillState | null {
  if (rated === null || rated <= 0 || (typeof gauge !== 'number' && typeof gauge !== 'string')) return null;
  if (!/^\d+(\.\d+)?$/.test(String(gauge))) return null;
  return judgePressure(String(gauge), String(rated)).recharge ? 'to be filled' : 'full';
}
