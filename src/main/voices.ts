import type { Clock, Voice } from '../ports';
import type { VoicesState } from '../screens/seat';
import { createBrowserVoice } from '../voice/browserVoice';
import { choicesOf } from '../voice/choosing';
import { fallingBack } from '../voice/fallingBack';
import type { SharedManner } from '../voice/manner';
import { measuredPaces, pacesFrom } from '../voice/pace';
import { keptText } from './keptText';

/** Stands for the shipped voice where a device's voice would have its address. */
export const SHIPPED_ID = 'sayso';

export interface Voices {
  /** The chosen voice, the other one where it fails. */
  voice: Voice;
  state(): VoicesState;
  choose(id: string): void;
}

/**
 * The voices of this device and the shipped one, as one voice: the one that was chosen speaks, or
 * where none was, the device's best unless it is a poor one. What is chosen, and how fast each
 * voice was measured to speak, is kept on the device.
 */
export function createVoices({
  synthesis,
  shipped,
  manner,
  clock,
  language,
  storage,
  changed,
}: {
  synthesis: SpeechSynthesis | undefined;
  /** Null where it does not speak the language: then only the device's voices do. */
  shipped: Voice | null;
  manner: SharedManner;
  clock: Clock;
  language: string;
  storage: () => Storage;
  /** The voices have come, or another was chosen. */
  changed: () => void;
}): Voices {
  const keptChoice = keptText(
    storage,
    shipped === null ? `sayso-voice-${language}` : 'sayso-voice',
  );
  const keptPaces = keptText(storage, 'sayso-paces');
  let chosen = keptChoice.load();
  const paces = measuredPaces(pacesFrom(keptPaces.load() ?? ''), (known) =>
    keptPaces.save(JSON.stringify(known)),
  );
  const browser = createBrowserVoice({
    ...{ synthesis, clock, language, manner, paces },
    chosen: () => chosen,
  });
  const device = () => choicesOf(synthesis?.getVoices() ?? [], language);
  const first =
    shipped === null
      ? { device: browser, shipped: browser }
      : { device: fallingBack(browser, shipped), shipped: fallingBack(shipped, browser) };
  /** The voice that speaks; null while the device shows none, which may still come. */
  const speaks = (): string | null => {
    const voices = device();
    if ((chosen === SHIPPED_ID && shipped !== null) || voices.some(({ id }) => id === chosen))
      return chosen;
    const [best] = voices;
    return best?.quality === 'poor' && shipped !== null ? SHIPPED_ID : (best?.id ?? null);
  };
  const speaker = () => (speaks() === SHIPPED_ID ? first.shipped : first.device);
  synthesis?.addEventListener('voiceschanged', changed);
  return {
    voice: {
      say: (text, options) => speaker().say(text, options),
      prepare: (texts) => speaker().prepare(texts),
      // Through both voices what they share would change twice.
      adjust: manner.adjust,
      duck: (isDucked) => first.device.duck(isDucked),
      stretch: () => manner.now().stretch,
    },
    state: () => {
      const id = speaks();
      return {
        device: device(),
        speaks: id,
        wordsPerMinute: id === null ? null : paces.naturalOf(id),
      };
    },
    choose(id) {
      chosen = id;
      keptChoice.save(id);
      changed();
    },
  };
}
