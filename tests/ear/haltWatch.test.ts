import { describe, expect, it } from 'vitest';
import type { Grammar } from '../../src/domain/hearing/grammar';
import { Halting } from '../../src/ear/halting';
import { HaltWatch, type Halt, type WholeRecogniser } from '../../src/ear/haltWatch';
import type { HeardWords, Look, LookHow, Recogniser } from '../../src/ear/recognising';

const heard = (text: string, confidence: number): HeardWords => ({
  ...{ text, confidence, following: 'nothing' },
  ...{ spokenSeconds: 0.3, silenceSeconds: 0.05 },
});
const found = (text: string, confidence: number): Look => ({
  heard: heard(text, confidence),
  talk: null,
});
const NOTHING: Look = { heard: null, talk: null };
const grammar: Grammar = {
  prompt: 'idle',
  states: 2,
  finals: [1],
  arcs: [{ from: 0, to: 1, words: 'stop' }],
};
const OPEN = {
  grammar,
  lexicon: { stop: [['S', 'T', 'AA', 'P']], halt: [['HH', 'AO', 'L', 'T']] },
};
const latest = (seconds: number) => new Float32Array(Math.round(seconds * 16000));

/** Quick looks that find this; closer ones come when `come` is called, as from another thread. */
function watching(quickly: Look, more: { isSmall?: boolean } = {}) {
  const closer: {
    seconds: number;
    how: LookHow | undefined;
    come: (look: Look) => Promise<void>;
  }[] = [];
  const quick: Pick<Recogniser, 'look'> = { look: () => Promise.resolve(quickly) };
  const better: WholeRecogniser = {
    ...more,
    isApart: true,
    look: (samples, _grammar, _lexicon, how) =>
      new Promise((resolve) =>
        closer.push({
          seconds: samples.length / 16000,
          how,
          come: async (look) => {
            resolve(look);
            await new Promise(setImmediate);
          },
        }),
      ),
  };
  const watch = new HaltWatch(new Halting(quick, new Set(['stop', 'halt'])), better);
  return { watch, closer, look: (at: number) => watch.look(latest, OPEN, at) };
}
const said = (halt: Halt | null) => halt && [halt.heard.text, halt.beganSecondsAgo];

describe('a "stop" of which the quick look is not sure', () => {
  it('is looked at once by the better reader, in the same short sound, and halts as soon as that is back', async () => {
    const { watch, closer, look } = watching(found('stop', 0.15));
    expect(await look(1)).toBeNull();
    expect(closer).toMatchObject([{ seconds: 1.2, how: { once: true } }]);
    expect(await watch.back(1.03)).toBeNull();
    await closer[0]?.come(found('stop', 0.45));
    const halt = await watch.back(1.1);
    expect(halt?.heard.confidence).toBeCloseTo(1 - 0.85 * 0.55);
    expect(said(halt)).toEqual(['stop', expect.closeTo(0.45)]);
  });

  it('halts nothing where both together are not sure enough', async () => {
    const { watch, closer, look } = watching(found('stop', 0.15));
    await look(1);
    await closer[0]?.come(found('stop', 0.3));
    expect(await watch.back(1.1)).toBeNull();
  });

  it('one closer look at a time is out, and the next one after it', async () => {
    const { watch, closer, look } = watching(found('stop', 0.12));
    await look(1);
    await look(1.064);
    expect(closer).toHaveLength(1);
    await closer[0]?.come(NOTHING);
    expect(await watch.back(1.1)).toBeNull();
    await look(1.128);
    expect(closer).toHaveLength(2);
  });

  it('halts nothing where the better reader finds something else', async () => {
    for (const other of [NOTHING, found('halt', 0.9), found('pass', 0.9)]) {
      const { watch, closer, look } = watching(found('stop', 0.25));
      await look(1);
      await closer[0]?.come(other);
      expect(await watch.back(1.1)).toBeNull();
    }
  });

  it('halts no second time by a closer look that comes once it was told, or something else began', async () => {
    for (const settle of ['wasTold', 'forget'] as const) {
      const { watch, closer, look } = watching(found('stop', 0.25));
      await look(1);
      watch[settle](1.05);
      await closer[0]?.come(found('stop', 0.9));
      expect(await watch.back(1.1)).toBeNull();
    }
  });
});

it('a sure quick look waits for no other', async () => {
  const { closer, look } = watching(found('stop', 0.6));
  expect(said(await look(1))).toEqual(['stop', expect.closeTo(0.35)]);
  expect(closer).toEqual([]);
});

it('what begins everyday words is not looked at closer, nor is anything where the ear is the small one', async () => {
  const halting = watching(found('halt', 0.3));
  expect(await halting.look(1)).toBeNull();
  const small = watching(found('stop', 0.3), { isSmall: true });
  expect(await small.look(1)).toBeNull();
  expect([halting.closer, small.closer]).toEqual([[], []]);
});
