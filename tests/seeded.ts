/** The random cases of the property tests: the same in every run, or by `FUZZ_SEED` others. */
import fc from 'fast-check';

const { FUZZ_SEED } = process.env;
fc.configureGlobal({ seed: FUZZ_SEED === undefined ? 20261125 : Number(FUZZ_SEED) });
