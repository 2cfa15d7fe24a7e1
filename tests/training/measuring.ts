/**
 * Measures heads side by side on the same clips, at real prompts: replies of kept and taught voices
 * in kept noises and in babble that begins long before, other talk, other words, people, noise.
 *   npx tsx tests/training/measuring.ts [--people FOLDER] OUT.jsonl COUNT SEED KEPT-SHARE HEAD.onnx...
 * FOLDER: recordings of people who say what is no reply, as people.sh gathers them.
 * KEPT-SHARE: 1 for voices and noises that had no part in training or thresholds, 0 for the others.
 * Needs Debian's flite, espeak-ng, festival, festvox-kdlpc16k and festvox-us-slt-hts.
 */
import { execFileSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
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
import { readWav } from '../../src/ear/node';
import { strongReader } from '../../src/ear/phoneReader';
import { createRecogniser } from '../../src/ear/recognising';
import { lexiconOf } from '../ear/grammars';
import { mixed, NOISES, randomFrom } from '../ear/noises';
import { OTHER_TALK, OTHER_WORDS } from '../ear/otherTalk';
import { padded } from '../ear/speech';
import { babbleOf } from '../sounds/surroundings';
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
/** In babble the sound begins up to so long before the speech. */
const LONGEST_LEAD_SECONDS = 2.5;
const BABBLING_SENTENCES = 24;

const meaning = (book: CueBook, prompt: string, text: string) =>
  JSON.stringify(understand(book, prompt, text, { ...DEFAULT_SETTINGS, confidence: 1 }).reply);

async function measure(
  out: string,
  { count, seed, keptShare }: Record<'count' | 'seed' | 'keptShare', number>,
  { heads, people }: { heads: string[]; people: string[] },
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
  const others = ['talk', 'talk', 'word', 'noise', 'words'] as const;
  writeFileSync(out, '');
  for (let index = 0; index < count; index += 1) {
    const kept = random() < keptShare;
    const [speaker, say] = pick(kept ? KEPT : TAUGHT);
    const kind =
      random() < 0.55 ? 'reply' : people.length > 0 && random() < 0.6 ? 'people' : pick(others);
    const prompt = pick(prompts);
    const grammar = grammars.get(prompt)!;
    const text = {
      reply: () => walk(grammar, random).join(' '),
      talk: () => pick(OTHER_TALK),
      word: () => pick(OTHER_WORDS),
      words: () => [1, 2, 3].map(() => pick(OTHER_WORDS)).join(' '),
      people: () => pick(people),
      noise: () => '',
    }[kind]();
    let speech: Float32Array = new Float32Array(Math.round((0.4 + random() * 2) * 16000));
    const pace = 0.75 + random() * 0.4;
    if (kind === 'people') speech = await readWav(text);
    else if (text !== '') {
      say(text, path, pace);
      speech = await readWav(path);
    }
    const noise = pick(noises.filter((each) => each.kept === kept));
    if (noise.name === 'babble') speech = padded(speech, random() * LONGEST_LEAD_SECONDS, 0);
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

const { values, positionals } = parseArgs({
  options: { people: { type: 'string' } },
  allowPositionals: true,
});
const [out, count, seed, keptShare, ...heads] = positionals;
const folderOfPeople = values.people;
const people = folderOfPeople
  ? readdirSync(folderOfPeople).map((name) => join(folderOfPeople, name))
  : [];
if (out === undefined || heads.length === 0) {
  console.error('Say: measuring.ts [--people FOLDER] OUT.jsonl COUNT SEED KEPT-SHARE HEAD.onnx...');
  process.exitCode = 2;
} else
  await measure(
    out,
    { count: Number(count), seed: Number(seed), keptShare: Number(keptShare) },
    { heads, people },
  );
