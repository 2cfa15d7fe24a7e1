import { describe, expect, it } from 'vitest';
import { countReport, lastLine } from './counting.mjs';

const file = (...statuses: string[]) => ({
  status: statuses.includes('failed') ? 'failed' : 'passed',
  assertionResults: statuses.map((status) => ({ status })),
});
const report = (passed: number, failed: number, total: number, ...testResults: object[]) => ({
  numPassedTests: passed,
  numFailedTests: failed,
  numTotalTests: total,
  testResults,
});

describe('counting a report', () => {
  it('counts what passed and what failed', () => {
    const count = countReport('unit', report(2, 1, 3, file('passed', 'passed', 'failed')), 1);
    expect(count).toEqual({ name: 'unit', passed: 2, failed: 1 });
  });

  it('takes a skipped test for a failed one', () => {
    const count = countReport('unit', report(1, 0, 2, file('passed', 'pending')), 0);
    expect(count).toMatchObject({ passed: 1, failed: 1, note: expect.stringContaining('skipped') });
  });

  it('takes a file that could not be run for a failed test', () => {
    const broken = { status: 'failed', assertionResults: [] };
    const count = countReport('unit', report(1, 0, 1, file('passed'), broken), 1);
    expect(count).toMatchObject({ passed: 1, failed: 1 });
  });

  it.each([
    ['no report', null],
    ['a report without tests', report(0, 0, 0)],
  ])('takes %s for a failure', (_, written) => {
    expect(countReport('browser', written, 0)).toMatchObject({ passed: 0, failed: 1 });
  });

  it('takes an error outside the tests for a failure', () => {
    expect(countReport('unit', report(1, 0, 1, file('passed')), 1)).toMatchObject({
      passed: 1,
      failed: 1,
    });
  });

  it('ends with one line for all stages', () => {
    expect(
      lastLine([
        { name: 'types', passed: 1, failed: 0 },
        { name: 'unit', passed: 40, failed: 2 },
      ]),
    ).toBe('41 passed, 2 failed');
  });
});
