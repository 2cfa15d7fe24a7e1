import { configureGlobal } from 'fast-check';

/** The seed that `DRAWN` gives; 1 where it gives none. Throws where that is no whole number. */
export function seedOf(drawn = '1'): number {
  if (!/^\d{1,9}$/.test(drawn)) {
    throw new Error(
      `DRAWN is "${drawn}", and must be a whole number of at most nine digits: DRAWN=2 npm test. Leave it out for the usual values.`,
    );
  }
  return Number(drawn);
}

/**
 * What properties are tried with is the same in every run, so that a test that fails does so
 * because of a change; what was never tried comes only with `DRAWN=2 npm test`.
 */
configureGlobal({ seed: seedOf(process.env['DRAWN']) });
