/**
 * JSON with the fields of each object in the order of their names and without white space, so that
 * equal values are equal texts. Fields that are undefined are left out, as JSON does. The value
 * must be what JSON can hold.
 *
 * @example canonicalJson({ b: 1, a: [true, null] }) // '{"a":[true,null],"b":1}'
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const fields = Object.entries(value)
    .filter(([, each]) => each !== undefined)
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([name, each]) => `${JSON.stringify(name)}:${canonicalJson(each)}`);
  return `{${fields.join(',')}}`;
}
