import type { Voice } from '../../src/ports';
import { createBrowserVoice } from '../../src/voice/browserVoice';
import { fallingBack } from '../../src/voice/fallingBack';
import { createShippedVoice } from '../../src/voice/shippedVoice';
import { createSynthesis } from '../../src/voice/synthesis';
import { clock, stopTime } from './clock';
import { voiceContract, type Room } from './contract';
import { rudeSynthesis, type Rudeness } from './rudeSynthesis';
import { soundRoom } from './soundRoom';

stopTime();

const browser = (rudeness?: Rudeness): Room => {
  const { synthesis, utter, sounding } = rudeSynthesis(rudeness);
  return { voice: createBrowserVoice({ synthesis, utter, clock, language: 'en' }), sounding };
};
const shipped = (): Room => {
  const room = soundRoom();
  const synthesis = createSynthesis({ assetsBase: 'http://page/', spawn: room.spawn });
  return {
    voice: createShippedVoice({ synthesis, output: room.output, clock }),
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
voiceContract('the shipped voice', shipped);
voiceContract('the first of two voices', () => both(browser(), shipped()));
voiceContract('the second where the first fails', () =>
  both(browser({ failsAtOnce: 'synthesis-failed' }), shipped()),
);
voiceContract('the second where there is no first', () =>
  both({ voice: mute(), sounding: () => null }, shipped()),
);
