/**
 * Fits the curves of src/ear/confidence.ts on clips of measuring.ts, or reports on others:
 *   npx tsx tests/training/fitting.ts fit FILE.jsonl
 *   npx tsx tests/training/fitting.ts report FILE.jsonl
 * By head; where the file has several, the last but one is the small one, and the last both together.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadBook } from '../../src/cues/fromFolder';
import { LINES, understand } from '../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import {
  ACTS_FROM,
  BELIEF,
  BOTH_BELIEF,
  confidenceOf,
  SMALL_BELIEF,
  UNEXPLAINED,
  weighedBy,
  type Belief,
  type Evidence,
} from '../../src/ear/confidence';
import { isLookedAtAgain } from '../../src/ear/recognising';
import { solved } from './solving';

/** One clip as heads judged it at one prompt. */
export interface Clip {
  /** Of the sound; one sound may be heard at two prompts. */
  index: number;
  kind: 'reply' | 'talk' | 'word' | 'words' | 'people' | 'noise';
  prompt: string;
  text: string;
  kept: boolean;
  speaker: string;
  noise: string;
  decibels: number;
  /** Length of what was said. */
  seconds: number;
  /** By head: one look or two; none where nothing could be heard. */
  heard: Look[][];
}

export interface Look {
  text: string;
  /** Whether it means what was said, and whether the best words of another meaning do. */
  right: boolean;
  otherRight: boolean;
  /** A lead without end is written as 99. */
  evidence: Evidence;
}

/** Keeps the other weights small. */
const HELD_BACK = 0.002;
/** What is no reply weighs as much as so many right ones: what counts are the few that come near. */
const OTHERS_COUNT = 8;
/** A reply heard wrong is a wrong grade. */
const WRONG_COUNTS = 10;
/** Share of what is no reply that may be acted on at a question. */
const OTHERS_ACTED_ON = 0.01;
const HIGHEST_OFFSET = 2;
const STEPS = 25;
const FIFTHS = [0, 1, 2, 3, 4];

const book = loadBook('scripts-cues', 'en');
const isNoReply = ({ kind }: Clip) => ['talk', 'words', 'people'].includes(kind);

/**
 * Logistic regression, by Newton's steps, of "a reply, and heard right" against other talk, other
 * words and replies heard wrong; then the offset by its own rule.
 */
export function fit(clips: Clip[], head: number): Belief {
  const rows = clips.flatMap((clip) => {
    const [look] = clip.heard[head] ?? [];
    if (look === undefined || clip.kind === 'noise') return [];
    const refused = isNoReply(clip) ? OTHERS_COUNT : clip.kind === 'reply' ? WRONG_COUNTS : 1;
    const all = weighedBy(look.evidence);
    const free = all.filter(({ weight }) => weight !== 'unexplained');
    const held = all.find(({ weight }) => weight === 'unexplained')?.value ?? 0;
    return [
      {
        values: [1, ...free.map(({ value }) => value)],
        held: UNEXPLAINED * held,
        right: look.right ? 1 : 0,
        counts: look.right ? 1 : refused,
      },
    ];
  });
  let weights = [0, 0, 0, 0, 0];
  for (let step = 0; step < STEPS; step += 1) {
    const slope = weights.map((weight, at) => (at === 0 ? 0 : -HELD_BACK * rows.length * weight));
    const bend = weights.map((_, at) =>
      weights.map((_, other) => (at === other && at > 0 ? HELD_BACK * rows.length : 0)),
    );
    for (const { values, held, right, counts } of rows) {
      const sum = values.reduce((sum, value, at) => sum + value * (weights[at] ?? 0), held);
      const believed = 1 / (1 + Math.exp(-sum));
      for (const [at, value] of values.entries()) {
        slope[at]! += counts * (right - believed) * value;
        for (const [other, by] of values.entries())
          bend[at]![other]! += counts * believed * (1 - believed) * value * by;
      }
    }
    const change = solved(bend, slope);
    weights = weights.map((weight, at) => weight + (change[at] ?? 0));
  }
  const [offset = 0, fitPerPhone = 0, surePerPhone = 0, phones = 0, lead = 0] = weights;
  const belief = { offset, fitPerPhone, surePerPhone, phones, unexplained: UNEXPLAINED, lead };
  return { ...belief, offset: offsetFor(belief, clips, head) };
}

/** The highest with which no more than OTHERS_ACTED_ON of what is no reply is acted on at a question. */
export function offsetFor(belief: Belief, clips: Clip[], head: number): number {
  const others = clips.filter((clip) => isNoReply(clip) && clip.prompt !== 'idle');
  const isTooHigh = (offset: number) => {
    const acted = others.filter(
      (clip) => judged(clip, head, { ...belief, offset }).verdict === 'act',
    );
    return acted.length > OTHERS_ACTED_ON * others.length;
  };
  let offset = HIGHEST_OFFSET;
  while (isTooHigh(offset)) offset -= 0.05;
  return Math.round(100 * offset) / 100;
}

type Verdict = 'act' | 'ask' | 'ignore';

/** What the app would do: the better of two looks, and the lines of what it means. */
export function judged(
  { prompt, heard }: Clip,
  head: number,
  belief: Belief,
): { look: Look | undefined; confidence: number; verdict: Verdict } {
  const [first, second] = (heard[head] ?? []).map((look) => ({
    look,
    confidence: confidenceOf(look.evidence, belief),
  }));
  if (first === undefined) return { look: undefined, confidence: 0, verdict: 'ignore' };
  const isAgain = second !== undefined && isLookedAtAgain(first.confidence);
  const { look, confidence } = isAgain && second.confidence > first.confidence ? second : first;
  const settings = { ...DEFAULT_SETTINGS, confidence };
  const { verdict } = understand(book, prompt, look.text, settings);
  if (verdict === 'confirm') {
    // Some replies are asked about however surely they are heard.
    const surely = understand(book, prompt, look.text, { ...settings, confidence: 1 });
    const isSure = surely.verdict === 'confirm' && confidence >= ACTS_FROM;
    return { look, confidence, verdict: isSure && look.right ? 'act' : 'ask' };
  }
  return { look, confidence, verdict: verdict === 'accept' ? 'act' : 'ignore' };
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

type Believing = (clip: Clip) => Belief;

/** A line for each distance to noise and each kind of what is no reply, for one head. */
export function report(clips: Clip[], head: number, believing: Believing): string {
  const all = clips.map((clip) => {
    const { look, verdict } = judged(clip, head, believing(clip));
    return { ...clip, right: look?.right ?? false, verdict };
  });
  type One = (typeof all)[number];
  const said = all.filter(({ kind }) => kind === 'reply');
  const replies = [30, 10, 5, null].map((decibels) => {
    const some = said.filter((clip) => decibels === null || clip.decibels === decibels);
    const of = (test: (clip: One) => boolean) => share(some.filter(test).length, some.length);
    return [
      `${decibels === null ? 'all' : `${decibels} dB`}, ${some.length} replies: right ${of(({ right, verdict }) => right && verdict !== 'ignore')}`,
      `acted right ${of(({ right, verdict }) => right && verdict === 'act')}`,
      `acted wrong ${of(({ right, verdict }) => !right && verdict === 'act')}`,
      `asked ${of(({ verdict }) => verdict === 'ask')}`,
    ].join(', ');
  });
  const count = (some: One[], wanted: Verdict) =>
    some.filter(({ verdict }) => verdict === wanted).length;
  const others = ['talk', 'words', 'word', 'people', 'noise'].flatMap((kind) =>
    [false, true].map((idle) => {
      const some = all.filter((clip) => clip.kind === kind && (clip.prompt === 'idle') === idle);
      const minutes = some.reduce((sum, { seconds }) => sum + seconds, 0) / 60;
      return `${kind} ${idle ? 'at idle' : 'at a question'}, ${some.length}, ${minutes.toFixed(1)} minutes: acted on ${count(some, 'act')}, asked about ${count(some, 'ask')}`;
    }),
  );
  return [...replies, ...others].join('\n');
}

/** Distances of the second reading, as natural logarithms. */
const DISTANCES = [0, 1, 2, 3, 4, 5, 6, 12, 100];

/** How often the second reading is the true one in place of the first, by how far it is behind. */
export function closeness(clips: Clip[], head: number, believing: Believing): string {
  const looks = clips.flatMap((clip) => {
    const { look } = judged(clip, head, believing(clip));
    return clip.kind === 'reply' && look ? [look] : [];
  });
  return DISTANCES.slice(1)
    .map((below, at) => {
      const from = DISTANCES[at] ?? 0;
      const some = looks.filter(({ evidence: { lead } }) => lead >= from && lead < below);
      const second = some.filter(({ right, otherRight }) => otherRight && !right).length;
      return `second reading ${from} to ${below} behind, ${some.length} replies: true in ${share(second, some.length)}`;
    })
    .join('\n');
}

/** What acts at idle, but for what halts or hurts, from several lines of confidence. */
export function idleLines(clips: Clip[], head: number, believing: Believing): string {
  const acting = clips.flatMap((clip) => {
    const { look, confidence } = judged(clip, head, believing(clip));
    if (clip.prompt !== 'idle' || look === undefined) return [];
    const from = (confidence: number) =>
      understand(book, 'idle', look.text, { ...DEFAULT_SETTINGS, confidence }).verdict === 'accept';
    const isPlain = from(1) && !from(LINES.harm.act);
    return isPlain ? [{ confidence, isSaid: look.right, isNone: isNoReply(clip) }] : [];
  });
  const said = acting.filter(({ isSaid }) => isSaid);
  const none = acting.filter(({ isNone }) => isNone);
  return [0.5, 0.6, 0.7, 0.8, 0.9]
    .map((line) => {
      const over = (some: typeof acting) => some.filter(({ confidence }) => confidence >= line);
      return `at idle from ${line}: ${over(said).length} of ${said.length} right commands, ${over(none).length} of what is no reply`;
    })
    .join('\n');
}

/** Each fifth of the sounds is judged by a curve that was fitted on the others. */
function leftOut(clips: Clip[], head: number): Believing {
  const beliefs = FIFTHS.map((fifth) =>
    fit(
      clips.filter(({ index }) => index % FIFTHS.length !== fifth),
      head,
    ),
  );
  return ({ index }) => beliefs[index % FIFTHS.length] ?? BELIEF;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [verb, file] = process.argv.slice(2);
  if (file === undefined || (verb !== 'fit' && verb !== 'report')) {
    console.error('Say: fitting.ts fit FILE.jsonl, or fitting.ts report FILE.jsonl');
    process.exitCode = 2;
  } else {
    const clips = readFileSync(file, 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Clip);
    const heads = clips[0]?.heard.length ?? 0;
    for (let head = 0; head < heads; head += 1) {
      const committed =
        heads === 1 ? BELIEF : ([BOTH_BELIEF, SMALL_BELIEF][heads - 1 - head] ?? BELIEF);
      console.log(`head ${head}`);
      if (verb === 'fit') {
        console.log(fit(clips, head));
        console.log(`the committed curve's offset: ${offsetFor(committed, clips, head)}`);
        const apart = leftOut(clips, head);
        console.log(`each fifth left out\n${report(clips, head, apart)}`);
        console.log(closeness(clips, head, apart));
        console.log(idleLines(clips, head, apart));
      }
      console.log(`the committed curve\n${report(clips, head, () => committed)}`);
    }
  }
}
