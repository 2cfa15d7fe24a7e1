import { format, resolveConfig } from 'prettier';
import { z } from 'zod';
import { recordFileSchema } from '../../../src/main/record/schema/record';

/** The shape of a saved record as a JSON Schema, as it lies beside those of the scripts. */
export async function schemaText(): Promise<string> {
  const schema = z.toJSONSchema(recordFileSchema, { io: 'input', unrepresentable: 'any' });
  const config = await resolveConfig('package.json');
  return format(JSON.stringify(schema), { ...config, parser: 'json' });
}
