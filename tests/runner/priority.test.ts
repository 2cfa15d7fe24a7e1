import { expect, it } from 'vitest';
import { isPriorityKept } from './priority.mjs';

/** A machine whose files hold this. */
const machine = (files: Record<string, string>) => (path: string) => {
  const content = files[path];
  if (content === undefined) throw new Error(`no ${path}`);
  return content;
};
const now = (content: string) => machine({ '/sys/fs/cgroup/cpu.max': content });
const before = (quota: string) =>
  machine({
    '/sys/fs/cgroup/cpu/cpu.cfs_quota_us': `${quota}\n`,
    '/sys/fs/cgroup/cpu/cpu.cfs_period_us': '100000\n',
  });

it.each([
  ['no control groups', machine({}), 2, true],
  ['no quota', now('max 100000\n'), 2, true],
  ['a quota of all cores', now('200000 100000\n'), 2, true],
  ['two cores of eight', now('200000 100000\n'), 8, false],
  ['no quota, as it was told before', before('-1'), 2, true],
  ['two cores of eight, as it was told before', before('200000'), 8, false],
] as const)('%s: a low priority gives way or does not', (_, read, cores, isKept) => {
  expect(isPriorityKept(read, cores)).toBe(isKept);
});
