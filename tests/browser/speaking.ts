import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { waveFile } from '../../src/tones/wave';
import { COACH_VOICE, fliteInNode } from '../../src/voice/node';

const folder = mkdtempSync(join(tmpdir(), 'sayso-spoken-'));

/** A sound file in which each text begins at its second, made by a voice; silence between. */
export async function spokenFile(
  name: string,
  spoken: { atSeconds: number; text: string }[],
): Promise<string> {
  const flite = await fliteInNode();
  const pieces = spoken.map(({ atSeconds, text }) => ({
    atSeconds,
    ...flite.synthesize(text, COACH_VOICE),
  }));
  const sampleRate = pieces[0]?.sampleRate ?? 16000;
  const ends = pieces.map(({ atSeconds, samples }) => atSeconds + samples.length / sampleRate);
  const sound = new Float32Array(Math.ceil((Math.max(0, ...ends) + 2) * sampleRate));
  for (const { atSeconds, samples } of pieces) {
    sound.set(
      samples.map((sample) => sample * 0.5),
      Math.round(atSeconds * sampleRate),
    );
  }
  const path = join(folder, `${name}.wav`);
  writeFileSync(path, waveFile(sound, sampleRate));
  return path;
}
