/** The published lists of what a rig must carry, and how far each was seen. */
import type { Source } from '../rulebook/types.ts';

const CHECK = 'Check it against the edition in hand: NFPA 1900 (2024) was not seen and may differ.';

/** Hose, nozzles, pump and tank of a pumper and an initial attack rig. */
export const pumper = (chapter: '5' | '6'): Source => ({
  document: 'NFPA 1901',
  section: `ch. ${chapter}`,
  edition: '2016',
  confidence: 'read second-hand',
  note: `As quoted by a trade journal and a public study set. ${CHECK}`,
});

/** Pump, tank, spaces and ground ladders of a quint. */
export const QUINT: Source = {
  document: 'NFPA 1901',
  section: 'ch. 9',
  edition: '2009',
  confidence: 'read second-hand',
  note: `A public extract of the chapter. ${CHECK}`,
};

/** Loose equipment, and the ground ladders of an aerial. */
export const fromMemory = (section: string): Source => ({
  document: 'NFPA 1901',
  section,
  edition: '2009',
  confidence: 'memory',
  note: CHECK,
});

export const PRACTICE: Source = {
  document: 'common practice',
  section: '',
  edition: '',
  confidence: 'common practice',
};
