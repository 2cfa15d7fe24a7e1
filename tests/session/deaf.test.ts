import { describe, expect, it } from 'vitest';
import type { EarTrouble } from '../../src/ports';
import { book, openBench } from './bench';

const DEAF = book.lines['say.deaf'] ?? '';

describe('an ear that goes deaf in mid-session', () => {
  it.each<[EarTrouble, string]>([
    ['unplugged', 'the microphone is unplugged'],
    ['denied', 'the permission is revoked'],
    ['worker-failed', 'the worker of the recogniser crashed'],
    ['model-missing', 'its models are damaged or missing'],
  ])('%s, as where %s: it is said, the question asked again, and hands answer', (why) => {
    const bench = openBench();
    bench.untilAsked('check/hinge-unloaded');
    bench.ear({ type: 'deaf', why });
    expect(bench.of('trouble').at(-1)?.what).toBe(why);
    bench.seconds(1);
    expect(bench.cues().at(-1)).toBe(DEAF);
    bench.untilAsked('check/hinge-unloaded');
    bench.hand({ result: 'held' });
    bench.untilAsked('check/hinge-bar');
    // And once it hears again, so does the session.
    bench.ear({ type: 'hears-again' });
    bench.hear('clean');
    expect(bench.logged('finding').map(({ source }) => source.by)).toEqual(['hand', 'voice']);
  });
});
