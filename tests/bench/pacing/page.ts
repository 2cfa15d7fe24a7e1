/** In the page: beats of the app's way (left) and of an interval (right). */
import { createActor } from 'xstate';
import type { PacedLine } from '../../../src/domain/pacing/line';
import { createBrowserClock } from '../../../src/main/browserClock';
import type { Ports } from '../../../src/ports';
import { linesMachine } from '../../../src/session/linesMachine';
import { createStage } from '../../../src/session/stage';
import { createPlacedBeats } from '../../../src/tones/placedBeats';
import onsetsAddress from './onsets.ts?worker&url';

const LINE_SECONDS = 6;
const READ_EVERY_MILLISECONDS = 25;
const RUNNING_SECONDS = 4;

/** When each beat began, in seconds of the sound; none where they were not recorded in the page. */
export interface Beaten {
  ours: number[];
  interval: number[];
  /** The most that the sound's own clock fell behind true time: no beat can be placed truer. */
  stoodMilliseconds: number;
}

declare global {
  interface Window {
    beat(seconds: number, isRecorded: boolean): Promise<Beaten>;
  }
}

/** A click of 10 ms, the same for both. */
const click = (sampleRate: number) =>
  Float32Array.from({ length: sampleRate / 100 }, (_, at) => 0.8 * Math.sin(at / 3));

/**
 * Where each way plays: a channel of the card. Only without a card is it recorded here, since a
 * worklet that tidies up its memory can make the sound stand.
 */
async function places(context: AudioContext, isRecorded: boolean): Promise<[Place, Place]> {
  if (isRecorded) await context.audioWorklet.addModule(onsetsAddress);
  const bothChannels = new ChannelMergerNode(context, { numberOfInputs: 2 });
  bothChannels.connect(context.destination);
  const place = (channel: 0 | 1): Place => {
    const node = new GainNode(context);
    node.connect(bothChannels, 0, channel);
    if (!isRecorded) return { node, told: () => Promise.resolve([]) };
    const recorder = new AudioWorkletNode(context, 'onsets');
    node.connect(recorder).connect(context.destination);
    const told = () =>
      new Promise<number[]>((resolve) => {
        recorder.port.onmessage = ({ data }: MessageEvent<number[]>) => resolve(data);
        recorder.port.postMessage('tell');
      });
    return { node, told };
  };
  return [place(0), place(1)];
}

interface Place {
  node: AudioNode;
  told(): Promise<number[]>;
}

window.beat = async (seconds, isRecorded) => {
  const context = new AudioContext();
  const [ours, interval] = await places(context, isRecorded);
  const { sampleRate } = context;
  const samples = click(sampleRate);

  const clock = createBrowserClock();
  const beats = createPlacedBeats({
    make: () => Promise.resolve({ samples, sampleRate }),
    output: () => ({ context, destination: ours.node }),
    clock,
    volume: () => 1,
  });
  // In the app sound has run since the tap on "begin", and counts are prepared a step ahead.
  while (context.currentTime < RUNNING_SECONDS) {
    beats.prepare(['one']);
    await new Promise<void>((run) => clock.setTimeout(run, READ_EVERY_MILLISECONDS));
  }
  const silent = {
    ear: { attend: () => undefined, listen: () => () => undefined },
    voice: { say: () => () => undefined, prepare: () => undefined, adjust: () => undefined },
    tones: { play: () => undefined, hush: () => undefined },
    screen: { show: () => undefined },
  };
  const ports = { ...silent, clock, beats } as unknown as Ports;
  const stage = createStage(
    {} as never,
    ports,
    () => 0.4,
    clock.now(),
    () => undefined,
  );
  const line: PacedLine = {
    phase: 'exhaling',
    atSeconds: 0,
    seconds: LINE_SECONDS,
    text: null,
    beats: Array.from({ length: LINE_SECONDS }, (_, atSeconds) => ({
      atSeconds,
      count: atSeconds + 1,
      text: 'one',
    })),
    rep: null,
    side: null,
  };
  const lines = Array.from({ length: Math.ceil(seconds / LINE_SECONDS) }, () => line);

  const buffer = context.createBuffer(1, samples.length, sampleRate);
  buffer.copyToChannel(samples, 0);
  // The naive way: an interval that plays what it has when it comes.
  const play = () => {
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(interval.node);
    source.start();
  };
  play();
  const naive = setInterval(play, 1000);
  const actor = createActor(linesMachine, { input: { stage, lines, from: 0 } });
  const aheadMilliseconds = () => 1000 * context.currentTime - clock.now();
  let [most, stoodMilliseconds] = [aheadMilliseconds(), 0];
  const readOn = () => {
    const ahead = aheadMilliseconds();
    most = Math.max(most, ahead);
    stoodMilliseconds = Math.max(stoodMilliseconds, most - ahead);
    reading = clock.setTimeout(readOn, READ_EVERY_MILLISECONDS);
  };
  let reading = clock.setTimeout(readOn, READ_EVERY_MILLISECONDS);
  const done = new Promise<void>((resolve) => actor.subscribe({ complete: resolve }));
  actor.start();
  await done;
  clearInterval(naive);
  clock.clearTimeout(reading);
  const beaten = { ours: await ours.told(), interval: await interval.told(), stoodMilliseconds };
  await context.close();
  return beaten;
};
