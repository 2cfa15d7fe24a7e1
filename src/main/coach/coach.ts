import { grammarOf } from '../../domain/hearing/building';
import { withOwnWords, type OwnWords } from '../../domain/hearing/coachWords';
import type { Grammar } from '../../domain/hearing/grammar';
import type { CueBook, PromptId } from '../../domain/script';
import { lexiconOf, UNFITTED, type CoachEar, type Reading } from '../../ear/coach/coachEar';
import type { Lexicon } from '../../ear/lexicon';
import type { CoachState } from '../../screens/seat';
import type { CoachShelf, ShelfTrouble } from './shelf';
import type { KnownCoach } from './stored';

/** The coach of this device: own words, call word, and what the ear has learnt. */
export interface Coach {
  state(): CoachState;
  /** The book with the coach's own words. */
  book(): CueBook;
  callWord(): string | null;
  lexicon(): Lexicon;
  /** What is listened for at a prompt, by whom the ear is fitted to. */
  grammarFor(prompt: PromptId): Grammar;
  ownWords(): OwnWords[];
  /** Adds words that were checked, with how they sound. */
  addWords(words: OwnWords, said: Lexicon): void;
  removeWords(words: OwnWords): void;
  setCallWord(word: string | null, said: Lexicon): void;
  /** The readings of a voice check take the place of those before. */
  learn(readings: Reading[]): Promise<void>;
  /** Forgets the voice; own words and call word stay. */
  forgetVoice(): void;
  /** Makes the ear hear whoever speaks now; a session that goes on keeps its own call word. */
  fitEar(who: Speaker, callWord?: string | null): Promise<void>;
}

/**
 * `coach`: own words, call word and all that was learnt; `reader`: own words alone, as a voice
 * check hears; `stranger`: the book alone, as the recorded coach of the rehearsal is heard.
 */
export type Speaker = 'coach' | 'reader' | 'stranger';

/** `fitEar` is told what to hear by; `changed` is called after each change. */
export function createCoach(parts: {
  book: CueBook;
  lexicon: Lexicon;
  shelf: CoachShelf;
  fitEar: (coach: CoachEar, lexicon: Lexicon) => void;
  changed: () => void;
}): Coach {
  const loaded = parts.shelf.load();
  let known: KnownCoach = loaded.coach;
  let trouble: ShelfTrouble | null = loaded.trouble;
  let worded = withOwnWords(parts.book, known.ownWords);
  let speaker: Speaker = 'coach';
  let called: string | null = known.callWord;
  let asked = 0;

  const lexicon = (): Lexicon => ({
    ...Object.assign({}, known.callWordSaid, ...known.ownWords.map(({ said }) => said)),
    ...parts.lexicon,
  });

  const fitEar = async (who: Speaker, callWord = known.callWord) => {
    asked += 1;
    const turn = asked;
    const words = (who === 'coach' ? (callWord?.split(' ') ?? []) : []).filter(
      (word) => !Object.hasOwn(lexicon(), word),
    );
    const said = {
      ...(words.length > 0 && (await import('../../ear/lexicon')).lexiconFor(words)),
      ...lexicon(),
    };
    const learns = who === 'coach' && known.readings.length > 0;
    const learnt = learns
      ? (await import('../../ear/coach/fitting')).fitted(known.readings, said)
      : UNFITTED;
    // Somebody else may have begun to speak meanwhile.
    if (turn !== asked) return;
    speaker = who;
    called = callWord;
    parts.fitEar(learnt, lexiconOf(said, learnt));
  };

  const change = (more: Partial<KnownCoach>) => {
    known = { ...known, ...more };
    worded = withOwnWords(parts.book, known.ownWords);
    trouble = parts.shelf.save(known);
    parts.changed();
    return fitEar('coach');
  };

  const isSame = (one: OwnWords, other: OwnWords) =>
    one.kind === other.kind && one.id === other.id && one.words === other.words;

  return {
    state: () => ({
      readings: known.readings.length,
      ownWords: known.ownWords.map(({ kind, id, words }) => ({ kind, id, words })),
      callWord: known.callWord,
      trouble,
    }),
    book: () => worded,
    callWord: () => known.callWord,
    lexicon,
    grammarFor: (prompt) =>
      grammarOf(speaker === 'stranger' ? parts.book : worded, prompt, {
        callWord: speaker === 'coach' ? called : null,
      }),
    ownWords: () => known.ownWords,
    addWords: (words, said) => {
      const kept = known.ownWords.filter((other) => !isSame(words, other));
      void change({ ownWords: [...kept, { ...words, said }] });
    },
    removeWords: (words) => {
      void change({ ownWords: known.ownWords.filter((other) => !isSame(words, other)) });
    },
    setCallWord: (callWord, callWordSaid) => void change({ callWord, callWordSaid }),
    learn: (readings) => change({ readings }),
    forgetVoice: () => void change({ readings: [] }),
    fitEar,
  };
}
