import { grammarOf } from '../../../src/domain/hearing/building';
import type { Grammar } from '../../../src/domain/hearing/grammar';
import { promptsOf } from '../../../src/domain/hearing/prompts';
import type { Reading, Reply } from '../../../src/domain/hearing/reply';
import { understand } from '../../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import type { CueBook, PromptId } from '../../../src/domain/script';
import { URGENT } from '../../../src/ear/urgent';

type Random = () => number;

/** A reply said at a prompt and what it has to be understood as. */
export interface Wanted {
  prompt: PromptId;
  text: string;
  reply: Reply;
}

export const understood = (
  book: CueBook,
  prompt: PromptId,
  text: string,
  confidence = 1,
): Reading => understand(book, prompt, text, { ...DEFAULT_SETTINGS, confidence });

/** How often a kind of prompt is drawn: a session asks about checks and sets most. */
const PROMPT_SHARES: [RegExp, number][] = [
  [/^check\//, 0.4],
  [/^set\//, 0.3],
  [/^pain\/how-much/, 0.1],
  [/^pain\/kind/, 0.05],
  [/^confirm/, 0.08],
  [/^idle/, 0.07],
];
/** How often a kind of reply is drawn where the prompt has it; practice, no source. */
const KIND_SHARES: Record<string, number> = {
  result: 3,
  fault: 3,
  angle: 2,
  pain: 2,
  command: 3,
  'go to': 0.5,
  stop: 1,
  'red flag': 1,
  answer: 2,
  same: 0.5,
};

export function kindOf({
  redFlag,
  result,
  pain,
  painKind,
  command,
  same,
  ...reply
}: Reply): string {
  if (redFlag) return 'red flag';
  if (result === 'pain' || pain !== null || painKind) return 'pain';
  if (command === 'stop' || command === 'pause') return 'stop';
  if (command === 'yes' || command === 'no') return 'answer';
  if (command) return command === 'go-to' ? 'go to' : 'command';
  if (same) return 'same';
  if (reply.angleDegrees !== null) return 'angle';
  return reply.faults.length > 0 ? 'fault' : 'result';
}

/** Says one thing only: no side, angle or second fault beside it. */
export const isSingle = ({ command, side, angleDegrees, result, faults, pain }: Reply) =>
  [command, side, angleDegrees, ...(faults.length > 0 ? faults : [result ?? pain])].filter(
    (part) => part !== null,
  ).length <= 1;

/** One utterance of the grammar from a state on; each next state is as likely as another. */
function walk(grammar: Grammar, from: number, random: Random): string[] {
  const said: string[] = [];
  for (let state = from; ;) {
    const arcs = grammar.arcs.filter((arc) => arc.from === state);
    if (arcs.length === 0 || (grammar.finals.includes(state) && random() < 0.6)) return said;
    const states = [...new Set(arcs.map(({ to }) => to))];
    const to = states[Math.floor(random() * states.length)];
    const there = arcs.filter((arc) => arc.to === to);
    const arc = there[Math.floor(random() * there.length)];
    if (arc === undefined) return said;
    said.push(arc.words);
    state = arc.to;
  }
}

const wantedOf = (book: CueBook, prompt: PromptId, text: string): Wanted | null => {
  const { verdict, reply } = understood(book, prompt, text);
  return verdict === 'ignore' || reply === null ? null : { prompt, text, reply };
};

/** Out of so many utterances of each prompt replies are drawn. */
const UTTERANCES = 700;

/** So many replies of all prompts, the kinds weighted as above. */
export function sampleReplies(
  book: CueBook,
  count: number,
  random: Random,
  utterances = UTTERANCES,
): Wanted[] {
  const pools = new Map<PromptId, Map<string, Wanted[]>>();
  const poolAt = (prompt: PromptId) => {
    const known = pools.get(prompt);
    if (known) return known;
    const grammar = grammarOf(book, prompt);
    const pool = new Map<string, Wanted[]>();
    const texts = Array.from({ length: utterances }, () => walk(grammar, 0, random).join(' '));
    for (const text of new Set(texts)) {
      const wanted = wantedOf(book, prompt, text);
      if (wanted === null) continue;
      const kind = kindOf(wanted.reply);
      pool.set(kind, [...(pool.get(kind) ?? []), wanted]);
    }
    pools.set(prompt, pool);
    return pool;
  };
  const prompts = promptsOf(book).map(({ prompt }) => prompt);
  return Array.from({ length: count }, () => {
    const [pattern] = drawn(PROMPT_SHARES, random);
    const there = prompts.filter((prompt) => pattern.test(prompt));
    const pool = poolAt(there[Math.floor(random() * there.length)] ?? 'idle');
    const kinds = [...pool].map(([kind, all]) => [all, KIND_SHARES[kind] ?? 1] as const);
    const [all] = drawn(kinds, random);
    return all[Math.floor(random() * all.length)] as Wanted;
  });
}

function drawn<T>(shares: readonly (readonly [T, number])[], random: Random): readonly [T, number] {
  let left = random() * shares.reduce((sum, [, share]) => sum + share, 0);
  const found = shares.find(([, share]) => (left -= share) <= 0) ?? shares.at(-1);
  if (found === undefined) throw new Error('There is nothing to draw from.');
  return found;
}

/** Every phrase of every grammar in some reply; prompts that expect the same share theirs. */
export function everyReply(book: CueBook, random: Random): Wanted[] {
  const found = new Map<string, Wanted>();
  const seen = new Set<string>();
  for (const { prompt } of promptsOf(book)) {
    const grammar = grammarOf(book, prompt);
    const same = JSON.stringify(grammar.arcs);
    if (seen.has(same)) continue;
    seen.add(same);
    const way = waysTo(grammar);
    for (const { from, to, words } of grammar.arcs) {
      const text = [...(way[from] ?? []), words, ...walk(grammar, to, random)].join(' ');
      const wanted = wantedOf(book, prompt, text);
      if (wanted !== null) found.set(`${prompt}|${text}`, wanted);
    }
  }
  return [...found.values()];
}

/** Some words that lead to each state. */
function waysTo(grammar: Grammar): string[][] {
  const ways: string[][] = [[]];
  for (let grown = true; grown;) {
    grown = false;
    for (const { from, to, words } of grammar.arcs) {
      const way = ways[from];
      if (way === undefined || ways[to] !== undefined) continue;
      ways[to] = [...way, words];
      grown = true;
    }
  }
  return ways;
}

/** Stop words, pain and red flags by themselves, the three in turn, at a check and at idle. */
export function urgentReplies(book: CueBook, count: number, random: Random): Wanted[] {
  const check = promptsOf(book).find(({ prompt }) => prompt.startsWith('check/'))?.prompt ?? 'idle';
  const byKind: Record<string, Map<string, Wanted>> = {
    stop: new Map(),
    pain: new Map(),
    'red flag': new Map(),
  };
  for (const prompt of [check, 'idle']) {
    const grammar = grammarOf(book, prompt);
    const walked = Array.from({ length: 2500 }, () => walk(grammar, 0, random).join(' '));
    for (const text of [...URGENT, ...walked]) {
      const wanted = wantedOf(book, prompt, text);
      if (wanted?.reply.command === 'pause' || wanted === null || !isSingle(wanted.reply)) continue;
      if (wanted.reply.pain === 0) continue;
      byKind[kindOf(wanted.reply)]?.set(`${prompt}|${text}`, wanted);
    }
  }
  const kinds = Object.values(byKind).map((texts) => [...texts.values()]);
  return Array.from({ length: count }, (_, index) => {
    const all = kinds[index % kinds.length] ?? [];
    return all[Math.floor(random() * all.length)] as Wanted;
  });
}
