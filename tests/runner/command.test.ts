import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';

it('npm test refuses a stage that does not exist, and names those that do', () => {
  const { status, stderr } = spawnSync(process.execPath, ['tests/run.mjs', 'everything'], {
    encoding: 'utf8',
  });
  expect(status).toBe(2);
  expect(stderr).toContain('No stage is called everything');
  expect(stderr).toContain('types, lint, format, scripts, unit, pages, hearing');
});
