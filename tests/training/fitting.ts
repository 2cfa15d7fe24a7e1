/**
 * Fits the curve of src/ear/confidence.ts on clips of measuring.ts, or reports on others:
 *   npx tsx tests/training/fitting.ts fit FILE.jsonl
 *   npx tsx tests/training/fitting.ts report FILE.jsonl
 */
import { readFileSync } from 'node:fs';
import {
  ACTS_FROM,
  ASKS_FROM,
  BELIEF,
  confidenceOf,
  UNEXPLAINED,
  weighedBy,
  type Belief,
  type Evidence,
} from '../../src/ear/confidence';

/** One clip as heads judged it. */
export interface Clip {
  kind: 'reply' | 'talk' | 'word' | 'words' | 'people' | 'noise';
  prompt: string;
  text: string;
  kept: boolean;
  speaker: string;
  noise: string;
  decibels: number;
  /** By head; null where nothing could be heard. */
  heard: (Judged | null)[];
}

export interface Judged {
  text: string;
  /** Whether it means what was said. */
  right: boolean;
  /** A lead without end is written as 99. */
  evidence: Evidence;
}

/** Keeps the other weights small. */
const HELD_BACK = 0.002;
/** A reply heard wrong weighs as much as two other clips. */
const WRONG_COUNTS = 2;
/** Share of what is no reply that may reach ACTS_FROM. */
const OTHERS_ACTED_ON = 0.01;
const STEPS = 20_000;

/**
 * Logistic regression of "a reply, and heard right" against other talk, other words and replies
 * heard wrong; people's words most of all; then the offset is moved until only OTHERS_ACTED_ON of it is acted on.
 */
export function fit(clips: Clip[]): Belief {
  const used = clips.flatMap(({ kind, heard: [judged] }) =>
    judged && kind !== 'noise' ? [{ kind, ...judged }] : [],
  );
  const belief: Belief = {
    offset: 0,
    fitPerPhone: 0,
    surePerPhone: 0,
    phones: 0,
    unexplained: UNEXPLAINED,
    lead: 0,
  };
  const weights = Object.keys(belief) as (keyof Belief)[];
  for (let step = 0; step < STEPS; step += 1) {
    const slope = { ...belief };
    for (const weight of weights) slope[weight] = 0;
    for (const { kind, right, evidence } of used) {
      const counts = kind === 'reply' && !right ? WRONG_COUNTS : 1;
      const error = counts * ((right ? 1 : 0) - confidenceOf(evidence, belief));
      slope.offset += error;
      for (const { weight, value } of weighedBy(evidence)) slope[weight] += error * value;
    }
    for (const weight of weights) {
      const held = weight === 'offset' ? 0 : HELD_BACK * belief[weight];
      if (weight !== 'unexplained') belief[weight] += 0.2 * (slope[weight] / used.length - held);
    }
  }
  const others = used.filter(({ kind }) => ['talk', 'words', 'people'].includes(kind));
  const acted = () =>
    others.filter(({ evidence }) => confidenceOf(evidence, belief) >= ACTS_FROM).length;
  while (acted() > OTHERS_ACTED_ON * others.length) belief.offset -= 0.05;
  return belief;
}

/** A share with Wilson's 95 % interval. */
function share(part: number, whole: number): string {
  if (whole === 0) return '-';
  const z = 1.96;
  const p = part / whole;
  const middle = p + (z * z) / (2 * whole);
  const half = z * Math.sqrt((p * (1 - p)) / whole + (z * z) / (4 * whole * whole));
  const percent = (x: number) => ((100 * x) / (1 + (z * z) / whole)).toFixed(1);
  const [low, high] = [percent(middle - half), percent(middle + half)];
  return `${(100 * p).toFixed(1)} % (${low} to ${high})`;
}

/** A line for each distance to noise and each kind of what is no reply, for one head. */
export function report(clips: Clip[], head: number, belief = BELIEF): string {
  const judged = clips.map(({ kind, decibels, heard }) => {
    const one = heard[head];
    const confidence = one ? confidenceOf(one.evidence, belief) : 0;
    const verdict = confidence >= ACTS_FROM ? 'act' : confidence >= ASKS_FROM ? 'ask' : 'ignore';
    return { kind, decibels, right: one?.right ?? false, verdict };
  });
  const replies = [30, 10, 5].map((decibels) => {
    const some = judged.filter((clip) => clip.kind === 'reply' && clip.decibels === decibels);
    const of = (test: (clip: (typeof some)[number]) => boolean) =>
      share(some.filter(test).length, some.length);
    return [
      `${decibels} dB, ${some.length} replies: right ${of(({ right, verdict }) => right && verdict !== 'ignore')}`,
      `acted right ${of(({ right, verdict }) => right && verdict === 'act')}`,
      `acted wrong ${of(({ right, verdict }) => !right && verdict === 'act')}`,
      `asked ${of(({ verdict }) => verdict === 'ask')}`,
    ].join(', ');
  });
  const others = ['talk', 'words', 'word', 'people', 'noise'].map((kind) => {
    const some = judged.filter((clip) => clip.kind === kind);
    const count = (wanted: string) => some.filter(({ verdict }) => verdict === wanted).length;
    return `${kind}, ${some.length}: acted on ${count('act')}, asked about ${count('ask')}`;
  });
  return [...replies, ...others].join('\n');
}

const [verb, file] = process.argv.slice(2);
if (file !== undefined) {
  const clips = readFileSync(file, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Clip);
  if (verb === 'fit') console.log(fit(clips));
  for (const head of (clips[0]?.heard ?? []).keys())
    console.log(`head ${head}\n${report(clips, head)}`);
}
