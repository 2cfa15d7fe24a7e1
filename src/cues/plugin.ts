import { join } from 'node:path';
import type { CueBook } from '../domain/script';
import { durationsOf } from './durationsOf';
import { loadBook } from './fromFolder';
import { wordsOf } from './grammarWords';
import { hasPhones } from './languages';
import type { Lexicon } from './soundingAlike';
import { filesOf, languagesOf } from './reading';

const NAME = 'virtual:sayso-cues';
const RESOLVED = `\0${NAME}`;
const WORDS = 'virtual:sayso-understood-words';
/** What replies are understood by and nothing else needs, two fifths of the book. */
const UNDERSTOOD = ['states', 'talk', 'loosely'] as const;
/** Whatever understands goes through this module first. */
const READS = /\/domain\/hearing\/meanings\.ts$/;

export interface CuesOptions {
  /** The folder that holds scripts-cues. */
  root: string;
  /** The one that is in the first script; the others are fetched where they are chosen. */
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
  transform(code: string, id: string): string | undefined;
}

/**
 * Gives `virtual:sayso-cues` to the page: `book`, `lexicon` and `durations`, read when the page
 * is built, so that no YAML is parsed in the browser, and `others`: what fetches the same of each
 * other language, by its code. A language without phones has an empty lexicon. What the page's own
 * language is understood by comes with the module that all understanding goes through, so neither is there without the
 * other, and the first page has none of it. Where the scripts cannot be used, CueError
 * fails the build and lists every problem; what only the whole check finds does not stop it.
 */
export function saysoCues({ root, language, lexiconFor }: CuesOptions): CuesPlugin {
  const folder = join(root, 'scripts-cues');
  return {
    name: 'sayso-cues',
    resolveId: (id) =>
      id === NAME || id === WORDS || id.startsWith(`${NAME}/`) ? `\0${id}` : undefined,
    transform: (code, id) => (READS.test(id) ? `import '${WORDS}';\n${code}` : undefined),
    load(id) {
      if (id === `\0${WORDS}`) {
        const { vocabulary } = loadBook(folder, language);
        return [
          `import { book } from '${NAME}';`,
          // In place: whoever has the book, or a copy of it with words of their own, has them too.
          ...UNDERSTOOD.map(
            (part) =>
              `Object.assign(book.vocabulary.${part}, ${JSON.stringify(vocabulary[part])});`,
          ),
        ].join('\n');
      }
      if (id !== RESOLVED && !id.startsWith(`${RESOLVED}/`)) return undefined;
      const wanted = id === RESOLVED ? language : id.slice(RESOLVED.length + 1);
      for (const file of filesOf(folder, wanted)) this.addWatchFile(file);
      const book = loadBook(folder, wanted);
      const lexicon = hasPhones(wanted) ? lexiconFor(wordsOf(book)) : {};
      const exported = {
        book: id === RESOLVED ? withoutUnderstood(book) : book,
        ...{ lexicon, durations: durationsOf(wanted) },
      };
      const code = Object.entries(exported)
        .map(([name, value]) => `export const ${name} = ${JSON.stringify(value)};\n`)
        .join('');
      if (id !== RESOLVED) return code;
      const others = languagesOf(folder)
        .filter((other) => other !== language)
        .map((other) => `${JSON.stringify(other)}: () => import('${NAME}/${other}')`);
      return `${code}export const others = { ${others.join(', ')} };\n`;
    },
  };
}

const withoutUnderstood = (book: CueBook) => ({
  ...book,
  vocabulary: {
    ...book.vocabulary,
    ...Object.fromEntries(UNDERSTOOD.map((part) => [part, {}])),
  },
});
