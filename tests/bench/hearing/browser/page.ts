/**
 * The bench's page: the app's own ear, worklet and worker, with a microphone into which the bench
 * plays. Built by building.ts; driven by driving.ts.
 */
import { book, lexicon } from '../../../../src/cues/page';
import { grammarOf } from '../../../../src/domain/hearing/building';
import { promptsOf } from '../../../../src/domain/hearing/prompts';
import { createDeviceEar, type DeviceEar } from '../../../../src/ear/deviceEar';
import { createBrowserClock } from '../../../../src/main/browserClock';
import type { Hearing } from '../../../../src/ports';
import { FrameCount } from './frameCount';
import type { OnThePage, Scored } from './onThePage';
import { PlayedMicrophone } from './playedMicrophone';
import type { ToScoring } from './scoring';

declare global {
  interface Window {
    bench: OnThePage;
  }
}

/** A reply that was begun is waited for so long after the end of its sound. */
const LATEST_MILLISECONDS = 5000;
const assetsBase = new URL('/', location.href).href;
const frameCount = new FrameCount();
let played: PlayedMicrophone | undefined;

const newEar = (): DeviceEar =>
  createDeviceEar({
    grammarFor: (prompt) => grammarOf(book, prompt),
    lexicon,
    assetsBase,
    clock: createBrowserClock(),
  });
let ear: DeviceEar | undefined;
const theEar = () => {
  if (ear === undefined) throw new Error('The bench has not started the ear.');
  return ear;
};

const soundAt = async (address: string) =>
  new Float32Array(await (await fetch(address)).arrayBuffer());

window.bench = {
  async start(sampleRate) {
    played?.close();
    played = new PlayedMicrophone(sampleRate);
    const began = performance.now();
    ear ??= newEar();
    await ear.ready;
    const readyMilliseconds = performance.now() - began;
    const trouble = await ear.open();
    if (trouble !== null) throw new Error(`The microphone did not open: ${trouble}.`);
    return { sampleRate: await played.settled(), readyMilliseconds };
  },

  async hear({ address, prompt, endSeconds }) {
    const sound = await soundAt(address);
    const told: { text: string; confidence: number; at: number }[] = [];
    let open = false;
    const cancel = theEar().listen((hearing: Hearing) => {
      open = hearing.type === 'onset' || hearing.type === 'so-far';
      if (hearing.type !== 'words') return;
      told.push({ text: hearing.text, confidence: hearing.confidence, at: performance.now() });
    });
    theEar().attend(prompt);
    const ended = await played?.play(sound, endSeconds);
    // On a busy machine the answer is late: a long wait, but no reply of the next sound.
    const until = performance.now() + LATEST_MILLISECONDS;
    while (open && performance.now() < until) await new Promise(requestAnimationFrame);
    cancel();
    return {
      told: told.map(({ text, confidence, at }) => ({
        text,
        confidence,
        afterMilliseconds: at - (ended ?? 0),
      })),
    };
  },

  switches() {
    // An ear that has attended nothing yet.
    const fresh = newEar();
    const prompts = promptsOf(book).map(({ prompt }) => prompt);
    const timed = () =>
      prompts.map((prompt) => {
        const began = performance.now();
        fresh.attend(prompt);
        return performance.now() - began;
      });
    const [first, again] = [timed(), timed()];
    fresh.close();
    return { first, again };
  },

  async score(asked) {
    const worker = new Worker(new URL('./scoring.ts', import.meta.url), { type: 'module' });
    const sounds = await Promise.all(
      asked.map(async ({ address, prompt, fromSeconds, toSeconds }) => ({
        samples: (await soundAt(address)).slice(fromSeconds * 16000, toSeconds * 16000),
        grammar: grammarOf(book, prompt),
      })),
    );
    const prompts = promptsOf(book).map(({ prompt }) => grammarOf(book, prompt));
    const scored = await new Promise<Scored>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<Scored>) => resolve(data);
      worker.onerror = ({ message }) => reject(new Error(message));
      worker.postMessage({ assetsBase, lexicon, prompts, sounds } satisfies ToScoring);
    });
    worker.terminate();
    return scored;
  },

  async feed(address, replies) {
    const sound = await soundAt(address);
    let heard = 0;
    for (let at = 0; at < replies; at += 1) {
      const answered = new Promise<boolean>((resolve) => {
        const cancel = theEar().listen(({ type }) => {
          if (type === 'onset' || type === 'so-far') return;
          cancel();
          resolve(type === 'words');
        });
      });
      // No two sounds are the same, as in a room.
      theEar().feed(
        sound.map((sample) => sample + (Math.random() - 0.5) * 0.003),
        16000,
      );
      if (await answered) heard += 1;
    }
    return heard;
  },

  frames: () => frameCount.take(),
};
