/** The shell of an extinguisher: hydrostatic tests, internal examinations, and what ends its life. */
import { duty, every, lifeFromMade, osha } from './duty.ts';
import {
  byNfpa10,
  byTableL1,
  DRY_CHEMICAL_STORED,
  examinedEvery,
  hoseTestedEvery,
  NONRECHARGEABLE,
  SOLDERED,
} from './extinguisher-types.ts';
import type { Condition, Family, Requirement, Source } from './types.ts';

export const osha157 = (section: string, note?: string): Source => ({
  document: '29 CFR 1910.157',
  section,
  edition: '2015 annual edition',
  confidence: 'read',
  ...(note ? { note } : {}),
});

export const nfpa10 = (section: string, note?: string): Source => ({
  document: 'NFPA 10',
  section,
  edition: '2007 and later, as printed by service firms',
  confidence: 'read second-hand',
  ...(note ? { note } : {}),
});

export const TECHNICIAN =
  'A trained technician, certified where NFPA 10 is adopted and licensed where the state asks for it.';
const TESTER =
  'Trained persons with proper equipment; a DOT cylinder only by a requalifier with a current RIN.';

export const CAUTIONS: readonly string[] = [
  'Put an equal extinguisher in its place while it is out.',
  'Let the pressure off before it is opened; never mix ABC and BC agents.',
  'Halon is recovered in a closed system.',
];
const TEST_CAUTIONS = ['Never tested with air or gas; in a cage or behind a shield.', ...CAUTIONS];

/** Years as a title begins. */
const SPAN = { 1: 'Yearly', 3: 'Three-year', 5: 'Five-year', 6: 'Six-year', 12: 'Twelve-year' } as const;

const ofType = (...types: readonly string[]): Condition => ({ attribute: 'type', in: types });
const fromMade = (years: number) =>
  every({ months: years * 12 }, { counts: 'made', plus: { months: years * 12 } });

const hydrostatic = (
  id: string,
  years: 5 | 12,
  types: readonly string[],
  by: Pick<Requirement, 'sources' | 'force'> & Partial<Requirement>,
): Requirement =>
  duty({
    id,
    title: `${SPAN[years]} hydrostatic test${by.force === 'law' ? '' : ' by NFPA 10'}`,
    activity: 'hydrostatic test',
    appliesTo: [ofType(...types)],
    clock: fromMade(years),
    late: 'blocks',
    who: TESTER,
    cautions: TEST_CAUTIONS,
    ...by,
  });

/** A hydrostatic test opens the shell and looks inside first, so the next examination counts from it. */
const internal = (id: string, years: 1 | 3 | 5 | 6, types: readonly string[], note?: string): Requirement =>
  duty({
    id,
    title: `${SPAN[years]} internal examination`,
    activity: 'internal examination',
    appliesTo: [ofType(...types)],
    clock: fromMade(years),
    satisfiedBy: ['internal examination', 'hydrostatic test'],
    sources: [nfpa10('table of internal examinations', note)],
    force: 'standard',
    binds: 'Where the department has adopted NFPA 10.',
    late: 'limits',
    who: TECHNICIAN,
    cautions: CAUTIONS,
  });

const hose = (id: string, years: 5 | 12): Requirement =>
  duty({
    id,
    title: `${SPAN[years]} hose test`,
    activity: 'hose test',
    appliesTo: [ofType(...hoseTestedEvery(years)), { attribute: 'hose', in: ['shut-off'] }],
    clock: fromMade(years),
    sources: [
      osha157(
        '(f)(5) to (9)',
        'A hose with a shut-off nozzle is tested as often as its extinguisher: carbon dioxide at 1,250 psi in a cage, dry chemical and dry powder at 300 psi; not stamped.',
      ),
    ],
    force: 'law',
    bindings: osha('29 CFR 1910.157(f)(5)'),
    late: 'limits',
    who: TESTER,
    cautions: TEST_CAUTIONS,
  });

const TABLE_L1 = {
  force: 'law',
  bindings: osha('29 CFR 1910.157(f), Table L-1'),
  sources: [
    osha157('(f), Table L-1; (f)(16)', 'The record is kept until the next test or until it is gone.'),
  ],
} as const;
const BY_NFPA_10 = {
  force: 'standard',
  binds: 'Where the department has adopted NFPA 10; Table L-1 has no row for it.',
  sources: [nfpa10('table of hydrostatic tests')],
} as const;

export const SHELL: Family['requirements'] = [
  internal('extinguisher.internal-examination-yearly', 1, examinedEvery(1)),
  internal(
    'extinguisher.internal-examination-three-year',
    3,
    examinedEvery(3),
    'Liquid charge: the agent is replaced as well.',
  ),
  internal('extinguisher.internal-examination-five-year', 5, examinedEvery(5)),
  internal(
    'extinguisher.internal-examination-six-year',
    6,
    examinedEvery(6).filter(t => t !== DRY_CHEMICAL_STORED),
  ),
  duty({
    id: 'extinguisher.six-year-maintenance',
    title: 'Six-year maintenance',
    activity: 'internal examination',
    appliesTo: [ofType(DRY_CHEMICAL_STORED)],
    clock: fromMade(6),
    // By the rule itself a recharge or a hydrostatic test starts the six years anew.
    satisfiedBy: ['internal examination', 'recharge', 'hydrostatic test'],
    sources: [
      osha157(
        '(e)(4)',
        'Emptied and maintained every six years; a recharge or a hydrostatic test starts them anew. Nonrechargeable ones are exempt.',
      ),
      nfpa10('six-year maintenance'),
    ],
    force: 'law',
    bindings: osha('29 CFR 1910.157(e)(4)'),
    late: 'limits',
    who: TECHNICIAN,
    cautions: CAUTIONS,
  }),
  hydrostatic('extinguisher.hydrostatic-five-year', 5, byTableL1(5), TABLE_L1),
  hydrostatic('extinguisher.hydrostatic-twelve-year', 12, byTableL1(12), TABLE_L1),
  hydrostatic('extinguisher.hydrostatic-five-year-standard', 5, byNfpa10(5), BY_NFPA_10),
  hydrostatic('extinguisher.hydrostatic-twelve-year-standard', 12, byNfpa10(12), BY_NFPA_10),
  duty({
    id: 'extinguisher.hydrostatic-by-label',
    title: 'Hydrostatic test by its label',
    activity: 'hydrostatic test',
    appliesTo: [{ attribute: 'type', known: false }],
    clock: { kind: 'printed date', attribute: 'testDue', needed: true },
    sources: [
      osha157('(f), Table L-1', 'The type decides. While it is not known, the date on the label does.'),
    ],
    force: 'law',
    bindings: osha('29 CFR 1910.157(f), Table L-1'),
    late: 'limits',
    who: 'Whoever keeps the list: read the label and enter the type.',
  }),
  hose('extinguisher.hose-test-five-year', 5),
  hose('extinguisher.hose-test-twelve-year', 12),
  duty({
    id: 'extinguisher.end-of-life',
    title: 'End of life',
    activity: 'retirement',
    appliesTo: [ofType(NONRECHARGEABLE)],
    clock: lifeFromMade(12),
    sources: [
      {
        document: 'California Code of Regulations, Title 19',
        section: '575.1(b)',
        edition: 'California',
        confidence: 'read',
        note: 'A nonrechargeable extinguisher is removed twelve years after manufacture; it owes no six-year maintenance.',
      },
      {
        document: 'Utah Admin. Code R650-217-6',
        section: '',
        edition: 'Utah',
        confidence: 'read',
        note: 'The same in Utah.',
      },
    ],
    force: 'standard',
    bindings: [
      { reach: { states: ['CA'] }, cite: 'Title 19, 575.1(b)' },
      { reach: { states: ['UT'] }, cite: 'R650-217-6' },
    ],
    binds: 'Law in California and Utah; elsewhere where the department has adopted NFPA 10.',
    late: 'blocks',
    who: 'The officer in charge takes it out; nobody tests or refills it.',
    cautions: CAUTIONS,
  }),
  duty({
    id: 'extinguisher.not-permitted',
    title: 'Not permitted',
    activity: 'retirement',
    appliesTo: [ofType(SOLDERED)],
    // Whatever its age: a date that says otherwise is a wrong date, and without one it is not judged, not passed over.
    clock: { kind: 'life', counts: 'made', plus: { months: 0 } },
    sources: [
      osha157(
        '(f), Table L-1, note',
        'Shells of copper or brass joined by soft solder or rivets are not tested and had to be gone by 1 January 1982.',
      ),
    ],
    force: 'law',
    bindings: osha('29 CFR 1910.157(f), Table L-1'),
    late: 'blocks',
    who: 'The officer in charge takes it out at once; it may burst when it is turned over.',
    cautions: ['Never test it, fill it or turn it over.', ...CAUTIONS],
  }),
];
