/**
 * Measures how well replies and other talk are told apart, on speech of Debian's flite and
 * espeak-ng in noise, and fits the curve of src/ear/confidence.ts. Not part of the tests:
 *   npx tsx tests/ear/calibrating.ts gather FILE.jsonl    (some minutes)
 *   npx tsx tests/ear/calibrating.ts fit FILE.jsonl
 * Voices and noises marked `kept` have no part in the fit.
 */
import { execFileSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeRecogniser, readWav } from '../../src/ear/node';
import { fit, report, type Clip } from './fitting';
import { hingeCheck, lexiconOf } from './grammars';
import { mixed, NOISES, randomFrom } from './noises';
import { OTHER_TALK, OTHER_WORDS } from './otherTalk';

interface Speaker {
  name: string;
  kept: boolean;
  say: (text: string, path: string, pace: number) => void;
}

const run = (command: string, args: string[]) => execFileSync(command, args, { stdio: 'ignore' });
const flite = (voice: string, kept = false): Speaker => ({
  name: `flite ${voice}`,
  kept,
  say: (text, path, pace) =>
    run('flite', ['-voice', voice, '--setf', `duration_stretch=${pace}`, '-t', text, '-o', path]),
});
const espeak = (voice: string, kept = false): Speaker => ({
  name: `espeak ${voice}`,
  kept,
  say: (text, path, pace) =>
    run('espeak-ng', ['-v', voice, '-s', String(Math.round(170 / pace)), '-w', path, text]),
});
const SPEAKERS = [
  flite('slt'),
  flite('awb'),
  flite('kal16'),
  espeak('en-us+f3'),
  espeak('en-gb-x-rp+m7'),
  espeak('en-029+m3'),
  flite('rms', true),
  espeak('en-gb-scotland+m2', true),
  espeak('en-gb-scotland+f4', true),
];

async function gather(out: string): Promise<void> {
  const random = randomFrom(19);
  const pick = <T>(from: T[]) => from[Math.floor(random() * from.length)] as T;
  const grammar = hingeCheck();
  const lexicon = lexiconOf(grammar);
  const recogniser = await nodeRecogniser();
  const folder = mkdtempSync(join(tmpdir(), 'calibrating-'));
  writeFileSync(out, '');
  const reply = () => {
    const said: string[] = [];
    for (let state = 0; ;) {
      const arcs = grammar.arcs.filter(({ from }) => from === state);
      if (arcs.length === 0 || (grammar.finals.includes(state) && random() < 0.55)) break;
      const to = pick([...new Set(arcs.map((arc) => arc.to))]);
      const arc = pick(arcs.filter((other) => other.to === to));
      said.push(arc.words);
      state = arc.to;
    }
    return said.join(' ');
  };
  for (let index = 0; index < 1500; index += 1) {
    const speaker = pick(SPEAKERS);
    const negative = random() < 0.5;
    const kind = negative ? pick(['talk', 'talk', 'word', 'noise', 'words'] as const) : 'reply';
    const text = {
      reply,
      talk: () => pick(OTHER_TALK),
      word: () => pick(OTHER_WORDS),
      words: () => [1, 2, 3].map(() => pick(OTHER_WORDS)).join(' '),
      noise: () => '',
    }[kind]();
    const path = join(folder, 'said.wav');
    let speech: Float32Array = new Float32Array(Math.round((0.4 + random() * 2) * 16000));
    if (text !== '') {
      speaker.say(text, path, 0.75 + random() * 0.4);
      speech = await readWav(path);
    }
    const noise = pick(NOISES.filter(({ kept }) => kept === speaker.kept));
    const decibels = text === '' ? 0 : pick([30, 20, 10, 5]);
    const weighed = await recogniser.weigh(
      mixed(speech, noise.make, decibels, random),
      grammar,
      lexicon,
    );
    const clip: Clip = {
      kind,
      text,
      kept: speaker.kept,
      speaker: speaker.name,
      noise: noise.name,
      decibels,
      heard: weighed?.decoded.text ?? '',
      fitPerPhone: weighed?.decoded.fitPerPhone ?? -99,
      lead: Math.min(99, weighed?.evidence.lead ?? 0),
      phones: weighed?.decoded.phones ?? 0,
      freePhones: weighed?.posteriors.freePhones ?? 0,
    };
    appendFileSync(out, `${JSON.stringify(clip)}\n`);
  }
}

const [verb, file] = process.argv.slice(2);
if (file === undefined || (verb !== 'gather' && verb !== 'fit')) {
  console.error('Say: gather FILE.jsonl, or fit FILE.jsonl');
  process.exitCode = 2;
} else if (verb === 'gather') await gather(file);
else {
  const clips = readFileSync(file, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Clip);
  const belief = fit(clips.filter(({ kept }) => !kept));
  console.log(belief);
  console.log(report(clips, belief));
}
