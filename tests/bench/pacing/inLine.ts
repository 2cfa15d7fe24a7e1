import { spawnSync } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';

/**
 * Gives a program that was started `detached`, and all that it has started, their turn before all
 * others, where the system allows it: on a busy machine sound is then made in time, as on one that
 * is left alone. What it starts later has more turns than others, but no first one.
 *
 * @returns whether all of it comes first
 */
export function putFirst(pid: number | undefined): boolean {
  const session = String(pid);
  try {
    // Linux shares out its time by session before it looks at who is nice.
    writeFileSync(`/proc/${session}/autogroup`, '-19');
  } catch {
    return false;
  }
  const { stdout } = spawnSync('ps', ['-o', 'pid=', '-s', session], { encoding: 'utf8' });
  const programs = stdout.split(/\s+/).filter(Boolean);
  const failed = programs.filter(
    (each) => spawnSync('chrt', ['--all-tasks', '--rr', '--pid', '5', each]).status !== 0,
  );
  return failed.every((each) => !existsSync(`/proc/${each}`));
}
