import { configure } from '@testing-library/react';
import { vi } from 'vitest';

/** What is waited for comes late where other programs go first: nobody waits so long in vain. */
const LONGEST_MILLISECONDS = 30_000;

configure({ asyncUtilTimeout: LONGEST_MILLISECONDS });
const { waitFor } = vi;
vi.waitFor = (callback, options) =>
  waitFor(
    callback,
    typeof options === 'object'
      ? { timeout: LONGEST_MILLISECONDS, ...options }
      : (options ?? LONGEST_MILLISECONDS),
  );
