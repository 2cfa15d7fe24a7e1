import { hasPhones, isShippedVoice } from '../cues/languages';
import type { Cues } from '../cues/page';
import { secondsOf } from '../domain/pacing/duration';
import { createDeviceEar } from '../ear/deviceEar';
import { createHands } from '../ear/hands';
import { makeRoom } from '../offline/keeping';
import { keepTrying } from '../records/keepTrying';
import { lazyKeeping } from '../records/lazyKeeping';
import { lazyNotes } from '../records/lazyNotes';
import { lazyPeople } from '../records/lazyPeople';
import { lazyRecords } from '../records/lazyRecords';
import { leavingNamesOut } from '../records/leavingNamesOut';
import { makingRoom } from '../records/makingRoom';
import type { Vault } from '../records/vault';
import { createHowlerTones } from '../tones/howlerTones';
import { createMusic } from '../tones/music';
import { createPlacedBeats } from '../tones/placedBeats';
import { alsoFelt } from '../tones/vibrating';
import { createShippedVoice } from '../voice/shippedVoice';
import { sharedManner } from '../voice/manner';
import { createSynthesis } from '../voice/synthesis';
import { SAYSO_VOICE } from '../voice/voices';
import { createBrowserClock } from './browserClock';
import { createCoach } from './coach/coach';
import { createShelf } from './coach/shelf';
import { createMannerShelf } from './mannerShelf';
import { createNoEar } from './noEar';
import { readSoon } from './readSoon';
import { createSpokenBeats } from './spokenBeats';
import { createTyped } from './typed';
import { createVoices } from './voices';
import { createWordsShelf } from './wordsShelf';

/** The adapters of this page, joined to the ports. The microphone is asked for later. */
export function createParts(
  { book, lexicon, durations }: Cues,
  told: {
    onProgress: (fraction: number) => void;
    onMicrophone: (hearsOverSound: boolean) => void;
    onCoach: () => void;
    onVoices: () => void;
    /** What was kept for use without network has given way to the record. */
    onRoomMade: () => void;
    /** Of the people whom this device keeps. */
    names: () => string[];
  },
  vault: Vault,
) {
  const assetsBase = new URL('./', document.baseURI).href;
  const clock = createBrowserClock();
  const synthesis = createSynthesis({ assetsBase });
  const vibrate = 'vibrate' in navigator ? navigator.vibrate.bind(navigator) : undefined;
  const tones = alsoFelt(createHowlerTones(), vibrate);
  const manner = sharedManner(createMannerShelf(() => localStorage));
  const shipped = createShippedVoice({ synthesis, output: tones.output, clock, manner });
  const speech = 'speechSynthesis' in window ? window.speechSynthesis : undefined;
  const isSpoken = isShippedVoice(book.language);
  const voices = createVoices({
    ...{ synthesis: speech, manner, clock, language: book.language },
    shipped: isSpoken ? shipped : null,
    storage: () => localStorage,
    changed: told.onVoices,
  });
  const placed = createPlacedBeats({
    // A browser's voice cannot be placed on a moment, so every count is the shipped voice's.
    make: (text) => synthesis.make(text, SAYSO_VOICE, 'later'),
    output: tones.output,
    clock,
    volume: () => manner.now().volume,
  });
  const beats = isSpoken ? placed : createSpokenBeats({ voice: voices.voice, tones, clock });
  const coach = createCoach({
    book,
    lexicon,
    shelf: createShelf(() => localStorage),
    fitEar: (learnt, said) => {
      ear.fit(learnt, said);
      void ear.ready.then(
        () => readSoon(coach.book(), clock),
        () => undefined,
      );
    },
    changed: told.onCoach,
  });
  const isHeard = hasPhones(book.language);
  const ear = isHeard
    ? createDeviceEar({
        grammarFor: coach.grammarFor,
        lexicon: coach.lexicon(),
        assetsBase,
        onProgress: told.onProgress,
        onMicrophone: told.onMicrophone,
        clock,
      })
    : createNoEar();
  if (isHeard) void coach.fitEar('coach');
  const makeRoomForRecord = async () => {
    const isMade = await makeRoom(assetsBase);
    if (isMade) told.onRoomMade();
    return isMade;
  };
  const loadRecords = async () =>
    (await import('../records/dexieRecords')).createDexieRecords('sayso', {}, vault);
  return {
    assetsBase,
    book,
    isHeard,
    coach,
    secondsOf: (text: string) => secondsOf(durations, text),
    clock,
    synthesis,
    tones,
    people: lazyPeople(async () =>
      (await import('../records/dexiePeople')).createDexiePeople('sayso', {}, clock.now, vault),
    ),
    notes: lazyNotes(async () =>
      (await import('../records/dexieNotes')).createDexieNotes('sayso', {}, clock.now, vault),
    ),
    keeping: lazyKeeping(async () =>
      (await import('../records/dexieKeeping')).createDexieKeeping('sayso', {}, vault),
    ),
    music: createMusic(),
    beats,
    voice: voices.voice,
    voices,
    manner,
    words: createWordsShelf(() => localStorage),
    ear,
    hands: createHands(),
    typed: createTyped(),
    records: leavingNamesOut(
      keepTrying(makingRoom(lazyRecords(loadRecords), makeRoomForRecord), clock),
      told.names,
      (word) => word in lexicon,
    ),
  };
}

export type Parts = ReturnType<typeof createParts>;
