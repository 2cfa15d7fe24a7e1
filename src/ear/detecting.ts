import { sessionOf, type Runtime } from './phoneReader';

/** Samples at 16 kHz that the detector judges at a time: 32 ms. */
export const FRAME = 512;
/** Samples of the frame before that the model wants to see again. */
const CONTEXT = 64;
const STATE = [2, 1, 128];
/**
 * Frames of quiet (1 s) after which the detector begins afresh: its memory of a long silence made
 * it miss one short, loud word in four.
 */
const FORGETS_AFTER_FRAMES = 32;
const QUIET_BELOW = 0.1;

/** Tells speech from other sound, frame by frame, remembering what came before. */
export interface Detector {
  /** Probability, 0 to 1, that somebody speaks in this frame of FRAME samples. */
  speech(frame: Float32Array): Promise<number>;
  /** Forgets what came before. */
  reset(): void;
}

/** Silero's voice detector, version 5. @throws Error where the model cannot be read. */
export async function createDetector(runtime: Runtime, model: Uint8Array): Promise<Detector> {
  const session = await sessionOf(runtime, model);
  const rate = new runtime.Tensor('int64', BigInt64Array.from([16000n]), []);
  const zero = () => new runtime.Tensor('float32', new Float32Array(256), STATE);
  let state = zero();
  let before = new Float32Array(CONTEXT);
  let quietFrames = 0;
  return {
    speech: async (frame) => {
      const input = new Float32Array(CONTEXT + FRAME);
      input.set(before);
      input.set(frame, CONTEXT);
      before = input.slice(FRAME);
      const sound = new runtime.Tensor('float32', input, [1, input.length]);
      const { output, stateN } = await session.run({ input: sound, state, sr: rate });
      const probability = (output?.data[0] as number | undefined) ?? 0;
      quietFrames = probability < QUIET_BELOW ? quietFrames + 1 : 0;
      const forgets = quietFrames >= FORGETS_AFTER_FRAMES;
      if (forgets) quietFrames = 0;
      if (stateN !== undefined) state = forgets ? zero() : (stateN as typeof state);
      return probability;
    },
    reset: () => {
      state = zero();
      quietFrames = 0;
      before = new Float32Array(CONTEXT);
    },
  };
}
