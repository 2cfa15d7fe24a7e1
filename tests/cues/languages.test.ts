import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkFolder } from '../../src/cues/checking';
import { loadBook } from '../../src/cues/fromFolder';
import { durationsOf } from '../../src/cues/durationsOf';
import { hasPhones } from '../../src/cues/languages';
import { secondsOf } from '../../src/domain/pacing/duration';
import { copyOfScripts } from './copy';

/** What is wrong with the Spanish scripts after one change in one of their files. */
function spanishWith(file: string, from: string, to: string): string[] {
  const folder = copyOfScripts();
  const path = join(folder, 'es', file);
  const written = readFileSync(path, 'utf8');
  expect(written).toContain(from);
  writeFileSync(path, written.replace(from, to));
  return checkFolder(folder, 'es').map(({ field, problem }) => `${field}: ${problem}`);
}

describe('another language', () => {
  it('has a whole area: its checks, every drill of its ladder, and the routine that runs it', () => {
    const [english, spanish] = [loadBook('scripts-cues', 'en'), loadBook('scripts-cues', 'es')];
    const hinge = <T extends { area: string; id: string }>(scripts: Record<string, T>) =>
      Object.values(scripts)
        .filter(({ area }) => area === 'hinge')
        .map(({ id }) => id);
    expect(hinge(spanish.checks)).toEqual(hinge(english.checks));
    expect(hinge(spanish.drills)).toEqual(hinge(english.drills));
    expect(spanish.ladders.hinge).toEqual(english.ladders.hinge);
    expect(spanish.routines.hinge?.items).toEqual(english.routines.hinge?.items);
  });

  it('does the same work: doses, pace, loads and order are those of the first language', () => {
    const [english, spanish] = [loadBook('scripts-cues', 'en'), loadBook('scripts-cues', 'es')];
    const WORDS = ['text', 'cue', 'name', 'ask', 'good', 'caution', 'loadGuidance', 'instead'];
    const withoutWords = (value: unknown): unknown =>
      JSON.parse(
        JSON.stringify(value, (key, each: unknown) =>
          WORDS.includes(key)
            ? undefined
            : typeof each === 'string' && each.includes(' ')
              ? ''
              : each,
        ),
      );
    for (const drill of Object.values(spanish.drills))
      expect(withoutWords(drill), drill.id).toEqual(withoutWords(english.drills[drill.id]));
    for (const check of Object.values(spanish.checks))
      expect(withoutWords(check), check.id).toEqual(withoutWords(english.checks[check.id]));
  });

  it('that lacks a sentence is told which', () => {
    const found = spanishWith('says.yaml', 'say.waiting: Espero tu respuesta.\n', '');
    expect(found).toEqual(['say.waiting: is missing; the language "en" has it']);
  });

  it('whose sentence lacks a placeholder is told which', () => {
    const found = spanishWith('lines.yaml', 'empezamos con {drill}', 'empezamos');
    expect(found).toEqual(['because.enter: must have these placeholders: {area} {drill}']);
  });

  it('whose cue would be heard as a reply in it is told so', () => {
    const found = spanishWith('says.yaml', 'Te espero.', 'La espalda redonda.');
    expect(found.join()).toContain('say.paused: would itself be heard as a reply at idle');
  });

  it('takes as long to say as its letters, since only English was measured', () => {
    expect(hasPhones('es')).toBe(false);
    const [english, spanish] = [durationsOf('en'), durationsOf('es')];
    expect(secondsOf(spanish, 'no')).toBeCloseTo(
      english.lineSeconds + 2 * english.secondsPerLetter,
      3,
    );
    expect(secondsOf(english, 'no')).not.toBe(secondsOf(spanish, 'no'));
  });
});
