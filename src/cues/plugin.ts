import { join } from 'node:path';
import { loadBook } from './fromFolder';
import { wordsOf } from './grammarWords';
import type { Lexicon } from './soundingAlike';
import { filesOf } from './reading';
import table from './durations.json' with { type: 'json' };

const NAME = 'virtual:sayso-cues';
const RESOLVED = `\0${NAME}`;

export interface CuesOptions {
  /** The folder that holds scripts-cues. */
  root: string;
  language: string;
  /** Pronunciations of these words; throws where there is none. */
  lexiconFor: (words: string[]) => Lexicon;
}

/** The part of a Vite plugin's context that is used. */
interface Building {
  addWatchFile(file: string): void;
}

/** A Vite plugin, as far as it goes: src/cues builds without knowing Vite. */
export interface CuesPlugin {
  name: string;
  resolveId(id: string): string | undefined;
  load(this: Building, id: string): string | undefined;
}

/**
 * Gives `virtual:sayso-cues` to the page: `book`, `lexicon` and `durations`, read when the page
 * is built, so that no YAML is parsed in the browser. Where the scripts cannot be used, CueError
 * fails the build and lists every problem; what only the whole check finds does not stop it.
 */
export function saysoCues({ root, language, lexiconFor }: CuesOptions): CuesPlugin {
  const folder = join(root, 'scripts-cues');
  return {
    name: 'sayso-cues',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load(id) {
      if (id !== RESOLVED) return undefined;
      for (const file of filesOf(folder, language)) this.addWatchFile(file);
      const book = loadBook(folder, language);
      const exported = { book, lexicon: lexiconFor(wordsOf(book)), durations: table };
      return Object.entries(exported)
        .map(([name, value]) => `export const ${name} = ${JSON.stringify(value)};\n`)
        .join('');
    },
  };
}
