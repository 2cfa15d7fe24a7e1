import { defineConfig } from 'vitest/config';

/** `rooms`: everything on Node. `browser`: journeys in real Chromium over the built page. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'rooms',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**'],
          // The recogniser and the voice take seconds on a busy small machine.
          testTimeout: 20_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
