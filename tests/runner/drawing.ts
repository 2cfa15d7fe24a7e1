import { configureGlobal } from 'fast-check';

/** What properties are tried with is the same in every run; `DRAWN=2 npm test` draws others. */
configureGlobal({ seed: Number(process.env['DRAWN'] ?? 1) });
