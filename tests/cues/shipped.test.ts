import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkFolder } from '../../src/cues/checking';
import { loadBook } from '../../src/cues/fromFolder';
import { wordsOf } from '../../src/cues/grammarWords';
import { jsonSchemas } from '../../src/cues/jsonSchemas';
import { printed } from '../../src/cues/problem';
import { filesOf, languagesOf } from '../../src/cues/reading';
import { lexiconFor } from '../../src/ear/lexicon';

const FOLDER = 'scripts-cues';
const book = loadBook(FOLDER, 'en');

describe('the scripts that are shipped', () => {
  // The page's own language is looked at by the command line, as a stage of `npm test`: it takes seconds.
  const others = languagesOf(FOLDER).filter((language) => language !== 'en');
  it.each(others)('have nothing wrong in them: %s', (language) => {
    expect(checkFolder(FOLDER, language, lexiconFor).map(printed)).toEqual([]);
  });

  it('hold every check, in the order they are asked', () => {
    expect(Object.keys(book.checks)).toEqual([
      'overhead-passive',
      'overhead-active-lying',
      'overhead-active-standing',
      'squat-bodyweight',
      'squat-front-rack',
      'hinge-unloaded',
      'hinge-bar',
    ]);
  });

  it('hold every drill, in order of demand', () => {
    expect(Object.values(book.ladders).map(({ rungs }) => rungs.map(({ drill }) => drill))).toEqual(
      [
        [
          'supported-hang',
          'lying-pullover',
          'hands-knees-walkout',
          'half-kneeling-press',
          'standing-press',
        ],
        ['cable-squat', 'plate-reach-squat', 'goblet-squat', 'front-squat'],
        ['bench-hinge', 'bell-hinge', 'romanian-deadlift', 'deadlift'],
      ],
    );
  });

  it('say which drills are loaded, so that none of them follows pain', () => {
    const unloaded = Object.values(book.ladders).map(({ rungs }) =>
      rungs.map(({ drill, alternates = [] }) =>
        [drill, ...alternates].filter((id) => book.drills[id]?.loaded === false),
      ),
    );
    expect(unloaded).toEqual([
      [
        ['supported-hang', 'bench-reach', 'floor-reach'],
        ['hands-only-pullover'],
        ['hands-knees-walkout', 'wall-slide'],
        [],
        ['stick-press'],
      ],
      [['cable-squat', 'post-squat'], [], [], ['stick-front-squat']],
      [['bench-hinge', 'wall-hinge'], ['stick-hinge'], [], []],
    ]);
  });

  it('have an alternate on every rung, and a first rung that needs nothing', () => {
    for (const { area, rungs } of Object.values(book.ladders)) {
      rungs.forEach(({ alternates = [] }, at) => {
        expect(alternates.length, `${area} ${at + 1}`).toBeGreaterThan(0);
      });
      const first = rungs[0]?.alternates ?? [];
      expect(first.map((id) => book.drills[id]?.equipment)).toContainEqual([]);
    }
  });

  it('let the heavier lifts be done alone only where the coach allowed them', () => {
    const asked = Object.values(book.drills).filter(({ aloneOnlyIfAllowed }) => aloneOnlyIfAllowed);
    expect(asked.map(({ id }) => id)).toEqual([
      'front-squat',
      'two-bell-front-squat',
      'romanian-deadlift',
      'two-bell-romanian-deadlift',
      'deadlift',
      'heavy-bell-deadlift',
    ]);
  });

  it('can be heard: every word of every grammar has a pronunciation', () => {
    const words = wordsOf(book);
    expect(words).toContain('stop');
    expect(Object.keys(lexiconFor(words))).toEqual(words);
  });

  it('never call anything safe, and give no points', () => {
    for (const file of filesOf(FOLDER, 'en').filter((name) => !name.endsWith('vocabulary.yaml'))) {
      expect(readFileSync(file, 'utf8'), file).not.toMatch(/\b(safe|safely|score|points?)\b/i);
    }
  });

  it('name the schema that an editor checks them with, and it is there', () => {
    for (const file of filesOf(FOLDER, 'en').filter((name) => !name.endsWith('vocabulary.yaml'))) {
      const schema = /^# yaml-language-server: \$schema=(\S+)\n/.exec(readFileSync(file, 'utf8'));
      expect(schema, file).not.toBeNull();
      const there = join(file, '..', schema?.[1] ?? '');
      expect(() => JSON.parse(readFileSync(there, 'utf8')) as unknown, file).not.toThrow();
    }
  });
});

it.each(Object.entries(jsonSchemas()))(
  '%s is what the reader checks by (else run src/cli/writeSchemas.ts)',
  (name, schema) => {
    const written: unknown = JSON.parse(readFileSync(join(FOLDER, name), 'utf8'));
    expect(written).toEqual(JSON.parse(JSON.stringify(schema)));
  },
);
