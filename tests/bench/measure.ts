/** What one line of the table is: our figure, the bare one beside it, and what the bare side does. */
export interface Measured {
  name: string;
  unit: 'ms' | 'MB' | 'KB';
  ours: number;
  bare: number;
  /** What the bare side does, in words. */
  bareIs: string;
  /** What is aimed at: at most so much of the unit, or so many times the bare side. */
  aim?: { atMost?: number; ratio?: number; at?: number };
}
