/** The federal rule for fire brigades, which stands behind the yearly inspection of all fire fighting equipment. */
import type { Binding, Source } from './types.ts';

export const BRIGADE_RULE: Source = {
  document: '29 CFR 1910.156',
  section: '(d)',
  edition: 'as printed in Michigan R 408.17312(1)',
  confidence: 'read second-hand',
  note: 'Fire fighting equipment is maintained and inspected at least annually.',
};

export const BRIGADE_BINDINGS: readonly Binding[] = [{ reach: 'osha', cite: '29 CFR 1910.156(d)' }];

/** Whom it binds, in words. */
export const BRIGADE_BINDS =
  'Private and contract brigades; public departments in State-Plan states. Elsewhere an adopted benchmark.';
