import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const here = new URL('.', import.meta.url);
const rules = [
  ...readFileSync(new URL('../../../src/domain/deciding/RULES.md', here), 'utf8').matchAll(
    /^- \*\*(\d+\.\d+)\*\*/gm,
  ),
].map(([, id = '']) => id);
/** Rules are tested where they act: deciding, reporting, and through the session. */
const files = ['../', '../../session/'].flatMap((folder) =>
  readdirSync(new URL(folder, here), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => readFileSync(new URL(`${folder}${name}`, here), 'utf8')),
);
/** The ids that titles of tests begin with; a title may name several: "9.5, 9.6 ...". */
const tested = files
  .flatMap((file) => [
    ...file.matchAll(/\bit(?:\.each\([^;]*?\))?\(\s*'(\d+\.\d+(?:, \d+\.\d+)*) /g),
  ])
  .flatMap(([, ids = '']) => ids.split(', '));

describe('the rules as they are written down', () => {
  it('are numbered in order, chapter by chapter', () => {
    const next = rules.filter((id, at) => {
      const [chapter, rule] = id.split('.').map(Number);
      const [before, last] = (rules[at - 1] ?? '0.0').split('.').map(Number);
      return chapter === before ? rule !== (last ?? 0) + 1 : rule !== 1;
    });
    expect(next).toEqual([]);
    expect(rules.length).toBeGreaterThan(60);
  });

  it('each have a test whose title begins with its id', () => {
    expect(rules.filter((id) => !tested.includes(id))).toEqual([]);
  });

  it('are the only rules that tests name', () => {
    expect(tested.filter((id) => !rules.includes(id))).toEqual([]);
  });
});
