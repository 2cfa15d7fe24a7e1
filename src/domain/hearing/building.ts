import type { FaultId } from '../faults';
import type { CueBook, PromptId } from '../script';
import type { Grammar } from './grammar';
import { Graph } from './graph';
import { ANGLE_DEGREES } from './judging';
import { entries } from './entries';
import { namesOf } from './naming';
import { numberSpoken } from './numbers';
import { phrasesOf } from './patterns';
import { commandsAt, promptOf, type Prompt } from './prompts';
import type { Command } from './reply';
import { RESULT_WORDS, type NumberWords } from './vocabulary';

/** A call word, after which alone most replies count; none where left out. */
export interface GrammarOptions {
  callWord?: string | null | undefined;
}

/**
 * Everything that can be heard at a prompt, made of the `say` words of the vocabulary. With a call
 * word it stands before every reply, and what does without it (see `understand`) can be heard both
 * ways. Throws where the book has no such prompt.
 */
export function grammarOf(book: CueBook, prompt: PromptId, options: GrammarOptions = {}): Grammar {
  const { states, finals, arcs } = graphOf(book, prompt, options);
  return {
    prompt,
    states,
    finals: [...finals],
    arcs: arcs.map(({ from, to, words, meant }) => ({
      from,
      to,
      words,
      ...(Object.keys(meant).length > 0 && { means: JSON.stringify(meant) }),
    })),
  };
}

/** Where replies begin: `called` after the call word, `open` also without it. */
interface Starts {
  called: number[];
  open: number[];
}

/** The same graph with the meaning of each arc, to prove that it is understood so. */
export function graphOf(book: CueBook, id: PromptId, { callWord }: GrammarOptions = {}): Graph {
  const prompt = promptOf(book, id);
  if (!prompt) throw new Error(`There is no prompt "${id}" in the cue scripts.`);
  const graph = new Graph();
  const end = graph.state(true);
  const starts = startsOf(graph, callWord ?? null);
  const { called, open } = starts;
  addCommands(graph, book, prompt, starts, end);
  for (const [redFlag, { say }] of entries(book.vocabulary.redFlags))
    graph.patterns(open, end, say, { says: { redFlag } });
  if (prompt.kind === 'pain-number') addPainNumbers(graph, book, open, end);
  const instead = prompt.kind === 'confirm' ? addOfOffer(graph, book, open, end) : [];
  const graded =
    prompt.kind === 'pain-number'
      ? []
      : addResults(graph, book, prompt, { from: called, instead }, end);
  addPain(graph, book, [...open, ...graded], end);
  // "Knees came forward" and, a breath later, "stop".
  graph.patterns(graded, end, book.vocabulary.stopWords, { says: { command: 'stop' } });
  if (prompt.kind === 'pain-kind' || prompt.kind === 'pain-number')
    for (const [painKind, { say }] of entries(book.vocabulary.pain.kinds))
      graph.patterns(open, end, say, { says: { painKind } });
  return graph;
}

function startsOf(graph: Graph, callWord: string | null): Starts {
  if (callWord === null) return { called: [0], open: [0] };
  const called = graph.state();
  graph.word([0], called, callWord);
  return { called: [called], open: [0, called] };
}

/** Commands that need no call word where Sayso has just asked. */
const ANSWERS: Partial<Record<Prompt['kind'], readonly Command[]>> = {
  confirm: ['yes', 'no', 'resume'],
  'pain-kind': ['yes', 'no'],
};

function addCommands(
  graph: Graph,
  book: CueBook,
  prompt: Prompt,
  { called, open }: Starts,
  end: number,
): void {
  const { commands, goTo } = book.vocabulary;
  const isFree = (command: Command) =>
    command === 'stop' || command === 'pause' || ANSWERS[prompt.kind]?.includes(command) === true;
  for (const command of commandsAt(prompt))
    if (command !== 'go-to')
      graph.patterns(isFree(command) ? open : called, end, commands[command].say, {
        says: { command },
      });
  const opened = graph.state();
  const article = graph.state();
  graph.patterns(called, opened, goTo.openers.say);
  for (const word of goTo.articles.slice(0, 1)) graph.word([opened], article, word);
  for (const { id, name } of [...Object.values(book.checks), ...Object.values(book.drills)])
    for (const words of namesOf(book, id, name))
      graph.word([opened, article], end, words, { says: { command: 'go-to', target: id } });
}

/**
 * Of an offer: which of two, a fault by the words it was read back with, and what is right
 * instead: a side, a number, both, with a "no" before it or alone. The states after a "no" that a
 * whole result may follow.
 */
function addOfOffer(graph: Graph, book: CueBook, open: number[], end: number): number[] {
  const { either, commands, sides, numbers } = book.vocabulary;
  for (const { say } of Object.values(either)) graph.patterns(open, end, say);
  const [refused, instead] = [graph.state(), graph.state()];
  graph.patterns(open, refused, commands.no.say, { says: { command: 'no' } });
  graph.patterns(open, instead, commands.no.say);
  for (const { id, readback } of Object.values(book.faults))
    graph.word([...open, instead], end, readback, { says: { faults: [id] } });
  const side = graph.state(true);
  const agrees = new Set([...commands.yes.say, ...commands.yes.also].flatMap(phrasesOf));
  for (const [which, { say }] of entries(sides))
    for (const phrase of say.flatMap(phrasesOf))
      // Alone, "right" is a yes.
      graph.word(agrees.has(phrase) ? [refused] : [refused, ...open], side, phrase, {
        says: { side: which },
      });
  for (const state of addAngle(graph, numbers, [refused, side, ...open])) graph.finals.add(state);
  return [instead];
}

/** The other side's finding again, alone or with a side. */
function addSame(
  graph: Graph,
  { vocabulary: { same, sides } }: CueBook,
  from: number[],
  end: number,
): void {
  const says = { same: true };
  graph.patterns(from, end, same.say, { says });
  const first = graph.state();
  const joined = graph.state();
  graph.patterns(from, first, same.say);
  graph.patterns([first], joined, same.beforeSide.say);
  for (const [side, { say }] of entries(sides)) {
    graph.patterns([first, joined], end, say, { says: { same: true, side } });
    const named = graph.state();
    const linked = graph.state();
    graph.patterns(from, named, say);
    graph.patterns([named], linked, same.afterSide.say);
    graph.patterns([named, linked], end, same.say, { says: { same: true, side } });
  }
}

/** Side, angle, then a result or up to two faults. States after a result. */
function addResults(
  graph: Graph,
  book: CueBook,
  prompt: Prompt,
  { from, instead }: { from: number[]; instead: number[] },
  end: number,
): number[] {
  const { sides, results } = book.vocabulary;
  // Whatever the question was, an early result and what is right instead may be of any area.
  const early = prompt.kind === 'idle' || prompt.kind === 'confirm';
  const starts = [...from, ...instead];
  const sided = prompt.kind === 'result' && prompt.sided;
  const overhead = prompt.kind === 'result' && prompt.area === 'overhead';
  if (sided || early) {
    const side = graph.state();
    for (const [which, { say }] of entries(sides))
      graph.patterns(starts, side, say, { says: { side: which } });
    starts.push(side);
    if (prompt.kind !== 'confirm') addSame(graph, book, from, end);
  }
  if (overhead || early) starts.push(...addAngle(graph, book.vocabulary.numbers, starts));
  const held = graph.state(true);
  const failed = graph.state(true);
  for (const word of RESULT_WORDS) {
    if (word === 'failed') graph.patterns(starts, held, results[word].say, {});
    else
      graph.patterns(
        starts,
        word === 'short' || word === 'lost' ? failed : held,
        results[word].say,
        {
          says: { result: word },
        },
      );
  }
  const faults =
    prompt.kind === 'result' ? [...prompt.faults] : early ? Object.keys(book.faults) : [];
  const first = graph.state(true);
  const second = faults.length > 0 ? graph.state(true) : null;
  if (second !== null) {
    const article = graph.state();
    const joined = graph.state();
    // "No rib flare" denies one.
    const plain = starts.filter((state) => !instead.includes(state));
    for (const word of book.vocabulary.goTo.articles.slice(0, 1)) graph.word(plain, article, word);
    addFaults(graph, book, faults, [...plain, article], first);
    for (const word of book.vocabulary.numbers.and.slice(0, 1)) graph.word([first], joined, word);
    addFaults(graph, book, faults, [first, joined, failed], second);
  }
  return [held, failed, first, ...(second === null ? [] : [second])];
}

function addFaults(graph: Graph, book: CueBook, ids: FaultId[], froms: number[], to: number): void {
  for (const { id, say } of book.vocabulary.faults)
    if (ids.includes(id)) graph.patterns(froms, to, say, { says: { faults: [id] } });
}

function addPain(graph: Graph, book: CueBook, froms: number[], end: number): void {
  const { pain, numbers } = book.vocabulary;
  const hurts = graph.state(true);
  const says = { result: 'pain' } as const;
  graph.patterns(froms, end, pain.none.say, { says: { pain: 0 } });
  graph.patterns(froms, hurts, pain.words.say, { says });
  graph.patterns(froms, hurts, pain.sharpWords.say, { says: { ...says, painKind: 'sharp' } });
  for (const [painKind, { before }] of entries(pain.kinds))
    graph.patterns(froms, hurts, before, { says: { ...says, painKind } });
  addTenNumbers(graph, numbers, [hurts], end);
}

/** A bare number, or one out of ten. */
function addPainNumbers(graph: Graph, book: CueBook, from: number[], end: number): void {
  const { numbers, pain } = book.vocabulary;
  const number = graph.state(true);
  addTenNumbers(graph, numbers, from, number);
  graph.patterns([number], end, numbers.ofTen.slice(0, 1));
  graph.patterns(from, end, pain.nothing.slice(0, 1), { says: { pain: 0 } });
}

function addTenNumbers(graph: Graph, numbers: NumberWords, froms: number[], to: number): void {
  for (const [word, value] of entries(numbers.words))
    if (value <= 10) graph.word(froms, to, word, { pain: value });
}

/** Angles of 20 to 200 as they are spoken; the states after one. */
function addAngle(graph: Graph, numbers: NumberWords, froms: number[]): number[] {
  const isWhole = Object.keys(numbers.hundreds).length > 0;
  const done = isWhole ? wholeAngles(graph, numbers, froms) : splitAngles(graph, numbers, froms);
  const degrees = graph.state();
  graph.patterns([done], degrees, numbers.degrees.slice(0, 1));
  return [done, degrees];
}

/** Each angle in all its words: "ciento cuarenta y cinco". */
function wholeAngles(graph: Graph, numbers: NumberWords, froms: number[]): number {
  const done = graph.state();
  for (let angle = ANGLE_DEGREES.least; angle <= ANGLE_DEGREES.most; angle++)
    graph.word(froms, done, numberSpoken(numbers, angle), { angle });
  return done;
}

/** Hundreds, tens and units one after the other: "one forty five", "a hundred and forty five". */
function splitAngles(graph: Graph, numbers: NumberWords, froms: number[]): number {
  const words = new Map(entries(numbers.words).map(([word, value]) => [value, word]));
  const add = (starts: number[], to: number, value: number, angle = value) => {
    const word = words.get(value);
    if (word) graph.word(starts, to, word, { angle });
  };
  const done = graph.state();
  const ten = graph.state();
  const hundred = graph.state();
  const named = graph.state();
  const digit = graph.state();
  const zero = graph.state();
  add(froms, hundred, 1, 100);
  for (let value = 20; value < 100; value += 10) {
    add([...froms, hundred, named], done, value);
    add([...froms, hundred, named], ten, value);
  }
  for (let value = 1; value < 10; value++) {
    add([ten, zero, digit, named], done, value);
    add([hundred], digit, value, value * 10);
  }
  for (let value = 10; value < 20; value++) add([hundred, named], done, value);
  for (const word of numbers.zeroInside.slice(0, 1)) {
    graph.word([hundred], zero, word);
    graph.word([digit], done, word);
  }
  const and = graph.state();
  for (const word of numbers.hundred.slice(0, 1)) {
    graph.word([hundred], named, word);
    graph.word([hundred], done, word);
    const two = graph.state();
    add(froms, two, 2, 200);
    graph.word([two], done, word);
  }
  for (const word of numbers.and.slice(0, 1)) graph.word([named], and, word);
  for (let value = 20; value < 100; value += 10) {
    add([and], done, value);
    add([and], ten, value);
  }
  for (let value = 1; value < 20; value++) add([and], done, value);
  return done;
}
