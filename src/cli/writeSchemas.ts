/** Writes scripts-cues/*.schema.json: run `npx tsx src/cli/writeSchemas.ts` after a schema changed. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format, resolveConfig } from 'prettier';
import { writtenSchemas } from './schemas';

const config = await resolveConfig('package.json');
for (const [name, schema] of Object.entries(writtenSchemas())) {
  const text = await format(JSON.stringify(schema), { ...config, parser: 'json' });
  writeFileSync(join('scripts-cues', name), text);
}
