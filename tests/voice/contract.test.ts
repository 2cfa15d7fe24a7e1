import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import type { Voice } from '../../src/ports';
import { createBrowserVoice } from '../../src/voice/browserVoice';
import { fallingBack } from '../../src/voice/fallingBack';
import { sharedManner } from '../../src/voice/manner';
import { createShippedVoice } from '../../src/voice/shippedVoice';
import { createSynthesis } from '../../src/voice/synthesis';
import { clock, pass, stopTime } from './clock';
import { saying, voiceContract, type Room } from './contract';
import { rudeSynthesis, type Rudeness } from './rudeSynthesis';
import { soundRoom } from './soundRoom';

stopTime();

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

const browser = (rudeness?: Rudeness, manner = sharedManner()): Room => {
  const { synthesis, utter, sounding } = rudeSynthesis(rudeness);
  return {
    voice: createBrowserVoice({ synthesis, utter, clock, language: 'en', manner }),
    sounding,
  };
};
const shipped = (manner = sharedManner()): Room => {
  const room = soundRoom();
  const synthesis = createSynthesis({ assetsBase: 'http://page/', spawn: room.spawn });
  return {
    voice: createShippedVoice({ synthesis, output: room.output, clock, manner }),
    sounding: room.sounding,
  };
};
const both = (first: Room, then: Room): Room => ({
  voice: fallingBack(first.voice, then.voice),
  sounding: () => first.sounding() ?? then.sounding(),
});
const mute = (): Voice => ({
  say(_, { ended }) {
    ended('failed');
    return () => undefined;
  },
  prepare: () => undefined,
  adjust: () => undefined,
  duck: () => undefined,
});

voiceContract('a voice of the browser', () => browser());
voiceContract('a browser that tells an end twice', () => browser({ endsTwice: true }));
voiceContract('a browser whose cancelled lines end', () => browser({ cancelEnds: 'end' }));
voiceContract('a browser whose cancelled lines never end', () =>
  browser({ cancelEnds: 'nothing' }),
);
voiceContract('a browser that swallows lines while it cancels', () =>
  browser({ cancelTakesMs: 80 }),
);
voiceContract('a browser that was left paused', () => browser({ paused: true }));
voiceContract('a browser that pauses in the middle of a line and does not resume', () =>
  browser({ pausesMidLine: { times: 1, says: true } }),
);
voiceContract('a browser that throws away what nobody holds', () =>
  browser({ collects: collectGarbage }),
);
voiceContract('the shipped voice', () => shipped());
voiceContract('the first of two voices', () => both(browser(), shipped()));
voiceContract('the second where the first fails', () =>
  both(browser({ failsAtOnce: 'synthesis-failed' }), shipped()),
);
const LATE: [string, Rudeness][] = [
  ['has no voices', { voicesAfterMs: Infinity }],
  ['never starts', { neverStarts: true }],
  ['never ends', { neverEnds: true }],
  ['pauses again and again', { pausesMidLine: { times: Infinity, says: true } }],
  ['pauses without saying so', { pausesMidLine: { times: Infinity, says: false } }],
];
for (const [how, rudeness] of LATE) {
  voiceContract(`the second, once it was seen twice that the first ${how}`, async () => {
    const room = both(browser(rudeness), shipped());
    for (let times = 0; times < 2; times += 1) {
      const line = saying(room.voice, 'Stand tall');
      await pass(30_000);
      expect(line.ended.mock.calls).toEqual([['spoken']]);
    }
    return room;
  });
}
voiceContract('the second where there is no first', () =>
  both({ voice: mute(), sounding: () => null }, shipped()),
);

it('the browser and the shipped voice speak in one manner where they share it', async () => {
  const manner = sharedManner();
  const rooms = [browser({}, manner), shipped(manner)];
  const heard = async () => {
    const sounds = [];
    for (const { voice, sounding } of rooms) {
      const line = saying(voice, 'Stand tall with your feet under your hips.');
      await pass(500);
      sounds.push(sounding());
      line.cancel();
      await pass(500);
    }
    return sounds;
  };
  const usual = await heard();
  manner.adjust('louder');
  manner.adjust('slower');
  const now = await heard();
  now.forEach((sound, index) => {
    expect(sound?.volume).toBeGreaterThan((usual[index]?.volume ?? 9) * 1.3);
    expect(sound?.seconds).toBeGreaterThan((usual[index]?.seconds ?? 99) * 1.05);
  });
  expect(now[0]?.volume).toBe(now[1]?.volume);
});

it('a browser that throws away what nobody holds never ends such a line, as it was meant to', async () => {
  const { synthesis, utter } = rudeSynthesis({ collects: collectGarbage });
  const ended: string[] = [];
  const spoken = (name: string) => {
    const utterance = utter(name);
    utterance.addEventListener('end', () => ended.push(name));
    synthesis.speak(utterance);
    return utterance;
  };
  const held = spoken('held');
  spoken('let go');
  await pass(5000);
  expect(ended).toEqual([held.text]);
});
