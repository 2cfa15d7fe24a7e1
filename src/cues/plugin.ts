import { join } from 'node:path';
import { checkFolder } from './checking';
import { CueError, loadBook } from './fromFolder';
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
 * Gives `virtual:sayso-cues` to the page: `book`, `lexicon` and `durations`, read and checked
 * when the page is built, so that no YAML is parsed in the browser. Throws CueError, which lists
 * every problem and fails the build, where the scripts are not right.
 */
export function saysoCues({ root, language, lexiconFor }: CuesOptions): CuesPlugin {
  const folder = join(root, 'scripts-cues');
  return {
    name: 'sayso-cues',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load(id) {
      if (id !== RESOLVED) return undefined;
      for (const file of filesOf(folder, language)) this.addWatchFile(file);
      const problems = checkFolder(folder, language, lexiconFor);
      if (problems.length > 0) throw new CueError(problems);
      const book = loadBook(folder, language);
      const exported = { book, lexicon: lexiconFor(wordsOf(book)), durations: table };
      return Object.entries(exported)
        .map(([name, value]) => `export const ${name} = ${JSON.stringify(value)};\n`)
        .join('');
    },
  };
}
