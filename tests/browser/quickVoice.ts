import type { Page } from 'playwright-core';

/**
 * Runs in the page: a voice of the device that says each line in no time, or in as long as
 * `linesTake` has set.
 */
export function speakAtOnce() {
  class Utterance extends EventTarget {
    voice = null;
    lang = 'en';
    rate = 1;
    volume = 1;
    constructor(readonly text: string) {
      super();
    }
  }
  const voice = { name: 'Quick (enhanced)', voiceURI: 'quick', lang: 'en-US', localService: true };
  const synthesis = Object.assign(new EventTarget(), {
    getVoices: () => [{ ...voice, default: true }],
    speak(line: Utterance) {
      setTimeout(() => line.dispatchEvent(new Event('start')), 5);
      const { lineMilliseconds = 20 } = window as { lineMilliseconds?: number };
      setTimeout(() => line.dispatchEvent(new Event('end')), lineMilliseconds);
    },
    cancel: () => undefined,
    resume: () => undefined,
    pause: () => undefined,
    ...{ speaking: false, pending: false, paused: false },
  });
  Object.defineProperty(window, 'speechSynthesis', { value: synthesis });
  Object.defineProperty(window, 'SpeechSynthesisUtterance', { value: Utterance });
}

/** How long the voice of `speakAtOnce` takes for each line from now on. */
export const linesTake = (page: Page, lineMilliseconds: number): Promise<unknown> =>
  page.evaluate((taken) => Object.assign(window, { lineMilliseconds: taken }), lineMilliseconds);
