import type { Grammar } from '../domain/hearing/grammar';
import { PronunciationError, type Lexicon } from './lexicon';
import { outputOf } from './phones';
import { wordGraphOf } from './wordGraph';

/**
 * A grammar as phones: for each state of its word graph a block of nodes, the phones of the words
 * that may follow, shared while they sound the same. A node's parent comes before it in its block.
 */
export interface Network {
  /** By state: first node of its block; the entry after the last is the number of nodes. */
  blockStart: Int32Array;
  final: Uint8Array;
  phone: Uint8Array;
  /** The node before, or -1 at the beginning of a word. */
  parent: Int32Array;
  /** Phones of the word up to here. */
  depth: Uint8Array;
  /** By node: first of the words that end here; the entry after the last is their number. */
  endStart: Int32Array;
  endWord: Int32Array;
  endState: Int32Array;
  words: string[];
}

interface Node {
  phone: number;
  parent: number;
  depth: number;
  children: Map<number, number>;
  ends: { word: number; to: number }[];
}

/**
 * Compiles a grammar; some milliseconds for thousands of arcs.
 * @throws PronunciationError naming the words of the grammar that the lexicon lacks.
 */
export function networkOf(grammar: Grammar, lexicon: Lexicon): Network {
  const graph = wordGraphOf(grammar);
  const words = [...new Set(graph.arcs.flat().map(({ word }) => word))];
  const missing = words.filter((word) => !Object.hasOwn(lexicon, word));
  if (missing.length > 0)
    throw new PronunciationError(
      `The replies at ${grammar.prompt} use words without pronunciation: ${missing.join(', ')}.`,
    );
  const numberOf = new Map(words.map((word, index) => [word, index]));
  const nodes: Node[] = [];
  const blockStart = [0];
  for (const arcs of graph.arcs) {
    const roots = new Map<number, number>();
    for (const { word, to } of arcs)
      for (const phones of lexicon[word] ?? []) {
        const end = insert(nodes, roots, phones);
        const said = numberOf.get(word) ?? 0;
        if (!end.ends.some((other) => other.word === said)) end.ends.push({ word: said, to });
      }
    blockStart.push(nodes.length);
  }
  return packed(nodes, blockStart, graph.final, words);
}

function insert(nodes: Node[], roots: Map<number, number>, phones: string[]): Node {
  let children = roots;
  let parent = -1;
  phones.forEach((name, index) => {
    const phone = outputOf(name) ?? 0;
    let node = children.get(phone);
    if (node === undefined) {
      node = nodes.length;
      children.set(phone, node);
      nodes.push({ phone, parent, depth: index + 1, children: new Map(), ends: [] });
    }
    parent = node;
    children = nodes[node]?.children ?? children;
  });
  const end = nodes[parent];
  if (end === undefined) throw new PronunciationError('A pronunciation must have a phone.');
  return end;
}

function packed(nodes: Node[], blockStart: number[], final: boolean[], words: string[]): Network {
  const endStart = [0];
  for (const { ends } of nodes) endStart.push((endStart.at(-1) ?? 0) + ends.length);
  const ends = nodes.flatMap((node) => node.ends);
  return {
    blockStart: Int32Array.from(blockStart),
    final: Uint8Array.from(final, Number),
    phone: Uint8Array.from(nodes, ({ phone }) => phone),
    parent: Int32Array.from(nodes, ({ parent }) => parent),
    depth: Uint8Array.from(nodes, ({ depth }) => depth),
    endStart: Int32Array.from(endStart),
    endWord: Int32Array.from(ends, ({ word }) => word),
    endState: Int32Array.from(ends, ({ to }) => to),
    words,
  };
}
