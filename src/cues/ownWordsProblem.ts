import { AREAS } from '../domain/areas';
import {
  MOST_OWN_WORDS,
  plainWords,
  repliesToReword,
  saysJust,
  withOwnWords,
  type OwnWords,
} from '../domain/hearing/coachWords';
import { understand } from '../domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../domain/log';
import type { CueBook, PromptId } from '../domain/script';
import { repliesOf } from './repliesAlike';
import { soundsLikeOneOf, type Lexicon } from './soundingAlike';
import { spokenTexts } from './spoken';

/**
 * What is wrong with words of a coach's own for a reply, in one sentence that says what to do; null
 * where they can be heard, are understood as that reply, and sound like no other. `book` holds the
 * own words from before; `lexiconFor` says any word.
 */
export function ownWordsProblem(
  book: CueBook,
  own: OwnWords,
  lexiconFor: (words: string[]) => Lexicon,
): string | null {
  const words = own.words.split(' ').filter((word) => word !== '');
  if (words.length === 0) return 'Type the words you say.';
  if (plainWords(own.words) !== own.words) return 'Write it in small letters, without signs.';
  if (/[^a-z' ]/.test(own.words)) return 'Write it in plain letters, and numbers as words.';
  if (words.length > MOST_OWN_WORDS)
    return `Keep it to ${MOST_OWN_WORDS} words: short replies are heard best.`;
  const known = repliesToReword(book).find(({ kind, id }) => kind === own.kind && id === own.id);
  if (known === undefined) return 'This reply cannot be worded otherwise.';
  const prompts = promptsWith(book, own);
  if (prompts.every((prompt) => says(book, prompt, own)) && isSpoken(book, own))
    return `“${own.words}” is heard as “${known.readback}” already.`;
  const other = prompts.map((prompt) => otherMeaning(book, prompt, own)).find((each) => each);
  if (other) return `“${own.words}” already means “${other}”. Choose other words.`;
  const worded = withOwnWords(book, [own]);
  if (!prompts.every((prompt) => says(worded, prompt, own)))
    return `“${own.words}” cannot be told from talk to the athlete. Choose other words.`;
  const alike = soundingAlike(book, own, lexiconFor);
  if (alike !== null) return `“${own.words}” sounds too much like “${alike}”. Choose other words.`;
  const cue = spokenTexts(book).find(({ text }) =>
    ` ${plainWords(text)} `.includes(` ${own.words} `),
  );
  if (cue !== undefined)
    return `Sayso says “${own.words}” itself, in “${cue.text}” Choose other words.`;
  return null;
}

/** A prompt of each kind at which the reply is open. */
function promptsWith(book: CueBook, { kind, id }: OwnWords): PromptId[] {
  const checks = Object.values(book.checks).filter(
    ({ faults, sided }) =>
      (kind !== 'faults' || faults.includes(id)) && (kind !== 'sides' || sided),
  );
  const drills = Object.values(book.drills).filter(
    ({ area, sided }) =>
      (kind !== 'faults' || book.faults[id]?.areas.includes(area)) && (kind !== 'sides' || sided),
  );
  const asked = AREAS.flatMap((area) => [
    ...checks
      .filter((check) => check.area === area)
      .map((check) => `check/${check.id}`)
      .slice(0, 1),
    ...drills
      .filter((drill) => drill.area === area)
      .map((drill) => `set/${drill.id}`)
      .slice(0, 1),
  ]);
  return ['results', 'faults', 'sides'].includes(kind) ? asked : ['idle', ...asked];
}

const reading = (book: CueBook, prompt: PromptId, { words }: OwnWords) =>
  understand(book, prompt, words, { ...DEFAULT_SETTINGS, confidence: 1 });

/** A side alone is asked for its grade; all else is to be acted on. */
function says(book: CueBook, prompt: PromptId, own: OwnWords): boolean {
  const { verdict, reply } = reading(book, prompt, own);
  const taken = own.kind === 'sides' ? verdict !== 'ignore' : verdict === 'accept';
  return taken && reply !== null && saysJust(reply, own);
}

function otherMeaning(book: CueBook, prompt: PromptId, own: OwnWords): string | null {
  const { verdict, reply, readback } = reading(book, prompt, own);
  return verdict === 'ignore' || reply === null || saysJust(reply, own)
    ? null
    : (readback ?? own.words);
}

/** Whether the recogniser listens for it already. */
const isSpoken = (book: CueBook, own: OwnWords) =>
  AREAS.some((area) => repliesOf(book, area).some(({ words }) => words === own.words));

function soundingAlike(
  book: CueBook,
  own: OwnWords,
  lexiconFor: (words: string[]) => Lexicon,
): string | null {
  const areas = own.kind === 'faults' ? (book.faults[own.id]?.areas ?? []) : AREAS;
  const meaning = meaningOf(own);
  for (const area of areas) {
    const others = repliesOf(book, area);
    const words = [own, ...others].flatMap((reply) => reply.words.split(' '));
    const found = soundsLikeOneOf({ words: own.words, meaning }, others, lexiconFor(words));
    if (found !== null) return found.words;
  }
  return null;
}

/** As `repliesOf` names meanings. */
const meaningOf = ({ kind, id }: OwnWords) =>
  kind !== 'pain' ? id : id === 'none' ? 'no pain' : 'pain';
