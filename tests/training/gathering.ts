/**
 * Gathers recorded people for the training: lines of two free works, written down by the encoder's
 * own decoder; what it is not sure of is left out. Needs Debian's ffmpeg and opus-tools.
 *   npx tsx tests/training/gathering.ts FOLDER     (.train/people for running.sh)
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dictionary } from 'cmu-pronouncing-dictionary';
import tokens from 'llama-tokenizer-js';
import { lexiconFor } from '../../src/ear/lexicon';
import { outputOf } from '../../src/ear/phones';
import { BEGIN, END, moonshineModel, type Path } from '../bench/hearing/moonshineModel';
import { randomFrom } from '../ear/noises';
import { PACKAGES, recordings } from './recordings';
import { spokenIn, surely, type Written } from './writtenDown';

const RATE = 16_000;
const PARTS = 8;
const SEED = 5;
/** So much is carried to the accelerator, at so few bits. */
const SECONDS = 12_600;
const KILOBITS = 10;
const GAP_SAMPLES = 1_600;

type Model = Awaited<ReturnType<typeof moonshineModel>>;

/** The likeliest words, one token after the other. */
async function written(model: Model, samples: Float32Array): Promise<Written> {
  const sound = await model.encode(samples);
  let path: Path = { tokens: [BEGIN], score: 0, memory: [] };
  let worst = 0;
  const most = Math.ceil((samples.length / RATE) * 7) + 4;
  while (path.tokens.length <= most) {
    const [step] = await model.follow(sound, [path]);
    if (step === undefined) break;
    const token = step.row.best();
    const score = step.row.log(token);
    worst = Math.min(worst, score);
    path = { tokens: [...path.tokens, token], score: path.score + score, memory: step.memory };
    if (token === END) break;
  }
  const said = path.tokens.filter((token) => token !== END);
  return { text: tokens.decode(said), score: path.score / said.length, worst };
}

const phonesOf = (words: string[]) =>
  words.flatMap((word) =>
    (lexiconFor([word])[word]?.[0] ?? []).map((phone) => outputOf(phone) ?? 0),
  );

async function gather(folder: string): Promise<void> {
  const work = mkdtempSync(join(tmpdir(), 'recordings-'));
  for (const name of PACKAGES)
    execFileSync('sh', ['-c', `apt-get download ${name} && dpkg-deb -x ${name}_*.deb .`], {
      cwd: work,
      stdio: 'ignore',
    });
  const model = await moonshineModel();
  const kept: { samples: Float32Array; phones: number[]; voice: string }[] = [];
  for (const { name, samples } of recordings(work)) {
    const spoken = spokenIn(samples);
    if (spoken === null) continue;
    const words = surely(await written(model, spoken), (word) => Object.hasOwn(dictionary, word));
    const phones = phonesOf(words ?? []);
    const perSecond = phones.length / (spoken.length / RATE);
    if (phones.length < 2 || perSecond < 4 || perSecond > 22) continue;
    kept.push({ samples: spoken, phones, voice: name.split(' ')[0] ?? name });
  }
  const random = randomFrom(SEED);
  const mixed = kept
    .map((one) => ({ one, place: random() }))
    .sort((a, b) => a.place - b.place)
    .map(({ one }) => one);
  let left = SECONDS * RATE;
  const chosen = mixed.filter(({ samples }) => (left -= samples.length) > 0);
  mkdirSync(folder, { recursive: true });
  for (let part = 0; part < PARTS; part += 1) {
    const lines = chosen.filter((_, at) => at % PARTS === part);
    let at = 0;
    const rows = lines.map(({ samples, phones, voice }) => {
      const from = at;
      at += samples.length + GAP_SAMPLES;
      return { from, length: samples.length, phones, voice };
    });
    const sound = new Int16Array(at);
    lines.forEach(({ samples }, line) =>
      sound.set(
        samples.map((sample) => sample * 32_767),
        rows[line]?.from,
      ),
    );
    const raw = `--quiet --raw --raw-rate ${RATE} --raw-chan 1 --raw-bits 16 --bitrate ${KILOBITS} -`;
    execFileSync('opusenc', [...raw.split(' '), join(folder, `${part}.opus`)], {
      input: new Uint8Array(sound.buffer),
    });
    writeFileSync(join(folder, `${part}.json`), JSON.stringify(rows));
  }
  console.log(`${kept.length} lines understood, ${chosen.length} taken`);
}

const [folder] = process.argv.slice(2);
if (folder === undefined) {
  console.error('Say: gathering.ts FOLDER');
  process.exitCode = 2;
} else await gather(folder);
