import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bookOf } from '../../../src/cli/verb';
import { waveFile } from '../../../src/tones/wave';
import { moonshineFor } from '../hearing/moonshine';
import { renderedDrills, type RenderedDrill } from './drills';
import { lookAt } from './looking';
import { understoodLines } from './spokenLines';
import { wordsWrong } from './wording';

/**
 * `npm run bench rendered [-- FOLDER]`: a set of a drill of each area as it would be heard, looked
 * at as a waveform and written down by a recogniser that had no part in making it. The sounds are
 * written to FOLDER, to be listened to. `-- --lines` writes down the lines of the squad day and of
 * the check of the microphone instead.
 */
export async function benchRendered([folder]: string[]): Promise<void> {
  const recogniser = (await moonshineFor(bookOf())).find(({ name }) => name === 'free decoder');
  if (recogniser === undefined) throw new Error('The recogniser that writes freely is missing.');
  if (folder === '--lines') {
    for (const told of await understoodLines(recogniser)) console.log(JSON.stringify(told));
    return;
  }
  for (const drill of await renderedDrills()) {
    console.log(JSON.stringify(lookAt(drill)));
    if (folder !== undefined) {
      mkdirSync(folder, { recursive: true });
      writeFileSync(join(folder, `${drill.drill}.wav`), waveFile(drill.samples, drill.sampleRate));
    }
    for (const { text, sound } of linesOf(drill)) {
      const { told } = await recogniser.hear(sound, 'idle');
      const written = told.map((each) => each.text).join(' ');
      const { wrong, of } = wordsWrong(text, written);
      console.log(JSON.stringify({ said: text, written, wrong, of }));
    }
  }
}

/** Each line that is more than a count, with the silence that a recogniser wants around it. */
function* linesOf({ said, samples, sampleRate }: RenderedDrill) {
  for (const { text, fromSeconds, toSeconds } of said) {
    if (text.split(' ').length < 2) continue;
    const spoken = samples.subarray(
      Math.round(fromSeconds * sampleRate),
      Math.round(toSeconds * sampleRate),
    );
    const sound = new Float32Array(spoken.length + sampleRate);
    sound.set(spoken, sampleRate / 4);
    yield { text, sound };
  }
}
