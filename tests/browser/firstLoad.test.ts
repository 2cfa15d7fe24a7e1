import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';

const dist = fileURLToPath(new URL('../../dist', import.meta.url));
/** Packed. A phone on a slow network (1.6 Mbit/s, common practice) has it in a second. */
const BUDGET_BYTES = 200_000;

const html = readFileSync(join(dist, 'index.html'), 'utf8');
const first = [...html.matchAll(/<(?:script|link)\b[^>]*?(?:src|href)="([^"]+\.js)"/g)].map(
  ([, path = '']) => path,
);

it('all scripts that the gate waits for are under 200 kB, packed', () => {
  const sizes = first.map((path) => ({
    path,
    bytes: gzipSync(readFileSync(join(dist, path))).length,
  }));
  // The first script and, at least, the cues beside it.
  expect(sizes.length).toBeGreaterThan(1);
  const total = sizes.reduce((sum, { bytes }) => sum + bytes, 0);
  const largest = sizes.sort((one, other) => other.bytes - one.bytes);
  expect(total, largest.map(({ path, bytes }) => `${path} ${bytes}`).join('\n')).toBeLessThan(
    BUDGET_BYTES,
  );
});

it('what understands replies is in one script with all the words for it, and that is none of the first', () => {
  const holding = (text: string) =>
    readdirSync(join(dist, 'assets'))
      .filter((name) => name.endsWith('.js'))
      .filter((name) => readFileSync(join(dist, 'assets', name), 'utf8').includes(text));
  const reading = holding('The words that replies are understood by are not there.');
  expect(reading).toHaveLength(1);
  for (const part of ['states', 'talk', 'loosely'])
    expect(holding(`.vocabulary.${part},{`)).toEqual(reading);
  expect(first.filter((path) => path.endsWith(reading[0] ?? ''))).toEqual([]);
});
