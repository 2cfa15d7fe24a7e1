import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { schemaText } from './schemaText';

it('is documented as it is read: scripts-cues/record.schema.json is up to date', async () => {
  const written = readFileSync('scripts-cues/record.schema.json', 'utf8');
  expect(written, 'run npx tsx tests/main/record/writeSchema.ts').toBe(await schemaText());
});
