/** Narrowing a list of choices by what is typed. */

export interface PickOption {
  value: string;
  label: string;
  /** Said after the label in a quieter voice; also matched. */
  detail?: string;
  group?: string;
  /** Other words it answers to. */
  also?: string;
}

/**
 * The options that every typed word fits, the best fit first. A word fits where a word of the option begins with
 * it; `e31` fits `Engine 31` by its initial and number.
 */
export function narrow<T extends PickOption>(options: readonly T[], text: string): T[] {
  const wanted = wordsOf(text);
  if (wanted.length === 0) return [...options];
  return options
    .map((option, order) => ({ option, order, fit: fitOf(option, wanted) }))
    .filter(o => o.fit !== null)
    .sort((a, b) => (a.fit ?? 0) - (b.fit ?? 0) || a.order - b.order)
    .map(o => o.option);
}

/** 0 is a perfect fit; null is none. */
function fitOf(option: PickOption, wanted: string[]): number | null {
  const label = wordsOf(option.label);
  const rest = wordsOf(`${option.detail ?? ''} ${option.also ?? ''}`);
  const short = label.map((w, i) => (i === 0 ? w.charAt(0) : w)).join('');
  let fit = 0;
  for (const word of wanted) {
    if (label.includes(word)) continue;
    if (label.some(w => w.startsWith(word)) || short === word) fit += 1;
    else if (rest.some(w => w.startsWith(word))) fit += 3;
    else return null;
  }
  return fit;
}

function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}\p{N}¼½¾]+/u)
    .filter(w => w !== '');
}
