import type { FaultId } from '../faults';
import type { CueBook, PromptId } from '../script';
import type { Grammar } from './grammar';
import { Graph } from './graph';
import { entries } from './meanings';
import { namesOf } from './naming';
import { commandsAt, promptOf, type Prompt } from './prompts';
import { RESULT_WORDS, type NumberWords } from './vocabulary';

/**
 * Everything that can be heard at a prompt, made of the `say` words of the vocabulary. Throws
 * where the book has no such prompt.
 */
export function grammarOf(book: CueBook, prompt: PromptId): Grammar {
  const { states, finals, arcs } = graphOf(book, prompt);
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

/** The same graph with the meaning of each arc, to prove that it is understood so. */
export function graphOf(book: CueBook, id: PromptId): Graph {
  const prompt = promptOf(book, id);
  if (!prompt) throw new Error(`There is no prompt "${id}" in the cue scripts.`);
  const graph = new Graph();
  const end = graph.state(true);
  addCommands(graph, book, prompt, end);
  for (const [redFlag, { say }] of entries(book.vocabulary.redFlags))
    graph.patterns([0], end, say, { says: { redFlag } });
  if (prompt.kind === 'pain-number') addPainNumbers(graph, book, end);
  const graded = prompt.kind === 'pain-number' ? [] : addResults(graph, book, prompt, end);
  addPain(graph, book, [0, ...graded], end);
  if (prompt.kind === 'pain-kind' || prompt.kind === 'pain-number')
    for (const [painKind, { say }] of entries(book.vocabulary.pain.kinds))
      graph.patterns([0], end, say, { says: { painKind } });
  return graph;
}

function addCommands(graph: Graph, book: CueBook, prompt: Prompt, end: number): void {
  const { commands, goTo } = book.vocabulary;
  for (const command of commandsAt(prompt))
    if (command !== 'go-to') graph.patterns([0], end, commands[command].say, { says: { command } });
  const opened = graph.state();
  const article = graph.state();
  graph.patterns([0], opened, goTo.openers.say);
  for (const word of goTo.articles.slice(0, 1)) graph.word([opened], article, word);
  for (const { id, name } of [...Object.values(book.checks), ...Object.values(book.drills)])
    for (const words of namesOf(book, id, name))
      graph.word([opened, article], end, words, { says: { command: 'go-to', target: id } });
}

/** The other side's finding again, alone or with a side. */
function addSame(graph: Graph, { vocabulary: { same, sides } }: CueBook, end: number): void {
  const says = { same: true };
  graph.patterns([0], end, same.say, { says });
  const first = graph.state();
  const joined = graph.state();
  graph.patterns([0], first, same.say);
  graph.patterns([first], joined, same.beforeSide.say);
  for (const [side, { say }] of entries(sides)) {
    graph.patterns([first, joined], end, say, { says: { same: true, side } });
    const named = graph.state();
    const linked = graph.state();
    graph.patterns([0], named, say);
    graph.patterns([named], linked, same.afterSide.say);
    graph.patterns([named, linked], end, same.say, { says: { same: true, side } });
  }
}

/** Side, angle, then a result or up to two faults. States after a result. */
function addResults(graph: Graph, book: CueBook, prompt: Prompt, end: number): number[] {
  const { sides, results } = book.vocabulary;
  const early = prompt.kind === 'idle';
  const starts = [0];
  const sided = prompt.kind === 'result' && prompt.sided;
  const overhead = prompt.kind === 'result' && prompt.area === 'overhead';
  if (sided || early) {
    const side = graph.state();
    for (const [which, { say }] of entries(sides))
      graph.patterns([0], side, say, { says: { side: which } });
    starts.push(side);
    addSame(graph, book, end);
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
  if (faults.length > 0) {
    const article = graph.state();
    const joined = graph.state();
    const second = graph.state(true);
    for (const word of book.vocabulary.goTo.articles.slice(0, 1)) graph.word(starts, article, word);
    addFaults(graph, book, faults, [...starts, article], first);
    for (const word of book.vocabulary.numbers.and.slice(0, 1)) graph.word([first], joined, word);
    addFaults(graph, book, faults, [first, joined, failed], second);
  }
  return [held, failed, first];
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
function addPainNumbers(graph: Graph, book: CueBook, end: number): void {
  const { numbers, pain } = book.vocabulary;
  const number = graph.state(true);
  addTenNumbers(graph, numbers, [0], number);
  graph.patterns([number], end, numbers.ofTen.slice(0, 1));
  graph.patterns([0], end, pain.nothing.slice(0, 1), { says: { pain: 0 } });
}

function addTenNumbers(graph: Graph, numbers: NumberWords, froms: number[], to: number): void {
  for (const [word, value] of entries(numbers.words))
    if (value <= 10) graph.word(froms, to, word, { pain: value });
}

/** Angles of 20 to 200 as they are spoken; the states after one. */
function addAngle(graph: Graph, numbers: NumberWords, froms: number[]): number[] {
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
  const degrees = graph.state();
  graph.patterns([done], degrees, numbers.degrees.slice(0, 1));
  return [done, degrees];
}
