import type { FaultId } from '../faults';
import type { CueBook, PromptId } from '../script';
import { clausesOf, ofKind, unknownShare } from './covering';
import { commandSaid, mayStop, type CommandSaid } from './commanding';
import { correctedStatement } from './correcting';
import { ANGLE_DEGREES, judge, type Judged, type Lines } from './judging';
import { meaningsOf, type Meaning } from './meanings';
import { commandsAt, promptOf, type Prompt } from './prompts';
import { readbackOf } from './readback';
import { NO_REPLY, type Asks, type Reading, type Reply, type Verdict } from './reply';
import { sameSaid } from './same';
import { means, segmentsOf, type Segment } from './segments';
import { isEmpty, type Asked, type Statement } from './statement';
import { talkFrom } from './talk';
import { wordsOf, type Words } from './words';

/** With the session's lines: the overhead angle of a pass, and the pain that leaves a result. */
export interface UnderstandOptions extends Lines {
  /** How surely the words were heard, 0 to 1; typed words are 1. */
  confidence: number;
}

/**
 * Confidence from which a reply is asked about, and from which it is acted on. Stop and pause act
 * earliest: stopping too much costs a word, stopping too late may hurt. Pain and red flags next.
 */
export const LINES = {
  reply: { ask: 0.25, act: 0.5 },
  harm: { ask: 0.2, act: 0.4 },
  halt: { ask: 0.2, act: 0.2 },
} as const;

/** Share of unknown words up to which a reply is acted on, and up to which it is asked about. */
const UNKNOWN = { act: 0.34, ask: 0.5 } as const;

/** How much less sure a reading is that has to be asked about. */
const DOUBT = 0.6;

/** No reply has more words than this; longer ones are talk. */
const MOST_WORDS = 60;

/** A near-homophone was read for what it sounds like. */
const SOUNDS_LIKE = 0.9;

/**
 * Understands one utterance at one prompt. Never throws on any text; throws only where the book
 * has no such prompt.
 * @example understand(book, 'check/hinge-bar', 'knees came forward', { ...DEFAULT_SETTINGS, confidence: 1 })
 */
export function understand(
  book: CueBook,
  prompt: PromptId,
  text: string,
  options: UnderstandOptions,
): Reading {
  const asked = promptOf(book, prompt);
  if (!asked) throw new Error(`There is no prompt "${prompt}" in the cue scripts.`);
  const words = wordsOf(text);
  if (words.words.length > MOST_WORDS) return weighed(book, text, IGNORED, options.confidence);
  const whole = words.words.map((word) => word.text).join(' ');
  const ordered = meaningsOf(book)
    .phrases.get(whole)
    ?.some(({ is }) => is === 'orders');
  if (asked.kind === 'result' && !words.question && meaningsOf(book).mayPass.has(whole))
    return weighed(book, text, MAY_PASS, options.confidence);
  const same = sameAt(book, asked, words);
  if (same) return weighed(book, text, same, options.confidence);
  const unpraised = withoutPraise(book, words.words);
  const command = ordered ? null : commandAt(book, asked, unpraised);
  const said =
    (command && commanded(book, asked, unpraised, command, options)) ??
    replied(book, asked, withoutMovingOn(book, words), options);
  const understood: Understood = stopsToo(book, words.words, said)
    ? { ...said, reply: { ...said.reply, command: 'stop' } }
    : said;
  if (understood.verdict === 'ignore' && !ordered && mayStop(book, words))
    return weighed(book, text, ASKS_TO_STOP, options.confidence);
  return weighed(book, text, understood, options.confidence);
}

interface Understood {
  reply: Reply;
  verdict: Verdict;
  /** Factor on the confidence of hearing. */
  sure: number;
  against?: keyof CueBook['vocabulary']['doubts'] | null;
  asks?: Asks | null;
}

const IGNORED: Understood = { reply: NO_REPLY, verdict: 'ignore', sure: 1 };

const MAY_PASS: Understood = {
  reply: { ...NO_REPLY, result: 'held' },
  verdict: 'confirm',
  sure: 1,
  asks: 'pass',
};

const ASKS_TO_STOP: Understood = {
  reply: { ...NO_REPLY, command: 'stop' },
  verdict: 'confirm',
  sure: 1,
};

function commandAt(book: CueBook, asked: Prompt, words: Words['words']): CommandSaid | null {
  const area = asked.kind === 'result' ? asked.area : null;
  const said = commandSaid(book, meaningsOf(book), words, commandsAt(asked), area);
  // "No, scratch that" takes back what is offered, not what was recorded before.
  const first = meaningsOf(book).commands.get(words[0]?.text ?? '')?.command;
  return said?.command === 'undo' && asked.kind === 'confirm' && first === 'no'
    ? { ...said, command: 'no' }
    : said;
}

/** "Good set, go heavier": praise before a comma leaves a command what it is. */
function withoutPraise(book: CueBook, words: Words['words']): Words['words'] {
  const comma = words.findIndex((word) => word.after);
  if (comma <= 0) return words;
  const praises = (some: Words['words']) =>
    meaningsOf(book)
      .phrases.get(some.map(({ text }) => text).join(' '))
      ?.some(({ is }) => is === 'praise') ?? false;
  const rest = words.slice(comma);
  return praises(words.slice(0, comma)) && !praises(rest) ? rest : words;
}

/** The other side's finding again, where findings are told; asked about, since a log must fill it. */
function sameAt(book: CueBook, asked: Prompt, { words, question }: Words): Understood | null {
  if (question || asked.kind === 'pain-number' || asked.kind === 'pain-kind') return null;
  const said = sameSaid(
    book,
    words.map(({ text }) => text),
  );
  if (said === null) return null;
  // Without sides "same again" is another set.
  const sideless = asked.kind === 'result' && !asked.sided;
  if (sideless && commandAt(book, asked, words)) return null;
  return { reply: { ...NO_REPLY, same: true, ...said }, verdict: 'confirm', sure: 1 };
}

/** A "stop" that pain follows without a pause for breath ("stop it hurts"). */
function stopsToo(book: CueBook, words: Words['words'], { reply, verdict }: Understood): boolean {
  const harm = reply.redFlag !== null || reply.result === 'pain';
  return harm && verdict !== 'ignore' && words[0]?.text === book.vocabulary.commands.stop.say[0];
}

/** Acts, asks or ignores by how surely the words were heard. */
function weighed(
  book: CueBook,
  heard: string,
  understood: Understood,
  confidence: number,
): Reading {
  const { reply, verdict, sure, asks } = understood;
  const lines =
    reply.command === 'stop' || reply.command === 'pause'
      ? LINES.halt
      : reply.redFlag || reply.result === 'pain'
        ? LINES.harm
        : LINES.reply;
  const ignored = verdict === 'ignore' || confidence < lines.ask;
  if (ignored) return { heard, verdict: 'ignore', reply: null, confidence, readback: null };
  const unsure = verdict === 'confirm' || confidence < lines.act;
  return {
    heard,
    verdict: unsure ? 'confirm' : 'accept',
    reply,
    confidence: confidence * sure * (verdict === 'confirm' ? DOUBT : 1),
    readback: offerOf(book, understood),
    ...(asks && { asks }),
  };
}

/** The reply read back, with what it says against itself or leaves open. */
function offerOf({ vocabulary, ...book }: CueBook, { reply, against, asks }: Understood): string {
  const said = readbackOf({ vocabulary, ...book }, reply);
  const join = (mark: string, more: string) => (said === null ? more : `${said}${mark} ${more}`);
  if (against) return join(',', vocabulary.doubts[against]);
  if (asks === 'limited-or-lost') return join(':', vocabulary.results.failed.readback);
  if (asks === 'pass' && reply.result === null) return join(',', vocabulary.noFault);
  return said ?? vocabulary.noFault;
}

/** "Done, pass, moving on": a result says that it is done, and moves on by itself. */
function withoutMovingOn(book: CueBook, { words, question }: Words): Words {
  const commandOf = (some: Words['words']) =>
    meaningsOf(book).commands.get(some.map(({ text }) => text).join(' '))?.command;
  const first = words.findIndex((word) => word.after);
  const last = words.findLastIndex((word) => word.after);
  const from = first > 0 && commandOf(words.slice(0, first)) === 'done' ? first : 0;
  const to = last > from && commandOf(words.slice(last)) === 'next' ? last : words.length;
  const said = words
    .slice(from, to)
    .map((word, at) => (at === 0 ? { ...word, after: false } : word));
  return { words: said, question };
}

/** A command stands alone; after its comma only what does not change it may follow. */
function commanded(
  book: CueBook,
  asked: Prompt,
  words: Words['words'],
  { command, target, clear, length }: CommandSaid,
  options: UnderstandOptions,
): Understood | null {
  const reply: Reply = { ...NO_REPLY, command, target };
  const whole: Understood = { reply, verdict: clear ? 'accept' : 'confirm', sure: 1 };
  if (length === words.length) {
    const nothing = command === 'no' && asked.kind === 'pain-number';
    return nothing ? null : whole;
  }
  const [next, ...others] = words.slice(length);
  const rest = next ? [{ ...next, after: false }, ...others] : [];
  const after = replied(book, asked, { words: rest, question: false }, options);
  if (command === 'stop' || command === 'pause')
    return { ...whole, reply: { ...after.reply, command, target } };
  if (after.verdict === 'ignore') return command === 'yes' || command === 'no' ? whole : null;
  return null;
}

function replied(
  book: CueBook,
  asked: Prompt,
  { words, question }: Words,
  options: UnderstandOptions,
): Understood {
  const expected = asked.kind === 'result' ? asked.faults : new Set(Object.keys(book.faults));
  const wants: Asked = {
    expected,
    painNumber: asked.kind === 'pain-number',
    sided: asked.kind !== 'result' || asked.sided,
    painKind: asked.kind === 'pain-kind',
    angles: asked.kind !== 'result' || asked.area === 'overhead',
  };
  const read = (mayMean: (meaning: Meaning) => boolean) => {
    const segments = segmentsOf(book.vocabulary, meaningsOf(book), words, mayMean);
    const talk = question ? 0 : talkFrom(segments);
    const heard = talk === null ? segments : segments.slice(0, talk);
    if (heard.length === 0) return null;
    const said = correctedStatement(book.vocabulary, heard, wants);
    return { segments: heard, said, cut: talk !== null };
  };
  const states = statesOf(book, expected);
  const own = (meaning: Meaning) => meaning.is !== 'fault' || expected.has(meaning.fault);
  const ownStates = (meaning: Meaning) =>
    own(meaning) && (meaning.is !== 'state' || states.has(meaning.state));
  const strange = ({ said }: { said: Statement }) =>
    said.faults.faults.some((fault) => !expected.has(fault)) ||
    said.results.length + said.faults.pairs === 0;
  let found = read(own);
  if (found && strange(found)) {
    const narrow = read(ownStates);
    if (narrow && !strange(narrow) && narrow.said.faults.pairs >= found.said.faults.pairs)
      found = narrow;
  }
  if (found && found.said.results.length + found.said.faults.pairs === 0) found = read(() => true);
  if (!found || isEmpty(found.said)) return IGNORED;
  const judged = judge(book, found.said, expected, options);
  return decided(asked, found, judged);
}

function decided(
  asked: Prompt,
  { segments, said, cut }: { segments: Segment[]; said: Statement; cut: boolean },
  judged: Judged,
): Understood {
  const { reply, doubtful, graded, against } = judged;
  const sure = segments.some(({ by }) => by === 'sounds') ? SOUNDS_LIKE : 1;
  const unknown =
    asked.kind === 'pain-kind'
      ? unknownShare(ofKind(segments), { ...said, faults: { ...said.faults, loose: [] } })
      : unknownShare(segments, said);
  const harm = reply.redFlag !== null || reply.result === 'pain';
  const answers =
    asked.kind === 'pain-number'
      ? reply.pain !== null || said.painNumbers.length > 0
      : asked.kind === 'pain-kind'
        ? reply.painKind !== null || reply.pain !== null
        : false;
  const fits = harm || answers || (asked.kind === 'result' && reply.result !== null);
  const guessed = clausesOf(segments).some(
    (each) =>
      said.results.length > 0 &&
      each.some((one) => one.by === 'sounds' && means(one, 'result')) &&
      each.some((one) => means(one, 'fillers')),
  );
  const asks = doubtful || cut || guessed || !fits || unknown > UNKNOWN.act;
  const open = judged.asks === 'grade' && unknown > 0;
  if (
    open ||
    unknown > UNKNOWN.ask ||
    !isWorthAsking(asked, said, graded || answers || said.kinds.length > 0)
  )
    return IGNORED;
  return { reply, verdict: asks ? 'confirm' : 'accept', sure, against, asks: judged.asks };
}

/** What can be said of these faults. */
const statesOf = ({ vocabulary }: CueBook, faults: ReadonlySet<FaultId>): Set<string> =>
  new Set(
    vocabulary.faults.flatMap(({ id, signs }) =>
      faults.has(id) ? signs.flatMap(({ is, isNot }) => [...is, ...isNot]) : [],
    ),
  );

/** A side or a number alone is no reply, but together they lack only their grade. */
function isWorthAsking(asked: Prompt, said: Statement, graded: boolean): boolean {
  if (graded || said.redFlags.length > 0) return true;
  if (said.faults.pairs > 0) return said.told || said.faults.unclear;
  if (asked.kind !== 'result') return said.unsure && said.painNumbers.length > 0;
  const angled = said.angles.some((angle) => angle >= ANGLE_DEGREES.least);
  const overhead = asked.area === 'overhead';
  return (
    said.degrees ||
    (angled && (overhead || said.sides.length > 0)) ||
    (said.unsure && said.sides.length > 0)
  );
}
