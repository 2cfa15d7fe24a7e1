/**
 * Measures heads side by side on the same clips, at real prompts: replies of kept and taught voices
 * in kept noises and in babble that begins long before, other talk, other words, people, noise.
 *   npx tsx tests/training/measuring.ts [--people FOLDER] [--short N] [--small HEAD.onnx] [--shard I/N] \
 *     OUT.jsonl COUNT SEED KEPT-SHARE HEAD.onnx...
 * FOLDER: recordings of people who say what is no reply, as people.sh gathers them; each is heard
 * once, after COUNT other clips. What is no reply is heard at a prompt and at idle.
 * N: so many replies of one word at the end; few of the COUNT are so short, most of a coach's are.
 * HEAD.onnx: heads on the encoder; --small one on the sound alone, which comes after them, and last
 * the first and it together.
 * I/N: every Nth clip from the Ith on; together the same clips as without.
 * KEPT-SHARE: 1 for voices and noises that had no part in training or thresholds, 0 for the others.
 * Needs Debian's flite, espeak-ng, festival, festvox-kdlpc16k and festvox-us-slt-hts.
 */
import { execFileSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { parseArgs } from 'node:util';
import * as runtime from 'onnxruntime-web';
import { loadBook } from '../../src/cues/fromFolder';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { grammarOf } from '../../src/domain/hearing/building';
import { promptsOf } from '../../src/domain/hearing/prompts';
import { understand } from '../../src/domain/hearing/understanding';
import type { Grammar } from '../../src/domain/hearing/grammar';
import type { CueBook } from '../../src/domain/script';
import { EAR_ASSETS, installedPath } from '../../src/ear/assets.mjs';
import type { Lexicon } from '../../src/ear/lexicon';
import { readWav } from '../../src/ear/node';
import { confidenceOf, rivalOf } from '../../src/ear/confidence';
import { beside, smallReader, strongReader, type PhoneReader } from '../../src/ear/phoneReader';
import { createRecogniser, shifted, type Weighed } from '../../src/ear/recognising';
import { lexiconOf } from '../ear/grammars';
import { mixed, NOISES, randomFrom } from '../ear/noises';
import { OTHER_TALK, OTHER_WORDS } from '../ear/otherTalk';
import { padded } from '../ear/speech';
import { babbleOf } from '../sounds/surroundings';
import type { Clip, Look } from './fitting';
import { walk } from './lines';

const run = (command: string, args: string[], input?: string) =>
  execFileSync(command, args, { stdio: ['pipe', 'ignore', 'ignore'], ...(input && { input }) });
type Say = (text: string, path: string, pace: number) => void;
const flite =
  (voice: string): Say =>
  (text, path, pace) =>
    run('flite', ['-voice', voice, '--setf', `duration_stretch=${pace}`, '-t', text, '-o', path]);
const espeak =
  (voice: string): Say =>
  (text, path, pace) =>
    run('espeak-ng', ['-v', voice, '-s', String(Math.round(170 / pace)), '-w', path, text]);
const festival =
  (voice: string): Say =>
  (text, path, pace) =>
    run(
      'text2wave',
      [
        '-eval',
        `(voice_${voice})`,
        '-eval',
        `(Parameter.set 'Duration_Stretch ${pace})`,
        '-F',
        '16000',
        '-o',
        path,
      ],
      text,
    );

/** Spoken to no head in training: one whole engine, a voice and an accent of the others. */
const KEPT: [string, Say][] = [
  ['flite rms', flite('rms')],
  ['espeak en-gb-scotland+m2', espeak('en-gb-scotland+m2')],
  ['espeak en-gb-scotland+f4', espeak('en-gb-scotland+f4')],
  ['festival ked', festival('ked_diphone')],
  ['festival slt', festival('cmu_us_slt_arctic_hts')],
];
const TAUGHT: [string, Say][] = [
  ['flite slt', flite('slt')],
  ['flite awb', flite('awb')],
  ['flite kal16', flite('kal16')],
  ['espeak en-us+f3', espeak('en-us+f3')],
  ['espeak en-gb-x-rp+m7', espeak('en-gb-x-rp+m7')],
  ['espeak en-029+m3', espeak('en-029+m3')],
];
/** In babble the sound begins up to so long before the speech. */
const LONGEST_LEAD_SECONDS = 2.5;
const BABBLING_SENTENCES = 24;

/** Of what is said; the other prompts share the rest evenly. */
const SAID_AT_IDLE = 0.2;
/** More than there are clips. */
const SEEDS_APART = 100_003;
/** A second look is kept where any curve near the present one could want it. */
const MAY_BE_LOOKED_AT_AGAIN = { from: 0.004, below: 0.9 };

const understoodAt = (book: CueBook, prompt: string, text: string) =>
  understand(book, prompt, text, { ...DEFAULT_SETTINGS, confidence: 1 }).reply;
const meaning = (book: CueBook, prompt: string, text: string) =>
  JSON.stringify(understoodAt(book, prompt, text));

/** The same reader, which reads a sound once for several grammars and beside another. */
function remembering(reader: PhoneReader): PhoneReader {
  let kept: { samples: Float32Array; rows: ReturnType<PhoneReader['read']> }[] = [];
  return {
    ...reader,
    read: (samples) => {
      const known = kept.find(
        (one) =>
          one.samples.length === samples.length &&
          one.samples.every((sample, at) => sample === samples[at]),
      );
      if (known) return known.rows;
      const rows = reader.read(samples);
      kept = [{ samples, rows }, ...kept].slice(0, 2);
      return rows;
    },
  };
}

/** Hears with one head, or two: the sound as it is and, where it may be wanted, a little later. */
function lookingWith(reader: PhoneReader) {
  // Sure of everything, so that it looks once.
  const recogniser = createRecogniser({
    ...reader,
    belief: { ...reader.belief, offset: Infinity },
  });
  const { from, below } = MAY_BE_LOOKED_AT_AGAIN;
  return async (
    sound: Float32Array,
    grammars: Grammar[],
    lexicon: Lexicon,
  ): Promise<Weighed[][]> => {
    const all: Weighed[][] = [];
    for (const grammar of grammars) {
      const first = await recogniser.weigh(sound, grammar, lexicon);
      all.push(first ? [first] : []);
    }
    const later = shifted(sound);
    for (const [at, grammar] of grammars.entries()) {
      const [first] = all[at] ?? [];
      const confidence = first ? confidenceOf(first.evidence, reader.belief) : 0;
      if (confidence < from || confidence >= below) continue;
      const second = await recogniser.weigh(later, grammar, lexicon);
      if (second) all[at]?.push(second);
    }
    return all;
  };
}

async function measure(
  out: string,
  { count, seed, keptShare, short }: Record<'count' | 'seed' | 'keptShare' | 'short', number>,
  {
    heads,
    small,
    people,
    shard: [part, parts],
  }: { heads: string[]; small: string | undefined; people: string[]; shard: [number, number] },
): Promise<void> {
  let random = randomFrom(seed);
  const pick = <T>(from: readonly T[]) => from[Math.floor(random() * from.length)] as T;
  const book = loadBook('scripts-cues', 'en');
  // Sets ask what checks ask, of more faults.
  const prompts = promptsOf(book)
    .map(({ prompt }) => prompt)
    .filter((prompt) => !prompt.startsWith('set/'));
  const grammars = new Map<string, Grammar>(prompts.map((at) => [at, grammarOf(book, at)]));
  const lexicon = lexiconOf(...grammars.values());
  const folder = mkdtempSync(join(tmpdir(), 'measuring-'));
  const encoder = EAR_ASSETS.find(({ to }) => to === 'ear/encoder.onnx');
  const readers: PhoneReader[] = [];
  for (const head of heads)
    readers.push(
      await strongReader(runtime, {
        encoder: readFileSync(installedPath(encoder!)),
        head: readFileSync(head),
      }),
    );
  if (small) readers.push(await smallReader(runtime, { head: readFileSync(small) }));
  const apart = readers.map(remembering);
  const [strong] = apart;
  const both = strong && small ? apart.slice(-1).map((small) => beside(strong, small)) : [];
  const lookers = [...apart, ...both].map(lookingWith);
  const path = join(folder, 'said.wav');
  const babbleBy = async (voices: [string, Say][]) => {
    const talk: Float32Array[] = [];
    for (const [at, text] of OTHER_TALK.slice(0, BABBLING_SENTENCES).entries()) {
      voices[at % voices.length]?.[1](text, path, 1);
      talk.push(await readWav(path));
    }
    return babbleOf(talk);
  };
  const noises = [
    ...NOISES,
    ...(keptShare < 1 ? [{ name: 'babble', kept: false, make: await babbleBy(TAUGHT) }] : []),
    ...(keptShare > 0 ? [{ name: 'babble', kept: true, make: await babbleBy(KEPT) }] : []),
  ];
  const replyAt = (prompt: string): string => {
    const text = walk(grammars.get(prompt)!, random).join(' ');
    return understoodAt(book, prompt, text) === null ? replyAt(prompt) : text;
  };
  const oneWordAt = (prompt: string): string => {
    const { arcs, finals } = grammars.get(prompt)!;
    const whole = arcs.filter(({ from, to }) => from === 0 && finals.includes(to));
    const to = pick([...new Set(whole.map((arc) => arc.to))]);
    return pick(whole.filter((arc) => arc.to === to)).words;
  };
  const others = ['talk', 'talk', 'word', 'noise', 'words'] as const;
  writeFileSync(out, '');
  const firstShort = count + people.length;
  for (let index = 0; index < firstShort + short; index += 1) {
    if (index % parts !== part - 1) continue;
    const isShort = index >= firstShort;
    // Each clip has its own numbers, so that short ones and shards can be had by themselves.
    random = randomFrom((isShort ? seed + 1 : seed) * SEEDS_APART + index);
    const person = people[index - count];
    const kept = random() < keptShare;
    const [voice, say] = pick(kept ? KEPT : TAUGHT);
    const isReply = isShort || (person === undefined && random() < 0.55);
    const kind = person !== undefined ? 'people' : isReply ? 'reply' : pick(others);
    const asked = random() < SAID_AT_IDLE ? 'idle' : pick(prompts);
    const text = {
      reply: () => (isShort ? oneWordAt(asked) : replyAt(asked)),
      talk: () => pick(OTHER_TALK),
      word: () => pick(OTHER_WORDS),
      words: () => [1, 2, 3].map(() => pick(OTHER_WORDS)).join(' '),
      people: () => basename(person ?? ''),
      noise: () => '',
    }[kind]();
    let speech: Float32Array = new Float32Array(Math.round((0.4 + random() * 2) * 16000));
    const pace = 0.75 + random() * 0.4;
    if (person !== undefined) speech = await readWav(person);
    else if (text !== '') {
      say(text, path, pace);
      speech = await readWav(path);
    }
    const seconds = speech.length / 16000;
    const noise = pick(noises.filter((each) => each.kept === kept));
    if (noise.name === 'babble') speech = padded(speech, random() * LONGEST_LEAD_SECONDS, 0);
    const decibels = text === '' ? 0 : pick([30, 10, 5]);
    const sound = mixed(speech, noise.make, decibels, random);
    const heardAt = kind === 'reply' ? [asked] : [...new Set([asked, 'idle'])];
    const byHead: Weighed[][][] = [];
    for (const look of lookers)
      byHead.push(
        await look(
          sound,
          heardAt.map((prompt) => grammars.get(prompt)!),
          lexicon,
        ),
      );
    for (const [at, prompt] of heardAt.entries()) {
      const isSaid = (heard: string | undefined) =>
        kind === 'reply' &&
        heard !== undefined &&
        meaning(book, prompt, heard) === meaning(book, prompt, text);
      const looked = ({ decoded, evidence }: Weighed): Look => ({
        text: decoded.text,
        right: isSaid(decoded.text),
        otherRight: isSaid(rivalOf(decoded, grammars.get(prompt)!)?.text),
        evidence: { ...evidence, lead: Math.min(99, evidence.lead) },
      });
      const clip: Clip = {
        ...{ index, kind, prompt, text, kept, speaker: person === undefined ? voice : 'people' },
        ...{ noise: noise.name, decibels, seconds },
        heard: byHead.map((all) => (all[at] ?? []).map(looked)),
      };
      appendFileSync(out, `${JSON.stringify(clip)}\n`);
    }
  }
}

const { values, positionals } = parseArgs({
  options: {
    people: { type: 'string' },
    short: { type: 'string' },
    small: { type: 'string' },
    shard: { type: 'string', default: '1/1' },
  },
  allowPositionals: true,
});
const [out, count, seed, keptShare, ...heads] = positionals;
const { people, small, short = '0', shard } = values;
const [part = 1, parts = 1] = shard.split('/').map(Number);
if (out === undefined || heads.length === 0) {
  console.error(
    'Say: measuring.ts [--people FOLDER] [--short N] [--small HEAD.onnx] OUT.jsonl COUNT SEED KEPT-SHARE HEAD.onnx...',
  );
  process.exitCode = 2;
} else
  await measure(
    out,
    {
      count: Number(count),
      seed: Number(seed),
      keptShare: Number(keptShare),
      short: Number(short),
    },
    {
      ...{ heads, small, shard: [part, parts] },
      people: people
        ? readdirSync(people)
            .sort()
            .map((name) => join(people, name))
        : [],
    },
  );
