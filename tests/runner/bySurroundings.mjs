import { readFileSync } from 'node:fs';
import { BaseSequencer } from 'vitest/node';

/** @typedef {import('vitest/node').TestSpecification} TestSpecification */

/** @param {TestSpecification} file */
const needsPage = ({ moduleId }) =>
  /^\/\/ @vitest-environment jsdom$/m.test(readFileSync(moduleId, 'utf8'));

/**
 * Test files without a page first, then those with one: workers keep their modules from file to
 * file only as long as the surroundings stay the same.
 */
export class BySurroundings extends BaseSequencer {
  /**
   * @override
   * @param {TestSpecification[]} files
   */
  async sort(files) {
    const sorted = await super.sort(files);
    return [...sorted.filter((file) => !needsPage(file)), ...sorted.filter(needsPage)];
  }
}
