import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { vocabularySchema } from '../../../src/cues/schemas/vocabulary';
import { phrasesOf } from '../../../src/domain/hearing/patterns';
import { faultsOf } from '../../../src/domain/hearing/vocabulary';

const text = readFileSync(
  new URL('../../../scripts-cues/en/vocabulary.yaml', import.meta.url),
  'utf8',
);

/** What is said of the shipped vocabulary after one change, as `field: problem`. */
function problems(from: string, to: string): string[] {
  expect(text).toContain(from);
  const { error } = vocabularySchema.safeParse(parse(text.replace(from, to)));
  return (error?.issues ?? []).map(({ path, message }) => `${path.join('.')}: ${message}`);
}

/** Of these a phrase is matched as a whole, so that no phrases are made of it. */
const MATCHED = ['loosely'];

describe('the vocabulary', () => {
  it('names every fault of the trade once, with its kind and areas', () => {
    const faults = faultsOf(vocabularySchema.parse(parse(text)));
    expect(Object.keys(faults)).toHaveLength(23);
    expect(faults['arms-short']).toEqual({
      id: 'arms-short',
      kind: 'range',
      areas: ['overhead'],
      readback: 'arms short',
    });
    const ranged = Object.values(faults).filter(({ kind }) => kind === 'range');
    expect(ranged.map(({ id }) => id).sort()).toEqual(['arms-short', 'depth-short']);
    const hinge = Object.values(faults).filter(({ areas }) => areas.includes('hinge'));
    expect(hinge).toHaveLength(11);
  });

  it('stands for few enough phrases that the first reply waits for none of them', () => {
    const patterns: string[] = [];
    const gather = (value: unknown): void => {
      if (typeof value === 'string') patterns.push(value);
      else if (typeof value === 'object' && value !== null)
        for (const [name, each] of Object.entries(value)) if (!MATCHED.includes(name)) gather(each);
    };
    gather(parse(text));
    const most = patterns.toSorted((a, b) => phrasesOf(b).length - phrasesOf(a).length)[0] ?? '';
    expect(phrasesOf(most).length, most).toBeLessThan(2500);
    expect(patterns.flatMap(phrasesOf).length).toBeLessThan(44000);
  });

  it.each([
    ['kind: range', 'kind: rangy', 'faults.3.kind', 'position'],
    ['areas: [overhead]', 'areas: [overhed]', 'faults.0.areas.0', 'overhead'],
    ['id: elbows-bent', 'id: ribs-flared', 'faults.2.id', 'already listed'],
    ['about: [ribs]', 'about: [rips]', 'signs.0.about.0', 'unknown name rips; allowed: knees'],
    ['readback: elbows', 'readback: elbows\n    colour: red', 'faults.2', 'colour'],
    ['readback: chest pain', 'readback: ""', 'redFlags.chest-pain.readback', 'words to read back'],
    ['say: [fail, almost, not a pass]', 'say: []', 'results.failed.say', 'at least one way'],
    ['say: [fail, almost, not a pass]', 'say: [Fail!]', 'results.failed.say.0', 'lower case'],
    ['say: [fail, almost, not a pass]', "say: ['(fail']", 'results.failed.say.0', 'left out'],
    ['ninety: 90', 'ninety: 9000', 'numbers.words.ninety', '90'],
    ['language: en', 'language: English', 'language', 'such as en'],
  ])('with "%s" made "%s" is refused at %s', (from, to, field, allowed) => {
    const found = problems(from, to);
    expect(found.find((each) => each.includes(field)) ?? found).toContain(allowed);
  });
});

describe('a pattern', () => {
  it('stands for all its phrases', () => {
    expect(phrasesOf('knees (came|went)? (forward|in front)')).toEqual([
      'knees forward',
      'knees in front',
      'knees came forward',
      'knees came in front',
      'knees went forward',
      'knees went in front',
    ]);
  });
});
