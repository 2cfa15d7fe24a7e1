/** Writes scripts-cues/record.schema.json: run `npx tsx tests/main/record/writeSchema.ts` after the schema changed. */
import { writeFileSync } from 'node:fs';
import { schemaText } from './schemaText';

writeFileSync('scripts-cues/record.schema.json', await schemaText());
