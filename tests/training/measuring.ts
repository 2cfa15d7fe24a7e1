/**
 * Measures heads side by side on the same clips, at real prompts: replies of kept and taught voices
 * in kept noises, other talk, other words, noise.
 *   npx tsx tests/training/measuring.ts OUT.jsonl COUNT SEED KEPT-SHARE HEAD.onnx...
 * KEPT-SHARE: 1 for voices and noises that had no part in training or thresholds, 0 for the others.
 * Needs Debian's flite, espeak-ng, festival, festvox-kdlpc16k and festvox-us-slt-hts.
 */
import { execFileSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as runtime from 'onnxruntime-web';
import { loadBook } from '../../src/cues/fromFolder';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { grammarOf } from '../../src/domain/hearing/building';
import { promptsOf } from '../../src/domain/hearing/prompts';
import { understand } from '../../src/domain/hearing/understanding';
import type { Grammar } from '../../src/domain/hearing/grammar';
import type { CueBook } from '../../src/domain/script';
import { EAR_ASSETS, installedPath } from '../../src/ear/assets.mjs';
import { readWav } from '../../src/ear/node';
import { strongReader } from '../../src/ear/phoneReader';
import { createRecogniser } from '../../src/ear/recognising';
import { lexiconOf } from '../ear/grammars';
import { mixed, NOISES, randomFrom } from '../ear/noises';
import { OTHER_TALK, OTHER_WORDS } from '../ear/otherTalk';
import type { Clip } from './fitting';
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
const meaning = (book: CueBook, prompt: string, text: string) =>
  JSON.stringify(understand(book, prompt, text, { ...DEFAULT_SETTINGS, confidence: 1 }).reply);

async function measure(
  out: string,
  { count, seed, keptShare }: Record<'count' | 'seed' | 'keptShare', number>,
  heads: string[],
): Promise<void> {
  const random = randomFrom(seed);
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
  const recognisers = [];
  for (const head of heads)
    recognisers.push(
      createRecogniser(
        await strongReader(runtime, {
          encoder: readFileSync(installedPath(encoder!)),
          head: readFileSync(head),
        }),
      ),
    );
  writeFileSync(out, '');
  for (let index = 0; index < count; index += 1) {
    const kept = random() < keptShare;
    const [speaker, say] = pick(kept ? KEPT : TAUGHT);
    const kind =
      random() < 0.68 ? 'reply' : pick(['talk', 'talk', 'word', 'noise', 'words'] as const);
    const prompt = pick(prompts);
    const grammar = grammars.get(prompt)!;
    const text = {
      reply: () => walk(grammar, random).join(' '),
      talk: () => pick(OTHER_TALK),
      word: () => pick(OTHER_WORDS),
      words: () => [1, 2, 3].map(() => pick(OTHER_WORDS)).join(' '),
      noise: () => '',
    }[kind]();
    const path = join(folder, 'said.wav');
    let speech: Float32Array = new Float32Array(Math.round((0.4 + random() * 2) * 16000));
    const pace = 0.75 + random() * 0.4;
    if (text !== '') {
      say(text, path, pace);
      speech = await readWav(path);
    }
    const noise = pick(NOISES.filter((each) => each.kept === kept));
    const decibels = text === '' ? 0 : pick([30, 10, 5]);
    const sound = mixed(speech, noise.make, decibels, random);
    const heard: Clip['heard'] = [];
    for (const recogniser of recognisers) {
      const weighed = await recogniser.weigh(sound, grammar, lexicon);
      const said = weighed?.decoded.text ?? '';
      heard.push(
        weighed && {
          text: said,
          right: kind === 'reply' && meaning(book, prompt, said) === meaning(book, prompt, text),
          evidence: { ...weighed.evidence, lead: Math.min(99, weighed.evidence.lead) },
        },
      );
    }
    const clip: Clip = { kind, prompt, text, kept, speaker, noise: noise.name, decibels, heard };
    appendFileSync(out, `${JSON.stringify(clip)}\n`);
  }
}

const [out, count, seed, keptShare, ...heads] = process.argv.slice(2);
if (out === undefined || heads.length === 0) {
  console.error('Say: measuring.ts OUT.jsonl COUNT SEED KEPT-SHARE HEAD.onnx...');
  process.exitCode = 2;
} else
  await measure(
    out,
    { count: Number(count), seed: Number(seed), keptShare: Number(keptShare) },
    heads,
  );
