import { readFileSync } from 'node:fs';
import { cpus } from 'node:os';

/** Where Linux says how much of the processor a container may use: control groups, version 2. */
const QUOTA = '/sys/fs/cgroup/cpu.max';
/** The same of version 1: a quota, and the period that it is for, in microseconds; -1 is none. */
const QUOTA_BEFORE = ['cpu.cfs_quota_us', 'cpu.cfs_period_us'];

/**
 * Whether a low priority gives way at once. Where a container has more cores than it may use, what
 * has a low priority uses up the quota on a core of its own, and then all of the container stands
 * still for a while, what sounds as well. The cores are all that there are: what Node says may be
 * used (`availableParallelism`) is itself cut to the quota where Node is new enough.
 * @param {(path: string) => string} [read] throws where there is no such file
 * @param {number} [cores]
 */
export function isPriorityKept(read = (path) => readFileSync(path, 'utf8'), cores = cpus().length) {
  const [quota = NaN, period = NaN] = quotaOf(read).map(Number);
  return !(quota > 0) || quota / period >= cores;
}

/** @param {(path: string) => string} read */
function quotaOf(read) {
  try {
    return read(QUOTA).split(' ');
  } catch {
    try {
      return QUOTA_BEFORE.map((name) => read(`/sys/fs/cgroup/cpu/${name}`));
    } catch {
      return [];
    }
  }
}
