import { describe, expect, it } from 'vitest';
import { findChromium } from './chromium.mjs';

interface Given {
  programs?: string[];
  /** What an installation brings. */
  brings?: string[];
  fails?: string[];
  isRoot?: boolean;
  env?: Record<string, string>;
}

const machine = ({ programs = [], brings = [], fails = [], isRoot = true, env = {} }: Given) => {
  const there = new Set(programs);
  const ran: string[] = [];
  return {
    ran,
    env: { PATH: '/bin:/usr/bin', ...env },
    isRoot,
    isProgram: (path: string) => there.has(path),
    run: (program: string, words: string[]) => {
      const line = [program, ...words].join(' ');
      ran.push(line);
      if (fails.some((start) => line.startsWith(start))) return { ok: false, said: 'E: no such' };
      if (line.includes('install')) brings.forEach((path) => there.add(path));
      return { ok: true, said: '' };
    },
  };
};
const quiet = () => {};

describe('Chromium for the browser tests', () => {
  it('is the one on the PATH, with nothing installed', () => {
    const given = machine({ programs: ['/usr/bin/chromium'] });
    expect(findChromium(quiet, given)).toBe('/usr/bin/chromium');
    expect(given.ran).toEqual(['/usr/bin/chromium --version']);
  });

  it('is the one that CHROMIUM names, before any other', () => {
    const given = machine({
      programs: ['/usr/bin/chromium', '/opt/chrome'],
      env: { CHROMIUM: '/opt/chrome' },
    });
    expect(findChromium(quiet, given)).toBe('/opt/chrome');
  });

  it('is refused where CHROMIUM names no program', () => {
    const given = machine({ programs: ['/usr/bin/chromium'], env: { CHROMIUM: '/opt/none' } });
    expect(() => findChromium(quiet, given)).toThrow('CHROMIUM names /opt/none');
  });

  it('is installed from the packages of Debian where there is none', () => {
    const given = machine({ programs: ['/usr/bin/apt-get'], brings: ['/usr/bin/chromium'] });
    expect(findChromium(quiet, given)).toBe('/usr/bin/chromium');
    expect(given.ran).toContain(
      'apt-get install -y --no-install-recommends chromium chromium-driver',
    );
  });

  it('is installed through sudo by somebody who may', () => {
    const given = machine({
      programs: ['/usr/bin/apt-get'],
      brings: ['/usr/bin/chromium'],
      isRoot: false,
    });
    findChromium(quiet, given);
    expect(given.ran.some((line) => line.startsWith('sudo -n apt-get install'))).toBe(true);
  });

  it.each([
    ['without apt-get', {}, 'Install Chromium or Chrome by hand'],
    [
      'by somebody who may not install',
      { programs: ['/usr/bin/apt-get'], isRoot: false, fails: ['sudo'] },
      'sudo apt-get install chromium',
    ],
    [
      'where the package is not to be had',
      { programs: ['/usr/bin/apt-get'], fails: ['apt-get install'] },
      'could not be installed',
    ],
    [
      'where the one found does not start',
      { programs: ['/usr/bin/chromium'], fails: ['/usr/bin/chromium'] },
      'does not start',
    ],
  ])('cannot be had %s, and says what to do', (_, given, words) => {
    expect(() => findChromium(quiet, machine(given))).toThrow(words);
  });
});
