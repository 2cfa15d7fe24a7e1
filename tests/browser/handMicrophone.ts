import type { Page } from 'playwright-core';
import { fliteInNode, SAYSO_VOICE, type ShippedVoice } from '../../src/voice/node';

/** Sayso's own sound comes back into the microphone: so late, and so many decibels louder. */
export interface Leak {
  delaySeconds: number;
  decibels: number;
}

/** In the page. */
export interface Handed {
  Howler: { ctx: AudioContext; masterGain: GainNode };
  /** What the microphone hears of the page itself; set before it is opened. */
  leak?: Leak;
  /**
   * Speaks into the microphone, at that time of its clock or at once; the time at which it began,
   * once it is over.
   */
  speak(samples: number[], sampleRate: number, atSeconds?: number): Promise<number>;
  /** Whatever is spoken ends. */
  hush(): void;
}

/**
 * In the page, before anything of it: a microphone into which the test speaks. A quiet noise never
 * ends in it, as in a room: where nothing sounds, Chromium lets the microphone that a page makes
 * rest, and cuts holes of 5 to 190 ms into what is said next. On a busy machine 13 of 25 sounds had
 * one, none with the noise, and none through Chromium's own microphone that plays a file.
 */
export function handMicrophone() {
  const page = window as unknown as Handed;
  const spoken = new Set<AudioBufferSourceNode>();
  page.hush = () => spoken.forEach((source) => source.stop());
  let into: { context: AudioContext; out: MediaStreamAudioDestinationNode } | null = null;
  navigator.mediaDevices.getUserMedia = () => {
    // Own sound comes back without a break only on its own clock.
    const context = page.leak ? page.Howler.ctx : new AudioContext();
    const out = context.createMediaStreamDestination();
    const { sampleRate } = context;
    const room = context.createBuffer(1, 2 * sampleRate, sampleRate);
    room.copyToChannel(
      Float32Array.from({ length: 2 * sampleRate }, () => (Math.random() - 0.5) / 1000),
      0,
    );
    const noise = context.createBufferSource();
    noise.buffer = room;
    noise.loop = true;
    noise.connect(out);
    noise.start();
    if (page.leak) {
      const gain = context.createGain();
      gain.gain.value = 10 ** (page.leak.decibels / 20);
      const delay = context.createDelay();
      delay.delayTime.value = page.leak.delaySeconds;
      page.Howler.masterGain.connect(delay).connect(gain).connect(out);
    }
    into = { context, out };
    return Promise.resolve(out.stream);
  };
  page.speak = async (samples, sampleRate, atSeconds) => {
    if (into === null) throw new Error('The microphone is not open.');
    const { context, out } = into;
    await context.resume();
    const buffer = context.createBuffer(1, samples.length, sampleRate);
    buffer.copyToChannel(Float32Array.from(samples), 0);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(out);
    const begins = atSeconds ?? context.currentTime;
    source.start(begins);
    spoken.add(source);
    await new Promise((ended) => {
      source.onended = ended;
    });
    spoken.delete(source);
    return begins;
  };
}

/** Who speaks where nobody else is named: the voice of the cues, as a person. */
const PERSON: ShippedVoice = { ...SAYSO_VOICE, isClear: false };

/** Speaks a text into the microphone; silence is held after it. */
export async function speak(
  page: Page,
  text: string,
  { voice = PERSON, silenceSeconds = 0 } = {},
): Promise<void> {
  const { samples, sampleRate } = (await fliteInNode()).synthesize(text, voice);
  const silence = new Array<number>(Math.round(silenceSeconds * sampleRate)).fill(0);
  await page.evaluate(([spoken, rate]) => (window as unknown as Handed).speak(spoken, rate), [
    [...samples.map((sample) => sample * 0.5), ...silence],
    sampleRate,
  ] as [number[], number]);
}
