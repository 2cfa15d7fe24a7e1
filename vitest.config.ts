import { defineConfig } from 'vitest/config';
import { BySurroundings } from './tests/runner/bySurroundings.mjs';

/** These put other modules in the place of ours, so each needs modules of its own. */
const MOCKED = ['tests/main/languageShelf.test.ts', 'tests/main/otherLanguage.test.ts'];

const onNode = {
  // The recogniser and the voice take seconds, and more beside journeys in Chromium, which go first.
  testTimeout: 180_000,
  hookTimeout: 180_000,
  unstubGlobals: true,
  setupFiles: 'tests/runner/waits.ts',
};
const inChromium = { testTimeout: 120_000, hookTimeout: 120_000, isolate: false };

/**
 * `rooms` and `mocked`: everything on Node. `pages` and `hearing`: journeys in real Chromium over
 * the built page, without its ear and with it.
 */
export default defineConfig({
  test: {
    sequence: { sequencer: BySurroundings },
    projects: [
      {
        test: {
          ...onNode,
          name: 'rooms',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**', ...MOCKED],
          setupFiles: ['tests/runner/drawing.ts'],
          // Files share their modules: reading these anew took as long as many a test.
          isolate: false,
        },
      },
      { test: { ...onNode, name: 'mocked', include: MOCKED } },
      { test: { ...inChromium, name: 'pages', include: ['tests/browser/*.test.ts'] } },
      { test: { ...inChromium, name: 'hearing', include: ['tests/browser/hearing/*.test.ts'] } },
    ],
  },
});
