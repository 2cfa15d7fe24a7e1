/** A voice of the device, as a person chooses among them. */
export interface DeviceVoice {
  /** The browser's address of it, which stays the same. */
  id: string;
  name: string;
  quality: 'good' | 'plain' | 'poor';
}

/** Words in the names of voices that were made with more, or with less, care (common practice, no source). */
const GOOD = /enhanced|premium|natural|neural|wavenet|high quality/i;
const POOR = /e-?speak|compact|mbrola|robot|eloquence|novelty|pico/i;

const qualityOf = ({ name, voiceURI }: SpeechSynthesisVoice): DeviceVoice['quality'] => {
  const text = `${name} ${voiceURI}`;
  if (POOR.test(text)) return 'poor';
  return GOOD.test(text) ? 'good' : 'plain';
};

const RANK = { good: 0, plain: 1, poor: 2 } as const;

/**
 * The device's own voices of a language, the best first; among equals the browser's default, then
 * as the browser has them. A voice that needs a network is left out: it sends the lines away, and
 * breaks off without one.
 */
export function voicesOf(voices: SpeechSynthesisVoice[], language: string): SpeechSynthesisVoice[] {
  const rank = (voice: SpeechSynthesisVoice) =>
    RANK[qualityOf(voice)] * 2 + (voice.default ? 0 : 1);
  return voices
    .filter(({ lang, localService }) => localService && languageOf(lang) === languageOf(language))
    .toSorted((a, b) => rank(a) - rank(b));
}

/** The same as names to choose from. */
export const choicesOf = (voices: SpeechSynthesisVoice[], language: string): DeviceVoice[] =>
  voicesOf(voices, language).map((voice) => ({
    id: voice.voiceURI,
    name: voice.name,
    quality: qualityOf(voice),
  }));

const languageOf = (tag: string) => tag.toLowerCase().split(/[-_]/)[0];
