/** From where the criteria of the walk-round are, and how each was seen. */
import { nfpa1911 } from '../rulebook/apparatus-sources.ts';
import type { Source } from '../rulebook/types.ts';

/** Figures of the 2007 edition as a public quiz on a local out-of-service policy gives them. */
export const outOfService2007 = (note: string): Source =>
  nfpa1911('ch. 6, out-of-service criteria', 'read second-hand', note, '2007');

/** The depths as the same policy gives them; the paragraphs are those of the federal rule. */
export const tread = (paragraph: string): Source => ({
  document: '49 CFR 393.75',
  section: paragraph,
  edition: '',
  confidence: 'read second-hand',
  note: 'A local policy citing NFPA 1911 (2007) has the same depths. Whether the federal rule itself binds a fire rig is for the department to say.',
});

/** A public local policy that was read itself. */
export const LEAK_POLICY: Source = {
  document: 'Local out-of-service policy',
  section: 'fluid-leak classes',
  edition: '',
  confidence: 'read',
  note: 'One department’s policy. Class 1: seepage, no drops. Class 2: drops form but do not fall. Class 3: drops fall. A class 3 leak of oil or transmission fluid, or any leak of fuel, puts a rig out of service; NFPA 1911 words the classes the same way.',
};

/** What departments’ written procedures put a rig out of service for. */
export const procedure = (note: string): Source => ({
  document: 'Departments’ out-of-service procedures',
  section: '',
  edition: '',
  confidence: 'read',
  note,
});

/** What departments’ written procedures have a driver look at each day. */
export const dailyCheck = (note: string): Source => ({
  document: 'Departments’ daily check procedures',
  section: '',
  edition: '',
  confidence: 'read',
  note,
});

export const memory = (document: string, section: string, note: string): Source => ({
  document,
  section,
  edition: '',
  confidence: 'memory',
  note: `From memory: ${note}`,
});

export const COMMON_PRACTICE = 'Common practice';

export const practice = (note = 'Common practice, no source.'): Source => ({
  document: COMMON_PRACTICE,
  section: '',
  edition: '',
  confidence: 'common practice',
  note,
});
