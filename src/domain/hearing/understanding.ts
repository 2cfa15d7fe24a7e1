import type { CueBook, PromptId } from '../script';
import { commandSaid, mayStop, type CommandSaid } from './commanding';
import { correctedStatement } from './correcting';
import { ANGLE_DEGREES, judge, type Judged, type Lines } from './judging';
import { meaningsOf, type Meaning } from './meanings';
import { commandsAt, promptOf, type Prompt } from './prompts';
import { readbackOf } from './readback';
import { NO_REPLY, type Reading, type Reply, type Verdict } from './reply';
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
  const same = sameAt(book, asked, words);
  if (same) return weighed(book, text, same, options.confidence);
  const command = ordered ? null : commandAt(book, asked, words.words);
  const understood =
    (command && commanded(book, asked, words, command, options)) ??
    replied(book, asked, withoutMovingOn(book, words), options);
  if (understood.verdict === 'ignore' && !ordered && mayStop(book, words))
    return weighed(book, text, ASKS_TO_STOP, options.confidence);
  return weighed(book, text, understood, options.confidence);
}

interface Understood {
  reply: Reply;
  verdict: Verdict;
  /** Factor on the confidence of hearing. */
  sure: number;
  /** It was no pass, but not said how it failed. */
  failed?: boolean;
}

const IGNORED: Understood = { reply: NO_REPLY, verdict: 'ignore', sure: 1 };

const ASKS_TO_STOP: Understood = {
  reply: { ...NO_REPLY, command: 'stop' },
  verdict: 'confirm',
  sure: 1,
};

const commandAt = (book: CueBook, asked: Prompt, words: Words['words']): CommandSaid | null =>
  commandSaid(
    book,
    meaningsOf(book),
    words,
    commandsAt(asked),
    asked.kind === 'result' ? asked.area : null,
  );

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

/** Acts, asks or ignores by how surely the words were heard. */
function weighed(
  book: CueBook,
  heard: string,
  { reply, verdict, sure, failed }: Understood,
  confidence: number,
): Reading {
  const lines =
    reply.command === 'stop' || reply.command === 'pause'
      ? LINES.halt
      : reply.redFlag || reply.result === 'pain'
        ? LINES.harm
        : LINES.reply;
  const ignored = verdict === 'ignore' || confidence < lines.ask;
  if (ignored) return { heard, verdict: 'ignore', reply: null, confidence, readback: null };
  const asks = verdict === 'confirm' || confidence < lines.act;
  return {
    heard,
    verdict: asks ? 'confirm' : 'accept',
    reply,
    confidence: confidence * sure * (verdict === 'confirm' ? DOUBT : 1),
    readback:
      readbackOf(book, reply) ??
      (failed ? book.vocabulary.results.failed.readback : book.vocabulary.noFault),
  };
}

/** "Pass, moving on": a result moves on by itself. */
function withoutMovingOn(book: CueBook, { words, question }: Words): Words {
  const comma = words.findLastIndex((word) => word.after);
  const rest = words.slice(comma).map(({ text }) => text);
  const next = comma > 0 && meaningsOf(book).commands.get(rest.join(' '))?.command === 'next';
  return { words: next ? words.slice(0, comma) : words, question };
}

/** A command stands alone; after its comma only what does not change it may follow. */
function commanded(
  book: CueBook,
  asked: Prompt,
  { words }: Words,
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
  const own = (meaning: Meaning) => meaning.is !== 'fault' || expected.has(meaning.fault);
  let found = read(own);
  if (found && found.said.results.length + found.said.faults.pairs === 0) found = read(() => true);
  if (!found || isEmpty(found.said)) return IGNORED;
  const judged = judge(book, found.said, expected, options);
  return decided(asked, found, judged);
}

function decided(
  asked: Prompt,
  { segments, said, cut }: { segments: Segment[]; said: Statement; cut: boolean },
  { reply, doubtful, graded }: Judged,
): Understood {
  const sure = segments.some(({ by }) => by === 'sounds') ? SOUNDS_LIKE : 1;
  const unknown = unknownShare(segments, said);
  const harm = reply.redFlag !== null || reply.result === 'pain';
  const answers =
    asked.kind === 'pain-number'
      ? reply.pain !== null || said.painNumbers.length > 0
      : asked.kind === 'pain-kind'
        ? reply.painKind !== null || reply.pain !== null
        : false;
  const fits = harm || answers || (asked.kind === 'result' && reply.result !== null);
  const guessed = segments.some((each) => each.by === 'sounds' && means(each, 'result'));
  const wordy = segments.some((each) => means(each, 'fillers'));
  const asks = doubtful || cut || (guessed && wordy) || !fits || unknown > UNKNOWN.act;
  if (
    unknown > UNKNOWN.ask ||
    !isWorthAsking(asked, said, graded || answers || said.kinds.length > 0)
  )
    return IGNORED;
  const failed = said.results.includes('failed');
  return { reply, verdict: asks ? 'confirm' : 'accept', sure, failed };
}

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

/** No meaning, or a word of counting that counts nothing ("a short week"). */
function isUnknown(segment: Segment, before?: Segment, next?: Segment): boolean {
  const counts = ({ is }: Meaning) => is === 'counted' || is === 'counting';
  const counting = segment.meanings.length > 0 && segment.meanings.every(counts);
  const counted = before?.number != null || next?.number != null;
  return segment.by === 'unknown' || (counting && !counted);
}

/** A word without meaning stands in the same clause as a result ("he passed his exam"). */
function sharesClause(segments: Segment[], dangling: boolean): boolean {
  let clause: Segment[] = [];
  const clauses = [clause];
  for (const segment of segments) {
    if (segment.after) clauses.push((clause = []));
    clause.push(segment);
  }
  return clauses.some(
    (each) =>
      each.some((segment) => means(segment, 'result')) &&
      each.some(
        (segment, at) =>
          isUnknown(segment, each[at - 1], each[at + 1]) || (dangling && means(segment, 'part')),
      ),
  );
}

/** How much of what was said is not understood, weighed against what is, 0 to 1. */
function unknownShare(segments: Segment[], said: Statement): number {
  const unknown = segments.filter((segment, at) =>
    isUnknown(segment, segments[at - 1], segments[at + 1]),
  ).length;
  const dangling = said.faults.pairs === 0 && !said.pain ? said.faults.loose.length : 0;
  const known =
    said.results.length +
    said.sides.length +
    said.angles.filter((angle) => angle >= ANGLE_DEGREES.least).length +
    said.painNumbers.length +
    2 * said.faults.pairs +
    2 * said.redFlags.length +
    (said.pain || said.noPain ? 2 : 0) +
    said.kinds.length;
  const missed = unknown + dangling;
  if (missed === 0) return 0;
  const alone = known < 2 && sharesClause(segments, dangling > 0);
  return alone ? 1 : missed / (missed + known);
}
