import type { Page } from 'playwright-core';
import { fliteInNode, SAYSO_VOICE } from '../../src/voice/node';

type Spoken = [samples: number[], sampleRate: number];
type Handed = Window & { speak: (...spoken: Spoken) => Promise<void> };

/** In the page, before anything of it: a microphone into which the test speaks. */
export function handMicrophone() {
  let into: { context: AudioContext; stream: MediaStreamAudioDestinationNode } | null = null;
  navigator.mediaDevices.getUserMedia = () => {
    const context = new AudioContext();
    into = { context, stream: context.createMediaStreamDestination() };
    return Promise.resolve(into.stream.stream);
  };
  Object.assign(window, {
    speak: async (samples: number[], sampleRate: number) => {
      if (into === null) throw new Error('The microphone is not open.');
      const { context, stream } = into;
      await context.resume();
      const buffer = context.createBuffer(1, samples.length, sampleRate);
      buffer.copyToChannel(Float32Array.from(samples), 0);
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(stream);
      source.start();
      await new Promise((ended) => {
        source.onended = ended;
      });
    },
  });
}

/** Speaks a text into the microphone; silence is held after it. */
export async function speak(
  page: Page,
  text: string,
  { voice = SAYSO_VOICE, silenceSeconds = 0 } = {},
): Promise<void> {
  const { samples, sampleRate } = (await fliteInNode()).synthesize(text, voice);
  const silence = new Array<number>(Math.round(silenceSeconds * sampleRate)).fill(0);
  await page.evaluate(([spoken, rate]) => (window as unknown as Handed).speak(spoken, rate), [
    [...samples.map((sample) => sample * 0.5), ...silence],
    sampleRate,
  ] as Spoken);
}
