/** The shortest fix in words, the same on the screen and on paper. */

/** A fix as it is told: what comes from where, what goes off, what cannot be had. */
export interface FixTold {
  ready: boolean;
  moves: readonly {
    number: string;
    what: string;
    from: string;
    place: string | null;
    instead: { number: string } | null;
  }[];
  off: readonly { number: string; what: string }[];
  lacking: readonly string[];
}

/** How many moves it takes, in one line. */
export function fixHeading({ ready, moves, off }: FixTold): string {
  if (!ready) return 'No spare or reserve makes it ready';
  const count = (n: number, one: string, many: string) => (n === 0 ? [] : [`${n} ${n === 1 ? one : many}`]);
  const parts = [...count(moves.length, 'move', 'moves'), ...count(off.length, 'thing off', 'things off')];
  return `Shortest fix: ${parts.length > 0 ? parts.join(', ') : 'nothing to move'}`;
}

/** Each step as a sentence: the spares to bring, the things to take off, what is not to be had. */
export function fixSteps({ moves, off, lacking }: FixTold): string[] {
  return [
    ...moves.map(
      m =>
        `${m.number} ${m.what} from ${m.from}${m.place === null ? '' : ` to ${m.place}`}${m.instead ? `, for ${m.instead.number}` : ''}.`,
    ),
    ...off.map(o => `Take off ${o.number} ${o.what}.`),
    ...lacking,
  ];
}
