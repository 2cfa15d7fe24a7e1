import { bookOf } from '../../../src/cli/verb';
import { CHECK_LINES } from '../../../src/main/microphone/words';
import { fliteInNode } from '../../../src/voice/node';
import { mixed, NOISES, randomFrom } from '../../ear/noises';
import type { BenchEar } from '../hearing/hearingEar';
import { wordsWrong } from './wording';

/** What stands for what is filled in: no name, since a recogniser spells those its own way. */
const FILLED: Record<string, string> = { name: 'the next athlete', number: 'three' };
const REPLIES = ['left one forty', 'knees forward', 'clean', 'stop', 'pain six'];
const NOISE_DECIBELS = 8;
const SEED = 5;

/** The lines of the squad day (of says.yaml) and of the check of the microphone, as they are said. */
export function spokenLines(): string[] {
  const { lines } = bookOf();
  const keys = Object.keys(lines);
  const from = keys.indexOf('say.next-is');
  const day = keys.slice(from, keys.indexOf('confirm.end-day') + 1);
  return [
    ...day.map((key) => lines[key] ?? ''),
    CHECK_LINES.stand,
    ...REPLIES.flatMap((text) => [
      CHECK_LINES.ask({ text, at: 'idle' } as never, false),
      CHECK_LINES.tell({ text, how: 'almost', heard: text } as never),
    ]),
  ].map((text) => text.replace(/\{(\w+)\}/g, (_, name: string) => FILLED[name] ?? name));
}

/** Each line as the recogniser writes it down: as it is spoken, and in pink noise 8 dB below it. */
export async function understoodLines(recogniser: BenchEar): Promise<object[]> {
  const voice = await fliteInNode();
  const pink = NOISES.find(({ name }) => name === 'pink');
  if (pink === undefined) throw new Error('There is no pink noise.');
  const told: object[] = [];
  for (const text of spokenLines()) {
    const { samples, sampleRate } = voice.synthesize(text);
    const clear = new Float32Array(samples.length + sampleRate / 2);
    clear.set(samples, sampleRate / 4);
    const noisy = mixed(samples, pink.make, NOISE_DECIBELS, randomFrom(SEED));
    const writtenOf = async (sound: Float32Array) =>
      (await recogniser.hear(sound, 'idle')).told.map((each) => each.text).join(' ');
    const [written, inNoise] = [await writtenOf(clear), await writtenOf(noisy)];
    told.push({
      said: text,
      ...{ written, ...wordsWrong(text, written) },
      inNoise: { written: inNoise, wrong: wordsWrong(text, inNoise).wrong },
    });
  }
  return told;
}
