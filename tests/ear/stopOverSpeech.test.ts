import { expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { wordsOf } from '../../src/cues/grammarWords';
import { grammarOf } from '../../src/domain/hearing/building';
import { FRAME } from '../../src/ear/detecting';
import { lexiconFor } from '../../src/ear/lexicon';
import { Listening } from '../../src/ear/listening';
import { nodeDetector, nodeQuick, nodeRecogniser } from '../../src/ear/node';
import { HEARD_RATE } from '../../src/ear/resampling';
import { URGENT } from '../../src/ear/urgent';
import { COACH_VOICE, fliteInNode } from '../../src/voice/node';
import { trimmed } from '../sounds/speakers';
import { spokenPower } from '../sounds/surroundings';

const LINE_BEGINS = 1;

/** As loud as that where it is spoken, decibels below full scale. */
function at(decibels: number, sound: Float32Array): Float32Array {
  const gain = 10 ** ((decibels - 10 * Math.log10(spokenPower(sound))) / 20);
  return sound.map((sample) => gain * sample);
}

/**
 * The line never falls silent behind the word, so that nothing is told sooner by a silence. Time is
 * the sound's own: what the machine takes for a look comes on top.
 */
it('a "stop" 10 dB above a line that goes on is told within 0.2 s of its end', async () => {
  const book = bookOf();
  const flite = await fliteInNode();
  const line = at(
    -30,
    flite.synthesize('Welcome. I say each cue, and you tell me what you see.').samples,
  );
  const stop = at(-20, trimmed(flite.synthesize('stop', COACH_VOICE).samples));
  const parts = {
    recogniser: await nodeRecogniser(),
    quick: await nodeQuick(),
    detector: await nodeDetector(),
  };
  const told: number[] = [];
  for (const afterSeconds of [0.9, 1, 1.2]) {
    const begins = LINE_BEGINS + afterSeconds;
    const ends = begins + stop.length / HEARD_RATE;
    const sound = Float32Array.from({ length: (ends + 1) * HEARD_RATE }, (_, place) => {
      const own = line[place - Math.round(LINE_BEGINS * HEARD_RATE)] ?? 0;
      const said = stop[place - Math.round(begins * HEARD_RATE)] ?? 0;
      return own + said + Math.sin(place * place) / 1000;
    });
    parts.detector.reset();
    let now = 0;
    const halts: number[] = [];
    const listening = new Listening({
      ...parts,
      lexicon: lexiconFor(wordsOf(book)),
      urgent: new Set(URGENT),
      tell: (hearing) => {
        if (hearing.type === 'words' && hearing.text === 'stop') halts.push(now - ends);
      },
    });
    listening.attend(grammarOf(book, 'idle'));
    for (let from = 0; from + FRAME <= sound.length; from += FRAME) {
      now = (from + FRAME) / HEARD_RATE;
      await listening.push(sound.slice(from, from + FRAME));
    }
    told.push(halts[0] ?? Infinity);
  }
  for (const seconds of told) expect(seconds).toBeLessThan(0.2);
});
