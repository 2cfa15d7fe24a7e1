import {
  plainWords,
  repliesToReword,
  saysJust,
  type OwnWords,
  type ReplyName,
} from '../domain/hearing/coachWords';
import { phrasesOf } from '../domain/hearing/patterns';
import { promptsOf } from '../domain/hearing/prompts';
import { understand } from '../domain/hearing/understanding';
import type { Ways } from '../domain/hearing/vocabulary';
import { DEFAULT_SETTINGS } from '../domain/log';
import type { CueBook, PromptId } from '../domain/script';
import { nearestOf, type Lexicon } from './soundingAlike';

/** A reply to be read aloud: what is shown, where it is open, and how else it may be said. */
export interface ReplyToRead {
  prompt: PromptId;
  text: string;
  /** Other ways to say the same that are heard there too, shortest first. */
  synonyms: string[];
}

/** Two minutes of reading. */
export const REPLIES_TO_READ = 20;
/** A phone that was not read yet weighs as much as being so much nearer to another reply. */
const NEW_PHONE = 0.06;
const MOST_SYNONYMS = 4;

interface Candidate extends ReplyToRead {
  meaning: string;
  isNeeded: boolean;
}

/**
 * The replies that a voice check reads: those that a session asks for most, the coach's own words, then those that sound most like another reply or hold phones that
 * none before them has. Chosen from the vocabulary; in the order to be read.
 */
export function repliesToRead(
  book: CueBook,
  lexicon: Lexicon,
  { own = [], count = REPLIES_TO_READ }: { own?: OwnWords[]; count?: number } = {},
): ReplyToRead[] {
  const candidates = candidatesOf(book, own);
  const phonesIn = (text: string) =>
    text
      .split(' ')
      .flatMap((word) => (Object.hasOwn(lexicon, word) ? lexicon[word] : [])?.[0] ?? []);
  const nearness = new Map(
    candidates.map((candidate) => [candidate, nearestOf(candidate, candidates, lexicon)]),
  );
  const chosen = candidates.filter(({ isNeeded }) => isNeeded).slice(0, count);
  const read = new Set(chosen.flatMap(({ text }) => phonesIn(text)));
  const left = candidates.filter((candidate) => !chosen.includes(candidate));
  while (chosen.length < count && left.length > 0) {
    const worth = (candidate: Candidate) => {
      const fresh = new Set(phonesIn(candidate.text).filter((phone) => !read.has(phone)));
      return NEW_PHONE * fresh.size - (nearness.get(candidate) ?? 1);
    };
    const next = left.reduce((best, each) => (worth(each) > worth(best) ? each : best));
    left.splice(left.indexOf(next), 1);
    chosen.push(next);
    for (const phone of phonesIn(next.text)) read.add(phone);
  }
  return candidates
    .filter((candidate) => chosen.includes(candidate))
    .map(({ prompt, text, synonyms }) => ({ prompt, text, synonyms }));
}

/** One wording of every reply, at a prompt at which it is open. */
function candidatesOf(book: CueBook, own: OwnWords[]): Candidate[] {
  const { commands, numbers } = book.vocabulary;
  const prompts = promptsOf(book).map(({ prompt }) => prompt);
  const asked = prompts.filter((prompt) => /^(check|set)\//.test(prompt));
  const listed = repliesToReword(book).flatMap(({ kind, id }) => {
    const name: ReplyName = { kind, id };
    // Who has words of their own says those.
    const mine = own.filter((words) => words.kind === kind && words.id === id);
    const says = [...mine.map(({ words }) => words), ...phrasesFor(book, name)];
    const [text] = says;
    const prompt = [...asked, 'idle'].find(
      (at) => text !== undefined && means(book, at, text, name),
    );
    return text === undefined || prompt === undefined
      ? []
      : [
          {
            prompt: kind === 'commands' ? 'idle' : prompt,
            text,
            meaning: `${kind}/${id}`,
            synonyms: says.slice(1, 1 + MOST_SYNONYMS),
            isNeeded: mine.length > 0 || NEEDED.includes(`${kind}/${id}`),
          },
        ];
  });
  const answers = (['yes', 'no', 'stop'] as const).map((id) => {
    const [text = id, ...synonyms] = spokenWays(commands[id]);
    const prompt = id === 'stop' ? 'idle' : 'confirm';
    return {
      prompt,
      text,
      meaning: id,
      synonyms: synonyms.slice(0, MOST_SYNONYMS),
      isNeeded: true,
    };
  });
  const counts = Object.entries(numbers.words).flatMap(([word, value]) =>
    value > 10
      ? []
      : [
          {
            prompt: 'pain/how-much',
            text: word,
            meaning: `pain ${value}`,
            synonyms: [],
            isNeeded: false,
          },
        ],
  );
  return [...listed, ...answers, ...counts];
}

/** Every question is answered by these, or every set is paced by them. */
const NEEDED = [
  ...['results/held', 'results/short', 'results/lost', 'pain/words'],
  ...['commands/ready', 'commands/rep', 'commands/done', 'commands/next', 'commands/again'],
];

function means(book: CueBook, prompt: PromptId, text: string, name: ReplyName): boolean {
  const options = { ...DEFAULT_SETTINGS, confidence: 1 };
  const { verdict, reply } = understand(book, prompt, text, options);
  // A side alone is asked for its grade.
  return verdict === 'accept' || name.kind === 'sides'
    ? reply !== null && saysJust(reply, name)
    : false;
}

function phrasesFor({ vocabulary }: CueBook, { kind, id }: ReplyName): string[] {
  if (kind === 'faults') {
    const fault = vocabulary.faults.find((each) => each.id === id);
    return fault ? spokenWays(fault) : [];
  }
  const group = vocabulary[kind] as Record<string, Ways>;
  return Object.hasOwn(group, id) && group[id] ? spokenWays(group[id]) : [];
}

/** What the recogniser listens for, the shortest of each pattern first. */
const spokenWays = ({ say }: Ways): string[] => {
  const patterns = say.map((pattern) => phrasesOf(pattern).map(plainWords));
  const longest = Math.max(0, ...patterns.map((phrases) => phrases.length));
  const rounds = Array.from({ length: longest }, (_, at) =>
    patterns.flatMap((each) => each[at] ?? []),
  );
  return [...new Set(rounds.flat())];
};
