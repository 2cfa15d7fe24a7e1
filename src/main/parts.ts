import { book, durations, lexicon } from '../cues/page';
import { secondsOf } from '../domain/pacing/duration';
import { createDeviceEar } from '../ear/deviceEar';
import { createHands } from '../ear/hands';
import { keepTrying } from '../records/keepTrying';
import { lazyRecords } from '../records/lazyRecords';
import { createHowlerTones } from '../tones/howlerTones';
import { createBrowserVoice } from '../voice/browserVoice';
import { fallingBack } from '../voice/fallingBack';
import { createShippedVoice } from '../voice/shippedVoice';
import { createSynthesis } from '../voice/synthesis';
import { browserClock as clock } from './browserClock';
import { createCoach } from './coach/coach';
import { createShelf } from './coach/shelf';

const loadRecords = async () => (await import('../records/dexieRecords')).createDexieRecords();

/** The adapters of this page, joined to the ports. The microphone is asked for later. */
export function createParts(told: { onProgress: (fraction: number) => void; onCoach: () => void }) {
  const assetsBase = new URL('./', document.baseURI).href;
  const synthesis = createSynthesis({ assetsBase });
  const tones = createHowlerTones();
  const shipped = createShippedVoice({ synthesis, output: tones.output, clock });
  const speech = 'speechSynthesis' in window ? window.speechSynthesis : undefined;
  const browser = createBrowserVoice({ synthesis: speech, clock, language: book.language });
  const coach = createCoach({
    book,
    lexicon,
    shelf: createShelf(() => localStorage),
    fitEar: (learnt, said) => ear.fit(learnt, said),
    changed: told.onCoach,
  });
  const ear = createDeviceEar({
    grammarFor: coach.grammarFor,
    lexicon: coach.lexicon(),
    assetsBase,
    onProgress: told.onProgress,
    clock,
  });
  void coach.fitEar('coach');
  return {
    book,
    coach,
    secondsOf: (text: string) => secondsOf(durations, text),
    clock,
    synthesis,
    tones,
    voice: fallingBack(browser, shipped),
    ear,
    hands: createHands(),
    records: keepTrying(lazyRecords(loadRecords), clock),
  };
}

export type Parts = ReturnType<typeof createParts>;
