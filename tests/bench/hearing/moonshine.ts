import llamaTokenizer from 'llama-tokenizer-js';
import { grammarOf } from '../../../src/domain/hearing/building';
import type { CueBook, PromptId } from '../../../src/domain/script';
import { wordGraphOf, type WordGraph } from '../../../src/ear/wordGraph';
import { utterancesIn, type BenchEar, type Told } from './hearingEar';
import { BEGIN, END, moonshineModel, type Path, type Sound } from './moonshineModel';

const BEAM = 6;
/** A path so far below a finished reply is given up, in natural logarithms. */
const WORTH_FOLLOWING = 4;
/** How far the language's own liking for a reply is taken back. */
const PRIOR_TAKEN_BACK = 0.5;
/** Below this, a token, the free text was so much likelier that it is no reply; set on tuned talk. */
const LEAST_LEAD = -1.2;
/** The model's own limit: six tokens and a half a second. */
const TOKENS_A_SECOND = 6.5;
/** The end may come with a full stop or another mark. */
const ENDINGS = [
  END,
  ...['.', '!', '?'].map((mark) => llamaTokenizer.encode(mark, false, false)[0] ?? END),
];

const BEGUN: Path = { tokens: [BEGIN], score: 0, memory: [] };
type Model = Awaited<ReturnType<typeof moonshineModel>>;

/** What the model wrote, and its natural logarithm. */
interface Written {
  text: string;
  tokens: number[];
  score: number;
}

/** The encoder's own decoder: bound to the prompt's replies, and free. */
export async function moonshineFor(book: CueBook): Promise<BenchEar[]> {
  const model = await moonshineModel();
  const silence = await model.encode(new Float32Array(16000));
  const graphs = new Map<PromptId, TokenGraph>();
  const graphAt = (prompt: PromptId) => {
    const graph = graphs.get(prompt) ?? tokenGraphOf(wordGraphOf(grammarOf(book, prompt)));
    graphs.set(prompt, graph);
    return graph;
  };
  const priors = new Map<string, number>();
  /** How likely the words are where nothing was said. */
  const priorOf = async (tokens: number[]): Promise<number> => {
    const key = tokens.join(' ');
    const known = priors.get(key) ?? (await likelihood(model, silence, tokens));
    priors.set(key, known);
    return known;
  };

  const freely = new WeakMap<Sound, { written: Promise<Written>; milliseconds: number }>();
  /** Written once a sound; whoever asks again is charged the time that it took. */
  let chargedMilliseconds = 0;
  const freeOf = async (heard: Sound, most: number): Promise<Written> => {
    const known = freely.get(heard);
    chargedMilliseconds += known?.milliseconds ?? 0;
    if (known) return known.written;
    const began = performance.now();
    const entry = { written: free(model, heard, most), milliseconds: 0 };
    freely.set(heard, entry);
    await entry.written;
    entry.milliseconds = performance.now() - began;
    return entry.written;
  };

  const hear = async (
    sound: Float32Array,
    listen: (sound: Sound, most: number) => Promise<string | null>,
  ) => {
    const told: Told[] = [];
    const lookMilliseconds: number[] = [];
    for (const utterance of await utterancesIn(sound)) {
      const began = performance.now();
      chargedMilliseconds = 0;
      const most = Math.ceil((utterance.length / 16000) * TOKENS_A_SECOND);
      const text = await listen(await model.encode(utterance), most);
      lookMilliseconds.push(performance.now() - began + chargedMilliseconds);
      if (text !== null && text !== '')
        told.push({ text, confidence: 1, atSeconds: null, heardSeconds: null });
    }
    return { told, lookMilliseconds };
  };

  return [
    {
      name: 'constrained decoder',
      hear: (sound, prompt) =>
        hear(sound, async (heard, most) => {
          const replies = await bound(model, heard, graphAt(prompt), most);
          let best: { reply: Written; liked: number } | null = null;
          for (const reply of replies) {
            const liked = reply.score - PRIOR_TAKEN_BACK * (await priorOf(reply.tokens));
            if (best === null || liked > best.liked) best = { reply, liked };
          }
          if (best === null) return null;
          const open = await freeOf(heard, most);
          const lead = (best.reply.score - open.score) / best.reply.tokens.length;
          return lead >= LEAST_LEAD ? best.reply.text : null;
        }),
    },
    {
      name: 'free decoder',
      hear: (sound) =>
        hear(sound, async (heard, most) => {
          const { text } = await freeOf(heard, most);
          return text.toLowerCase().replace(/[.!?]+\s*$/, '');
        }),
    },
  ];
}

/** The likeliest next token each time. */
async function free(model: Model, sound: Sound, most: number): Promise<Written> {
  let path = BEGUN;
  let score = 0;
  for (let step = 0; step < most; step += 1) {
    const [next] = await model.follow(sound, [path]);
    if (next === undefined) break;
    const token = next.row.best();
    score =
      path.score + (ENDINGS.includes(token) ? next.row.logOfAny(ENDINGS) : next.row.log(token));
    if (token === END) break;
    path = { tokens: [...path.tokens, token], score, memory: next.memory };
  }
  const tokens = path.tokens.slice(1);
  return { text: llamaTokenizer.decode(tokens, false), tokens, score };
}

/** Some replies of the graph that fit best, by beam search. */
async function bound(
  model: Model,
  sound: Sound,
  graph: TokenGraph,
  most: number,
): Promise<Written[]> {
  let beam: (Path & { node: number; text: string })[] = [{ ...BEGUN, node: 0, text: '' }];
  const done: Written[] = [];
  for (let step = 0; step <= most && beam.length > 0; step += 1) {
    const steps = await model.follow(sound, beam);
    const grown = beam.flatMap((path, at) => {
      const { row, memory } = steps[at] ?? {};
      const node = graph[path.node];
      if (row === undefined || memory === undefined || node === undefined) return [];
      if (node.final) {
        const score = path.score + row.logOfAny(ENDINGS);
        done.push({ text: path.text.trim(), tokens: path.tokens.slice(1), score });
      }
      return [...node.next].map(([token, { to, word }]) => ({
        tokens: [...path.tokens, token],
        score: path.score + row.log(token),
        memory,
        node: to,
        text: word === null ? path.text : `${path.text} ${word}`,
      }));
    });
    const sure = done.reduce((most, { score }) => Math.max(most, score), -Infinity);
    beam = grown
      .filter(({ score }) => score > sure - WORTH_FOLLOWING)
      .sort((a, b) => b.score - a.score)
      .slice(0, BEAM);
  }
  return done.sort((a, b) => b.score - a.score).slice(0, BEAM);
}

async function likelihood(model: Model, sound: Sound, tokens: number[]): Promise<number> {
  let path = BEGUN;
  for (const token of tokens) {
    const [next] = await model.follow(sound, [path]);
    if (next === undefined) break;
    const score = path.score + next.row.log(token);
    path = { tokens: [...path.tokens, token], score, memory: next.memory };
  }
  const [last] = await model.follow(sound, [path]);
  return path.score + (last?.row.logOfAny(ENDINGS) ?? 0);
}

/** By node: the tokens that may follow; `word` where one ends a word. */
type TokenGraph = { final: boolean; next: Map<number, { to: number; word: string | null }> }[];

/** Each word as the tokens that the model would write it with; the first one also with a capital. */
function tokenGraphOf(words: WordGraph): TokenGraph {
  const graph: TokenGraph = words.arcs.map((_, state) => ({
    final: words.final[state] ?? false,
    next: new Map(),
  }));
  const spell = (from: number, written: string, word: string, to: number) => {
    const tokens = llamaTokenizer.encode(written, false, true);
    let node = from;
    tokens.forEach((token, at) => {
      const known = graph[node]?.next.get(token);
      if (known !== undefined && at < tokens.length - 1 && known.word === null) node = known.to;
      else if (known === undefined) {
        const last = at === tokens.length - 1;
        const next = last ? to : graph.push({ final: false, next: new Map() }) - 1;
        graph[node]?.next.set(token, { to: next, word: last ? word : null });
        node = next;
      }
    });
  };
  words.arcs.forEach((arcs, state) => {
    for (const { word, to } of arcs) {
      spell(state, word, word, to);
      if (state === 0) spell(state, `${word[0]?.toUpperCase()}${word.slice(1)}`, word, to);
    }
  });
  return graph;
}
