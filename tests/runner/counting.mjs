/**
 * @typedef {{ name: string, passed: number, failed: number, note?: string }} Count
 *   what one stage came to; `note` says why it failed where its own output does not
 */

/**
 * Counts a vitest JSON report. A skipped test counts as failed, as does a file that could not be
 * run, an error outside any test, and a stage without tests: none may look like a success.
 * @param {string} name
 * @param {unknown} report the parsed report, or null where none was written
 * @param {number} exitCode of vitest
 * @returns {Count}
 */
export function countReport(name, report, exitCode) {
  const {
    numPassedTests = 0,
    numFailedTests = 0,
    numTotalTests = 0,
    testResults = [],
  } = /** @type {{ numPassedTests?: number, numFailedTests?: number, numTotalTests?: number, testResults?: { status: string, assertionResults: { status: string }[] }[] }} */ (
    report ?? {}
  );
  const skipped = numTotalTests - numPassedTests - numFailedTests;
  const broken = testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  ).length;
  let failed = numFailedTests + skipped + broken;
  const notes = [];
  if (skipped > 0) notes.push(`${skipped} skipped: a skipped test counts as failed`);
  if (broken > 0) notes.push(`${broken} files could not be run`);
  if (numPassedTests + failed === 0) {
    failed = 1;
    notes.push('no test was run');
  } else if (failed === 0 && exitCode !== 0) {
    failed = 1;
    notes.push(`ended with ${exitCode} although every test passed: an error outside the tests`);
  }
  return { name, passed: numPassedTests, failed, ...(notes.length && { note: notes.join('; ') }) };
}

/**
 * The last line: `N passed, N failed`.
 * @param {Count[]} counts
 */
export function lastLine(counts) {
  const sum = (/** @type {'passed' | 'failed'} */ key) =>
    counts.reduce((total, count) => total + count[key], 0);
  return `${sum('passed')} passed, ${sum('failed')} failed`;
}
