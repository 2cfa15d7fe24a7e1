import { book, durations, lexicon } from '../cues/page';
import { grammarOf } from '../domain/hearing/building';
import { secondsOf } from '../domain/pacing/duration';
import { createDeviceEar } from '../ear/deviceEar';
import { createHands } from '../ear/hands';
import { createDexieRecords } from '../records/dexieRecords';
import { keepTrying } from '../records/keepTrying';
import { createHowlerTones } from '../tones/howlerTones';
import { createBrowserVoice } from '../voice/browserVoice';
import { fallingBack } from '../voice/fallingBack';
import { createShippedVoice } from '../voice/shippedVoice';
import { createSynthesis } from '../voice/synthesis';
import { browserClock as clock } from './browserClock';

/** The adapters of this page, joined to the ports. The microphone is asked for later. */
export function createParts(onProgress: (fraction: number) => void) {
  const assetsBase = new URL('./', document.baseURI).href;
  const synthesis = createSynthesis({ assetsBase });
  const tones = createHowlerTones();
  const shipped = createShippedVoice({ synthesis, output: tones.output, clock });
  const speech = 'speechSynthesis' in window ? window.speechSynthesis : undefined;
  const browser = createBrowserVoice({ synthesis: speech, clock, language: book.language });
  return {
    book,
    secondsOf: (text: string) => secondsOf(durations, text),
    clock,
    synthesis,
    tones,
    voice: fallingBack(browser, shipped),
    ear: createDeviceEar({
      grammarFor: (prompt) => grammarOf(book, prompt),
      lexicon,
      assetsBase,
      onProgress,
      clock,
    }),
    hands: createHands(),
    records: keepTrying(createDexieRecords(), clock),
  };
}

export type Parts = ReturnType<typeof createParts>;
