import { spokenTexts } from '../../../src/cues/spoken';
import { grammarOf } from '../../../src/domain/hearing/building';
import { promptsOf } from '../../../src/domain/hearing/prompts';
import type { CueBook } from '../../../src/domain/script';
import { wordGraphOf, type WordGraph } from '../../../src/ear/wordGraph';
import { corpus } from '../../corpus/score';
import { randomFrom } from '../../ear/noises';
import { gymTalk } from '../../sounds/gymTalk';
import type { HumanPhrase } from '../../sounds/human';
import { SHIPPED, type Half, type Speaker } from '../../sounds/speakers';
import { MAKERS } from '../../sounds/surroundings';
import {
  isOurOwn,
  type Condition,
  type EarName,
  type Job,
  type ReplyJob,
  type TalkJob,
} from './jobs';
import { everyReply, sampleReplies, understood, urgentReplies, type Wanted } from './replies';

type Random = () => number;

/** How much is heard. */
export interface Size {
  /** Replies a condition; null: every reply of every prompt, the conditions in turn. */
  repliesEach: Record<Half, number> | null;
  urgent: number;
  corpus: number;
  talkMinutes: number;
  /** One reply, and one piece of talk, in so many is heard by the other ears too. */
  othersEvery: { replies: number; talk: number };
  memoryReplies: number;
}
export const SHORT: Size = {
  repliesEach: { tuned: 9, reported: 42 },
  urgent: 168,
  corpus: 60,
  talkMinutes: 31,
  othersEvery: { replies: 5, talk: 10 },
  memoryReplies: 1000,
};
export const LONG: Size = {
  repliesEach: null,
  urgent: 1500,
  corpus: 250,
  talkMinutes: 242,
  othersEvery: { replies: 20, talk: 40 },
  memoryReplies: 1000,
};

/** What is there to be heard and who hears it. */
export interface Cast {
  book: CueBook;
  speakers: Speaker[];
  human: HumanPhrase[];
  ears: EarName[];
}

export const condition = (
  noise: string | null,
  decibels: number | null,
  reverb = false,
): Condition => ({
  name: reverb
    ? 'reverb'
    : noise === null
      ? 'clean'
      : decibels === null
        ? noise
        : `${noise} ${decibels} dB`,
  noise,
  decibels,
  reverb,
});
const NEXT_RACK = condition('next rack', 10);
const LOUDNESS = [20, 10, 5];
const RATES = [0.9, 1, 1.1, 1.2, 1.3];

/** Clean, an echo, each noise at each loudness, and the next rack 10 dB below. */
export const conditionsOf = (half: Half): Condition[] => [
  condition(null, null),
  condition(null, null, true),
  ...['pink', 'babble', 'music', 'plates'].flatMap((noise) =>
    LOUDNESS.map((decibels) => condition(noise, decibels)),
  ),
  // The noises that were kept from the first fit, too.
  ...['hum', 'white'].filter((noise) => noise in MAKERS[half]).map((noise) => condition(noise, 10)),
  NEXT_RACK,
];

const drawnFrom = <T>(from: readonly T[], random: Random): T => {
  const found = from[Math.floor(random() * from.length)];
  if (found === undefined) throw new Error('There is nothing to draw from.');
  return found;
};

export function replyJobs({ book, speakers, ears }: Cast, size: Size, seed: number): ReplyJob[] {
  const random = randomFrom(seed);
  const jobs: ReplyJob[] = [];
  const counts = new Map<string, number>();
  const graphs = new Map<string, WordGraph>();
  const graphAt = (prompt: Wanted['prompt']) => {
    const graph = graphs.get(prompt) ?? wordGraphOf(grammarOf(book, prompt));
    graphs.set(prompt, graph);
    return graph;
  };
  const add = (
    part: ReplyJob['part'],
    half: Half,
    condition: Condition,
    wanted: Wanted,
    among: Speaker[],
  ) => {
    const key = `${part}|${half}|${condition.name}`;
    const count = counts.get(key) ?? 0;
    counts.set(key, count + 1);
    jobs.push({
      kind: 'reply',
      part,
      half,
      condition,
      wanted,
      isInGrammar: canSay(graphAt(wanted.prompt), wordsIn(wanted.text)),
      spoken: {
        speaker: drawnFrom(among, random),
        text: wanted.text,
        rate: drawnFrom(RATES, random),
      },
      seed: Math.floor(random() * 2 ** 31),
      ears: ears.filter((ear) => isOurOwn(ear) || count % size.othersEvery.replies === 0),
    });
  };
  const every = size.repliesEach === null ? everyReply(book, random) : [];
  for (const half of ['reported', 'tuned'] as const) {
    const among = speakers.filter((speaker) => speaker.half === half);
    if (among.length === 0) continue;
    const conditions = conditionsOf(half);
    if (size.repliesEach === null)
      every.forEach((wanted, at) => {
        if (half === 'tuned' && at % 4 > 0) return;
        add('replies', half, drawnFrom(conditions, random), wanted, among);
      });
    else
      for (const each of conditions)
        for (const wanted of sampleReplies(book, size.repliesEach[half], random))
          add('replies', half, each, wanted, among);
  }
  const reported = speakers.filter(({ half }) => half === 'reported');
  if (reported.length === 0) return jobs;
  const at10 = conditionsOf('reported').filter(
    (each) => each.decibels === 10 && each !== NEXT_RACK,
  );
  for (const wanted of urgentReplies(book, size.urgent, random))
    add('urgent', 'reported', drawnFrom(at10, random), wanted, reported);
  const untouched = saidByCoaches(book);
  for (let at = 0; at < Math.min(size.corpus, 4 * untouched.length); at += 1)
    add(
      'corpus',
      'reported',
      at % 2 === 0 ? condition(null, null) : condition('pink', 10),
      drawnFrom(untouched, random),
      reported,
    );
  return jobs;
}

/** The untouched corpus: what coaches would say, whether or not the grammar has it. */
const saidByCoaches = (book: CueBook): Wanted[] =>
  corpus('untouched').flatMap(({ at, text, reading: { verdict } }) => {
    const { reply } = understood(book, at, text);
    return verdict === 'ignore' || reply === null ? [] : [{ prompt: at, text, reply }];
  });

const SECONDS_A_LETTER = 0.055;
const PAUSE_SECONDS = 0.75;
const CHUNK_SECONDS = 60;
const secondsOf = (text: string) => text.length * SECONDS_A_LETTER + PAUSE_SECONDS;

/** Other speech in chunks of a minute. A person who says a whole reply is left out. */
export function talkJobs(
  { book, speakers, human, ears }: Cast,
  size: Size,
  seed: number,
): { jobs: TalkJob[]; leftOut: string[] } {
  const random = randomFrom(seed + 1);
  const prompts = promptsOf(book).map(({ prompt }) => prompt);
  const questions = prompts.filter((prompt) => /^(check|set)\//.test(prompt));
  const reported = speakers.filter(({ half }) => half === 'reported');
  const seconds = size.talkMinutes * 60;
  const jobs: TalkJob[] = [];
  let minutes = 0;
  const fill = (
    source: TalkJob['source'],
    most: number,
    next: (at: number) => TalkJob['pieces'][number] & { text: string },
  ) => {
    let pieces: TalkJob['pieces'] = [];
    let chunk = 0;
    const close = () => {
      if (pieces.length === 0) return;
      jobs.push({
        kind: 'talk',
        source,
        pieces,
        decibels: drawnFrom([20, 10], random),
        prompts: [drawnFrom(questions, random), 'idle'],
        seed: Math.floor(random() * 2 ** 31),
        ears: ears.filter((ear) => isOurOwn(ear) || minutes % size.othersEvery.talk === 0),
      });
      minutes += 1;
      pieces = [];
      chunk = 0;
    };
    for (let at = 0, filled = 0; filled < most; at += 1) {
      const piece = next(at);
      pieces.push(piece);
      chunk += secondsOf(piece.text);
      filled += secondsOf(piece.text);
      if (chunk >= CHUNK_SECONDS) close();
    }
    close();
  };
  const graphs = [questions[0] ?? 'idle', 'idle'].map((prompt) =>
    wordGraphOf(grammarOf(book, prompt)),
  );
  const isReply = (text: string) => graphs.some((graph) => canSay(graph, wordsIn(text)));
  const leftOut = human.filter(({ text }) => isReply(text)).map(({ text }) => text);
  const phrases = shuffled(
    human.filter(({ text }) => !isReply(text)),
    random,
  );
  const cues = shuffled(
    [...new Set(spokenTexts(book).map(({ text }) => text))].filter((text) => !text.includes('{')),
    random,
  );
  const humanSeconds = phrases.length === 0 ? 0 : Math.min(seconds * 0.45, 2400);
  const cueSeconds = Math.min(seconds * 0.15, 1200);
  if (humanSeconds > 0)
    fill('human', humanSeconds, (at) => phrases[at % phrases.length] as HumanPhrase);
  fill('own cues', cueSeconds, (at) => ({
    speaker: SHIPPED,
    text: cues[at % cues.length] as string,
    rate: 1,
  }));
  if (reported.length > 0) {
    const talked = gymTalk(Math.ceil(seconds / 2), random);
    fill('gym talk', seconds - humanSeconds - cueSeconds, (at) => ({
      speaker: drawnFrom(reported, random),
      text: talked[at % talked.length] as string,
      rate: drawnFrom(RATES, random),
    }));
    const others = sampleReplies(book, 60, random);
    fill('next rack', Math.min(180, seconds / 10), (at) => ({
      speaker: drawnFrom(reported, random),
      text: others[at % others.length]?.text ?? 'pass',
      rate: 1,
    }));
  }
  return { jobs, leftOut };
}

const wordsIn = (text: string) => text.toLowerCase().match(/[a-z']+/g) ?? [];

/** Whether the whole of it is a reply of this grammar. */
function canSay(graph: WordGraph, words: string[]): boolean {
  let state: number | undefined = 0;
  for (const word of words)
    state = state === undefined ? state : graph.arcs[state]?.find((arc) => arc.word === word)?.to;
  return state !== undefined && graph.final[state] === true;
}

const shuffled = <T>(from: readonly T[], random: Random): T[] =>
  from
    .map((each) => ({ each, place: random() }))
    .sort((a, b) => a.place - b.place)
    .map(({ each }) => each);

/** All that a job needs spoken. */
export const spokenIn = (job: Job) =>
  job.kind === 'talk'
    ? job.pieces.flatMap((piece) => ('speaker' in piece ? [piece] : []))
    : [job.spoken];
