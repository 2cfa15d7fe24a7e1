import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { saysoCues } from '../../src/cues/plugin';
import { lexiconFor } from '../../src/ear/lexicon';
import { change, copyOfScripts } from './copy';

const loaded = (root: string, name = 'virtual:sayso-cues'): { code: string; watched: string[] } => {
  const watched: string[] = [];
  const plugin = saysoCues({ root, language: 'en', lexiconFor });
  const id = plugin.resolveId(name) ?? '';
  const code = plugin.load.call({ addWatchFile: (file) => watched.push(file) }, id);
  return { code: code ?? '', watched };
};

describe('the cues inside the page', () => {
  it('are the book, its pronunciations and its durations', async () => {
    const { code, watched } = loaded('.');
    const page = (await import(`data:text/javascript,${encodeURIComponent(code)}`)) as object;
    expect(Object.keys(page).sort()).toEqual(['book', 'durations', 'lexicon', 'others']);
    expect(page).toHaveProperty('book', JSON.parse(JSON.stringify(loadBook('scripts-cues', 'en'))));
    expect(page).toHaveProperty('lexicon.stop', [['S', 'T', 'AA', 'P']]);
    expect(watched.some((file) => file.endsWith('bell-hinge.yaml'))).toBe(true);
  });

  it('of another language are fetched by themselves, with words as long as their letters', async () => {
    expect(loaded('.').code).toContain("'virtual:sayso-cues/es'");
    const { code, watched } = loaded('.', 'virtual:sayso-cues/es');
    const page = (await import(`data:text/javascript,${encodeURIComponent(code)}`)) as object;
    expect(page).toHaveProperty('book.language', 'es');
    expect(page).toHaveProperty('lexicon', {});
    expect(page).toHaveProperty('durations.words', {});
    expect(page).not.toHaveProperty('others');
    expect(watched.every((file) => file.includes('scripts-cues/es/'))).toBe(true);
  });

  it('leave every other module alone', () => {
    const plugin = saysoCues({ root: '.', language: 'en', lexiconFor });
    expect(plugin.resolveId('react')).toBeUndefined();
    expect(plugin.load.call({ addWatchFile: () => undefined }, 'react')).toBeUndefined();
  });

  it('fail the build, with the problems listed, where a script is broken', () => {
    const copy = copyOfScripts();
    change(copy, 'drills/bell-hinge.yaml', 'sets: 3', 'sets: 0');
    const root = mkdtempSync(join(tmpdir(), 'root-'));
    symlinkSync(copy, join(root, 'scripts-cues'));
    expect(() => loaded(root)).toThrow(
      /bell-hinge.yaml:\d+ dose.sets: must be a whole number, 1 to 6/,
    );
    rmSync(root, { recursive: true });
  });
});
