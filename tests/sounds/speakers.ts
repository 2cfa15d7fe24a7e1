import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { readWav } from '../../src/ear/node';
import { resampled } from '../../src/ear/resampling';
import { fliteInNode, SAYSO_VOICE } from '../../src/voice/node';

/** Tuned: taught to the head or fitted on. Reported: touched neither (public/ear/MODEL.md). */
export type Half = 'tuned' | 'reported';
export const HALVES: Half[] = ['tuned', 'reported'];

type Engine = 'flite' | 'espeak' | 'festival' | 'shipped';
export interface Speaker {
  name: string;
  half: Half;
  engine: Engine;
  voice: string;
}

const speaker = (half: Half, engine: Engine, voice: string): Speaker => ({
  name: `${engine} ${voice}`,
  half,
  engine,
  voice,
});

/** Synthetic voices; Debian's flite, espeak-ng, festival, festvox-kdlpc16k, festvox-us-slt-hts. */
export const SPEAKERS: Speaker[] = [
  ...['slt', 'awb', 'kal16'].map((voice) => speaker('tuned', 'flite', voice)),
  ...['en-us+f3', 'en-gb-x-rp+m7', 'en-029+m3'].map((voice) => speaker('tuned', 'espeak', voice)),
  speaker('reported', 'flite', 'rms'),
  ...['m2', 'f4', 'm7', 'f2'].map((who) => speaker('reported', 'espeak', `en-gb-scotland+${who}`)),
  // An engine that taught nothing; the second one's speaker is that of flite's slt.
  speaker('reported', 'festival', 'ked_diphone'),
  speaker('reported', 'festival', 'cmu_us_slt_arctic_hts'),
];

/** The voice that comes with Sayso: always there, but the head was taught with it. */
export const SHIPPED: Speaker = speaker('tuned', 'shipped', SAYSO_VOICE.name);

/** One utterance to be spoken; `rate` 1 is the voice's everyday pace, larger is faster. */
export interface Spoken {
  speaker: Speaker;
  text: string;
  rate: number;
}

const run = promisify(execFile);
const cache = fileURLToPath(new URL('../../.cache/speech/', import.meta.url));
const fileOf = ({ speaker, text, rate }: Spoken) =>
  join(
    cache,
    `${createHash('sha1').update(`${speaker.name}|${rate}|${text}`).digest('hex').slice(0, 20)}.wav`,
  );

/** The voices of a half whose engine is installed, and why each of the others is left out. */
export async function speakersHere(): Promise<{ here: Speaker[]; missing: string[] }> {
  const here: Speaker[] = [];
  const missing: string[] = [];
  for (const each of SPEAKERS)
    try {
      await prepare([{ speaker: each, text: 'ready', rate: 1 }]);
      here.push(each);
    } catch {
      missing.push(`${each.name} (its engine or voice is not installed)`);
    }
  return { here, missing };
}

/** Speaks what is not in the cache yet, so many at a time. Rejects where an engine fails. */
export async function prepare(wanted: Spoken[], atOnce = 2): Promise<void> {
  mkdirSync(cache, { recursive: true });
  const todo = [...new Map(wanted.map((each) => [fileOf(each), each])).values()].filter(
    (each) => each.speaker.engine !== 'shipped' && !existsSync(fileOf(each)),
  );
  const batches = new Map<string, Spoken[]>();
  for (const [index, each] of todo.entries()) {
    const alone = each.speaker.engine !== 'festival';
    const key = alone ? `${index}` : `${each.speaker.name}|${each.rate}|${index % atOnce}`;
    batches.set(key, [...(batches.get(key) ?? []), each]);
  }
  const waiting = [...batches.values()];
  const work = async () => {
    for (let batch = waiting.pop(); batch; batch = waiting.pop()) await speakBatch(batch);
  };
  await Promise.all(Array.from({ length: atOnce }, work));
}

async function speakBatch(batch: Spoken[]): Promise<void> {
  const [first] = batch;
  if (first === undefined) return;
  const { speaker, rate, text } = first;
  const parts = batch.map((each) => `${fileOf(each)}.${process.pid}.part`);
  const [part = ''] = parts;
  if (speaker.engine === 'flite') {
    const stretch = `duration_stretch=${(1 / rate).toFixed(3)}`;
    await run('flite', ['-voice', speaker.voice, '--setf', stretch, '-t', text, '-o', part]);
  } else if (speaker.engine === 'espeak') {
    const pace = String(Math.round(170 * rate));
    await run('espeak-ng', ['-v', speaker.voice, '-s', pace, '-w', part, text]);
  } else {
    const script = `${part}.scm`;
    const lines = batch.map(
      (each, at) =>
        `(let ((u (Utterance Text ${JSON.stringify(each.text)}))) (utt.synth u)` +
        ` (utt.save.wave u ${JSON.stringify(parts[at])} 'riff))`,
    );
    const stretch = `(Parameter.set 'Duration_Stretch ${(1 / rate).toFixed(3)})`;
    writeFileSync(script, [`(voice_${speaker.voice})`, stretch, ...lines].join('\n'));
    await run('festival', ['--batch', script]);
    rmSync(script);
  }
  batch.forEach((each, at) => renameSync(parts[at] ?? '', fileOf(each)));
}

/** The utterance at 16 kHz, its loudest sample 0.5, no silence around it. */
export async function spokenBy(spoken: Spoken): Promise<Float32Array> {
  if (spoken.speaker.engine === 'shipped') return spokenByShipped(spoken);
  if (!existsSync(fileOf(spoken))) await prepare([spoken]);
  return trimmed(await readWav(fileOf(spoken)));
}

const saidByShipped = new Map<string, Promise<Float32Array>>();
function spokenByShipped({ text, rate }: Spoken): Promise<Float32Array> {
  const speak = async () => {
    const voice = { ...SAYSO_VOICE, stretch: SAYSO_VOICE.stretch / rate, isClear: false };
    const { samples, sampleRate } = (await fliteInNode()).synthesize(text, voice);
    return trimmed(resampled(samples, sampleRate));
  };
  const key = `${rate}|${text}`;
  const said = saidByShipped.get(key) ?? speak();
  saidByShipped.set(key, said);
  return said;
}

/** Without the silence at its ends (below a hundredth of its peak), its peak brought to 0.5. */
export function trimmed(samples: Float32Array): Float32Array {
  let peak = 0;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  const isLoud = (sample: number) => Math.abs(sample) > peak / 100;
  const from = samples.findIndex(isLoud);
  const to = samples.findLastIndex(isLoud);
  if (peak === 0 || from < 0) return new Float32Array(0);
  return samples.slice(Math.max(0, from - 160), to + 160).map((x) => (x / peak) * 0.5);
}
