import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { saysoCues } from '../../src/cues/plugin';
import { understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import type { CueBook } from '../../src/domain/script';
import { lexiconFor } from '../../src/ear/lexicon';
import { change, copyOfScripts } from './copy';

const loaded = (root: string, name = 'virtual:sayso-cues'): { code: string; watched: string[] } => {
  const watched: string[] = [];
  const plugin = saysoCues({ root, language: 'en', lexiconFor });
  const id = plugin.resolveId(name) ?? '';
  const code = plugin.load.call({ addWatchFile: (file) => watched.push(file) }, id);
  return { code: code ?? '', watched };
};

const modules = async (code: string) =>
  (await import(`data:text/javascript,${encodeURIComponent(code)}`)) as object;
const LINES = { ...DEFAULT_SETTINGS, confidence: 1 };

describe('the cues inside the page', () => {
  it('are the book, its pronunciations and its durations', async () => {
    const { code, watched } = loaded('.');
    const page = await modules(code);
    expect(Object.keys(page).sort()).toEqual(['book', 'durations', 'lexicon', 'others']);
    expect(page).toHaveProperty('book.lines', loadBook('scripts-cues', 'en').lines);
    expect(page).toHaveProperty('lexicon.stop', [['S', 'T', 'AA', 'P']]);
    expect(watched.some((file) => file.endsWith('bell-hinge.yaml'))).toBe(true);
  });

  it('are whole once what understands replies is there, and understand none by halves before', async () => {
    const { code } = loaded('.');
    const before = (await modules(code)) as { book: CueBook };
    expect(() => understand(before.book, 'idle', 'stop', LINES)).toThrow('not there');
    const page = `data:text/javascript,${encodeURIComponent(code)}#whole`;
    const words = loaded('.', 'virtual:sayso-understood-words').code;
    await modules(words.replace("'virtual:sayso-cues'", JSON.stringify(page)));
    const { book } = (await import(page)) as { book: CueBook };
    expect(book).toEqual(JSON.parse(JSON.stringify(loadBook('scripts-cues', 'en'))));
    expect(understand(book, 'idle', 'stop', LINES).reply?.command).toBe('stop');
  });

  it('come whole with the module that reads them, and with no other', () => {
    const { transform } = saysoCues({ root: '.', language: 'en', lexiconFor });
    expect(transform('code', '/src/domain/hearing/meanings.ts')).toBe(
      "import 'virtual:sayso-understood-words';\ncode",
    );
    expect(transform('code', '/src/domain/hearing/building.ts')).toBeUndefined();
  });

  it('of another language are fetched by themselves, with words as long as their letters', async () => {
    expect(loaded('.').code).toContain("'virtual:sayso-cues/es'");
    const { code, watched } = loaded('.', 'virtual:sayso-cues/es');
    const page = await modules(code);
    expect(page).toHaveProperty('book.language', 'es');
    expect(page).toHaveProperty('book.vocabulary.talk.polite.0');
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
