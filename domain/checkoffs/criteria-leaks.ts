/** Leaks of the walk-round, by fluid and class. */
import { LEAK_POLICY, memory, practice } from './criteria-sources.ts';
import type { Answer, Criterion, Rule } from './criterion.ts';

/** The classes, in the words of the policy. */
const LEAK_CLASSES: Answer = {
  kind: 'choice',
  values: [
    { value: 'none', title: 'no leak' },
    { value: 'class 1', title: 'class 1, seepage without drops' },
    { value: 'class 2', title: 'class 2, drops that do not fall' },
    { value: 'class 3', title: 'class 3, drops that fall' },
  ],
};
const WRITTEN_UP = practice('A lesser leak is written up: common practice, no source.');
const FROM_CLASS_3: Rule = { is: ['class 3'], limit: 'from class 3 on' };
const AT_ANY: Rule = { is: ['class 1', 'class 2', 'class 3'], limit: 'at any leak' };
const LESSER: Rule = { is: ['class 1', 'class 2'], source: WRITTEN_UP };

const leak = (
  id: string,
  fluid: string,
  question: string,
  rest: Pick<Criterion, 'out' | 'limited' | 'noted' | 'source'> & Partial<Criterion>,
): Criterion => ({
  id: `leak.${id}`,
  title: `${fluid} leak`,
  group: 'leaks',
  question,
  answer: LEAK_CLASSES,
  told: `${fluid} leak of #`,
  ...rest,
});

export const LEAKS: readonly Criterion[] = [
  leak('engine-oil', 'Engine oil', 'Does the engine leak oil?', {
    out: FROM_CLASS_3,
    limited: null,
    noted: LESSER,
    source: LEAK_POLICY,
  }),
  leak('transmission', 'Transmission fluid', 'Does the transmission leak?', {
    out: FROM_CLASS_3,
    limited: null,
    noted: LESSER,
    source: LEAK_POLICY,
  }),
  leak('fuel', 'Fuel', 'Does the rig leak fuel?', {
    out: AT_ANY,
    limited: null,
    noted: null,
    source: LEAK_POLICY,
    caution: 'No flame or spark near it: stop the engine, and keep the exhaust of others away.',
  }),
  leak('coolant', 'Coolant', 'Does the engine leak coolant?', {
    out: null,
    limited: FROM_CLASS_3,
    noted: LESSER,
    source: practice('The policy that was read names oil, transmission fluid and fuel alone.'),
    caution: 'A hot cooling system scalds: do not open its cap.',
  }),
  leak(
    'hydraulic',
    'Hydraulic or power steering fluid',
    'Does the hydraulic system or the power steering leak?',
    {
      out: null,
      limited: FROM_CLASS_3,
      noted: LESSER,
      source: practice(
        'The policy that was read says “oil”; whether hydraulic oil is meant is for the department to say.',
      ),
      caution: 'Never feel for a leak of a system under pressure: a jet goes through skin.',
    },
  ),
  leak('brake-fluid', 'Brake fluid', 'Do the hydraulic brakes leak fluid?', {
    mayLack: true,
    out: AT_ANY,
    limited: null,
    noted: null,
    source: memory(
      'NFPA 1911',
      'ch. 6',
      'a leak of hydraulic brake fluid is among the out-of-service criteria.',
    ),
  }),
];
